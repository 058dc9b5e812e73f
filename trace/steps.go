package trace

import (
	"slices"

	"asfound/evidence"
	"asfound/installation"
	"asfound/observation"
	"asfound/step"
)

// tour proposes what a standing tour needs: read-backs, openings to read, rooms
// to look around, and the end.
func (p *proposer) tour(t *installation.Tour) {
	waiting, left := 0, 0
	for _, b := range p.in.Buildings {
		if !p.walks[t.ID][b.Thing] {
			continue
		}
		waiting += p.waits[b.Thing].ends
		for _, room := range p.built[b.Thing] {
			left += p.room(t, p.in.Room(room))
		}
	}
	p.readBacks(t, waiting)
	if left == 0 {
		p.takeOff(t)
	}
}

// readBacks proposes to read back the resistors of a tour, panel by panel. Every
// line on a resistor that was not read back is likely at best.
func (p *proposer) readBacks(t *installation.Tour, waiting int) {
	missing := map[observation.Thing]int{}
	gain := map[observation.Thing]float64{}
	for _, on := range unread(t, false) {
		missing[on.At]++
		gain[on.At] += (1 - worthLikely) * float64(waiting) / float64(len(t.Resistors))
		for _, l := range p.t.bySpace[on] {
			if l.Verdict.Standing == evidence.Likely {
				gain[on.At] += 1 - worthLikely
			}
		}
	}
	for _, at := range t.Panels {
		n := missing[at]
		if n == 0 {
			continue
		}
		p.add(Proposal{Step: step.Step{Key: "back " + t.ID.String() + " " + string(at), Tour: t.ID.String(), Kind: step.ReadBack, Place: string(at), Where: "Panel " + p.in.Name(at), Caution: deadCaution,
			Do:        []string{"Read each resistor at the space the sheet names, in the sheet's order.", "Write what the meter shows; do not look at the list."},
			WriteDown: "ohms", StopIf: "a space reads open or shows voltage", Reason: "A resistor on a wrong space would spoil every line of its circuit: " + counted(n, "resistor") + " not read back.",
			Minutes: minutesReadBack * float64(n), Bring: []string{"ohmmeter"}},
			Gain: max(gain[at], worthSmall*float64(n))}, t.Panels...)
	}
}

// takeOff proposes to end a tour of which nothing is left to read.
func (p *proposer) takeOff(t *installation.Tour) {
	gain := worthSmall * float64(len(t.Resistors))
	for _, e := range t.Resistors {
		for _, l := range p.t.bySpace[e.Body.(observation.Resistor).On] {
			if l.Verdict.Standing == evidence.Likely {
				gain += 1 - worthLikely
			}
		}
	}
	at := t.Panels[0]
	p.add(Proposal{Step: step.Step{Key: "off " + t.ID.String(), Tour: t.ID.String(), Kind: step.TakeOff, Place: string(at), Where: "Panel " + p.in.Name(at), Caution: deadCaution,
		Do:        []string{"Read each resistor once more, blind, in the sheet's order.", "Take it off.", "Count them back."},
		WriteDown: "ohms, and the count", StopIf: "one is missing: nothing is energized until it is found",
		Reason:  "Nothing is left to read on this tour; read back at the end, its resistors show that nothing was moved during the walk.",
		Minutes: minutesReadBack*float64(len(unread(t, true))) + minutesReadBack*float64(len(t.Resistors)), Bring: []string{"ohmmeter"}},
		Gain: gain}, t.Panels...)
}

// Fits reports whether a read-back shows the resistor that its tour has noted
// there.
func Fits(t *installation.Tour, b observation.ReadBack) bool {
	return listOf([]*installation.Tour{t}).fits(b)
}

// fits is Fits for a list made once. It asks for no pairs of resistors, which
// takes most of the time of reading a value.
func (l *list) fits(b observation.ReadBack) bool {
	i, ok := l.set.Named(b.Ohm)
	return ok && l.puts[i].on == b.At
}

// unread lists where the resistors of a tour are whose latest read-back of this
// sort does not show them, or that have none.
func unread(t *installation.Tour, after bool) []observation.Point {
	var out []observation.Point
	l := listOf([]*installation.Tour{t})
	for _, e := range t.Resistors {
		on := e.Body.(observation.Resistor).On
		seen := false
		for _, b := range t.ReadBacks {
			if r := b.Body.(observation.ReadBack); r.At == on && r.After == after && !e.Follows(b) {
				seen = l.fits(r)
			}
		}
		if !seen {
			out = append(out, on)
		}
	}
	return out
}

// room proposes to read the openings of a room, or to look around it, and returns
// how many openings of it are left to read.
func (p *proposer) room(t *installation.Tour, room *installation.Room) int {
	if left := p.left[room.Thing]; len(left) > 0 {
		s := readStep(t, room, left...)
		s.Key = "read " + string(room.Thing)
		s.Reason = "Not read yet in this room: " + counted(len(left), "opening") + "; the resistors are on."
		ends := 0
		for _, o := range left {
			ends += hots(o)
		}
		p.add(Proposal{Step: s, Gain: worthLikely * float64(ends)}, t.Panels...)
		return len(left)
	}
	unsure, read := 0, false
	for _, o := range p.rooms[room.Thing] {
		read = read || o.ReadUnder(t.ID)
		for _, l := range p.t.At(o.Thing) {
			if l.Verdict.Standing == evidence.Likely && !l.Silent {
				unsure++
			}
		}
	}
	if unsure > 0 && read && !looked(t, room) {
		p.add(Proposal{Step: step.Step{Key: "look " + string(room.Thing), Tour: t.ID.String(), Kind: step.LookRound, Place: string(room.Thing), Where: room.Name,
			Do:        []string{"Look at the tape of every opening in the room.", "Each one read bears one new pencil mark."},
			WriteDown: "yes, or the numbers without a mark", StopIf: "a box stands open that nobody is at",
			Reason:  "It shows that no reading was written against a wrong opening: " + counted(unsure, "line") + " here could be.",
			Minutes: minutesLook}, Gain: (1 - worthLikely) * float64(unsure)})
	}
	return 0
}

func looked(t *installation.Tour, room *installation.Room) bool {
	return slices.ContainsFunc(room.Checks, func(e observation.Event) bool { return slices.Contains(e.Under, t.ID) })
}

// readStep reads openings of a room under a tour.
func readStep(t *installation.Tour, room *installation.Room, openings ...*installation.Opening) step.Step {
	s := step.Step{Kind: step.Read, Tour: t.ID.String(), Place: string(openings[0].Thing), Where: openings[0].Number + ", " + room.Name, Caution: deadCaution,
		Do:        []string{"Test for voltage here too: tester on a known source, every conductor, tester again.", "Note the two letters on the tape.", "Read hot to ground.", "Lift both leads. Read hot to neutral.", "Put a pencil mark on the tape."},
		WriteDown: "letters, two readings", StopIf: "anything shows voltage", Bring: []string{"ohmmeter", "tester", "known source", "pencil"}}
	for _, o := range openings {
		s.Places = append(s.Places, string(o.Thing))
		s.Minutes += minutesAt(o)
	}
	return s
}

// leaves says what a settling reading may leave open.
func leaves(sets int) string {
	if sets <= 1 {
		return ""
	}
	return ", or leaves at most " + number(sets) + " explanations"
}

// tourAt returns a standing tour under which a building is read with every panel
// held, or nil.
func (p *proposer) tourAt(building observation.Thing) *installation.Tour {
	for _, t := range p.tours {
		if len(t.Resistors) > 0 && p.walks[t.ID][building] && p.allHeld(t.Panels) {
			return t
		}
	}
	return nil
}

// clashes proposes the reading that decides each clash best, at its opening or
// at a panel.
func (p *proposer) clashes() {
	for _, c := range p.t.Clashes {
		o := p.in.Opening(c.Lines[0].End.At)
		if o == nil || p.live[o.Thing] || len(c.Sets) == 0 || c.Settle.Leaves >= len(c.Sets) {
			continue // no reading decides it; the page of the clash says what does
		}
		room := p.in.Room(o.Room)
		if room == nil {
			continue
		}
		tour := p.tourAt(room.Building)
		if tour == nil {
			continue
		}
		x := Proposal{Step: readStep(tour, room, o),
			Gain: (1 - worthOpen) * float64(len(c.Lines)) * float64(len(c.Sets)-c.Settle.Leaves) / float64(len(c.Sets))}
		x.Reason = "Its readings cannot all be right; one more decides" + leaves(c.Settle.Leaves) + "."
		if c.Settle.Back && slices.Contains(tour.Panels, c.Settle.At.At) {
			x.Step = p.backFor(tour, o, c.Settle)
		}
		x.Key = "clash " + string(o.Thing)
		p.add(x, tour.Panels...)
	}
}

// backFor reads one resistor back to decide a clash.
func (p *proposer) backFor(t *installation.Tour, o *installation.Opening, s Settle) step.Step {
	return step.Step{Kind: step.ReadBack, Tour: t.ID.String(), Place: string(s.At.At), Where: p.in.PointName(s.At), Caution: deadCaution,
		Do:        []string{"Read back the resistor on " + p.in.PointName(s.At) + "."},
		WriteDown: "ohms", StopIf: "it reads open or shows voltage", Minutes: s.Minutes, Bring: []string{"ohmmeter"},
		Reason: "The readings at " + o.Number + " cannot all be right; this read-back decides" + leaves(s.Leaves) + "."}
}

// secondVisits proposes to go back where lines rest on one visit, one step for
// each room.
func (p *proposer) secondVisits() {
	at := map[observation.Thing]int{}
	for _, l := range p.t.Lines {
		o := p.in.Opening(l.End.At)
		if l.Verdict.Standing != evidence.Likely && l.Verdict.Standing != evidence.Undecided || l.Silent || o == nil || p.live[o.Thing] {
			continue
		}
		room := p.in.Room(o.Room)
		if room == nil {
			continue
		}
		tour := p.tourAt(room.Building)
		if tour == nil || l.Verdict.Standing == evidence.Likely && !looked(tour, room) {
			continue // the look around the room comes first: it is cheaper
		}
		i, ok := at[room.Thing]
		if !ok {
			i = len(p.out)
			at[room.Thing] = i
			x := Proposal{Step: readStep(tour, room, o), Why: func() string { return "What " + o.Number + " needs: " + l.Lacks() }}
			x.Key = "again " + string(room.Thing)
			p.add(x, tour.Panels...)
		} else if s := &p.out[i].Step; s.Places[len(s.Places)-1] != string(o.Thing) {
			s.Places, s.Minutes = append(s.Places, string(o.Thing)), s.Minutes+minutesAt(o)
		}
		p.out[i].Gain += again(l)
	}
}

// again is what one more reading is expected to bring a line. One that nothing
// reaches rests on every resistor: a reading at its opening does little for it.
func again(l *Line) float64 {
	switch {
	case l.Verdict.Standing == evidence.Undecided:
		return worthLikely - worthOpen
	case l.Source.Kind == Nothing:
		return worthSmall
	}
	return 1 - worthLikely
}
