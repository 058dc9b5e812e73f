package trace

import (
	"cmp"
	"slices"

	"asfound/evidence"
	"asfound/installation"
	"asfound/observation"
)

// add takes a solved group's lines into the trace.
func (t *Trace) add(g *group) {
	for _, x := range g.ends {
		v := g.weighed[x.point].Verdict(true)
		l := &Line{End: x.point, Verdict: v, Source: g.sources[v.Best.Key], RestsOn: x.rests, group: g, against: &against{}}
		l.Closed, l.Silent = x.closed(), x.silent
		for _, o := range v.Others {
			l.Others = append(l.Others, g.sources[o.Key])
		}
		t.Lines = append(t.Lines, l)
		t.byEnd[x.point] = l
		t.byPlace[x.point.At] = append(t.byPlace[x.point.At], l)
	}
}

// unsure adds the lines of ends of which every reading is in doubt because its
// resistor was put on again and nobody knows which came first, or because power
// was put on before it.
func (t *Trace) unsure(c collected) {
	for _, u := range c.unsure {
		l := t.byEnd[u.point]
		if l == nil {
			l = &Line{End: u.point, group: &group{}, Verdict: evidence.Verdict{Standing: evidence.Untested},
				lacks: u.lacks()}
			t.Lines = append(t.Lines, l)
			t.byEnd[u.point] = l
			t.byPlace[u.point.At] = append(t.byPlace[u.point.At], l)
		}
		l.RestsOn = append(slices.Clone(l.RestsOn), u.id)
		l.fallBack(u)
	}
}

// fallBack takes a line back to undecided where a reading from after power was put
// on showed something else: leaving it out must not make the line firmer.
func (l *Line) fallBack(u unsure) {
	agrees := l.Source.shares(u.shown) || u.shown.Kind == Nothing && l.Source.Kind == Nothing
	if !u.powered || !l.firm() || agrees {
		return
	}
	l.Verdict.Standing, l.lacks = evidence.Undecided, "A reading with the panel dead: one taken after power was put on showed something else."
	if u.shown.Kind != NoAnswer {
		l.Others = append(slices.Clone(l.Others), u.shown)
	}
}

func (u unsure) lacks() string {
	if u.powered {
		return "Another reading: power was put on before this one, and no absence-of-voltage test came between."
	}
	return "Another reading: its resistor was put on again, and nobody knows whether before this reading or after."
}

// closed reports whether some reading of an end was no more than conductors, and
// the same pair was not read otherwise later.
func (x *end) closed() bool {
	return slices.ContainsFunc(x.readings, func(r reading) bool {
		return r.shown.kind == showsClosed && !slices.ContainsFunc(x.readings, func(o reading) bool {
			return o.other == r.other && o.shown.kind != showsClosed && o.event.Follows(r.event)
		})
	})
}

// restsOn lists the observations an end's line leans on: its readings, the
// letters and looks of its stops, the tours, resistors and read-backs it names.
func (x *end) restsOn(in *installation.Installation) []observation.ID {
	var out []observation.ID
	for _, s := range x.opening.Stops {
		for _, e := range s.Letters {
			out = append(out, e.ID)
		}
	}
	lists := map[*list]bool{}
	for _, r := range x.left {
		out = append(out, r.event.ID)
	}
	for _, r := range x.readings {
		out = append(out, r.event.ID)
		out = append(out, r.event.Under...)
		lists[r.list] = true
	}
	for l := range lists {
		for _, p := range l.puts {
			if slices.Contains(x.named, p.on) {
				out = append(out, p.event.ID)
			}
		}
		for _, t := range l.tours {
			for _, e := range in.Tour(t.ID).ReadBacks {
				if slices.Contains(x.named, e.Body.(observation.ReadBack).At) {
					out = append(out, e.ID)
				}
			}
		}
	}
	slices.SortFunc(out, observation.ID.Compare)
	return slices.Compact(out)
}

// finish orders the lines and works out what follows from them together.
func (t *Trace) finish(in *installation.Installation, tr *Tracer) {
	order := map[observation.Thing]int{}
	for i, o := range in.Openings {
		order[o.Thing] = i
	}
	slices.SortStableFunc(t.Lines, func(a, b *Line) int {
		return cmp.Or(cmp.Compare(order[a.End.At], order[b.End.At]), cmp.Compare(a.End.Cable, b.End.Cable))
	})
	for _, ls := range t.byPlace {
		slices.SortStableFunc(ls, func(a, b *Line) int { return cmp.Compare(a.End.Cable, b.End.Cable) })
	}
	t.Joins = joins(in, tr.rates)
	groups := map[observation.Thing][][]int{}
	for _, p := range in.Panels {
		groups[p.Thing] = t.JoinedGroups(p.Thing)
	}
	for _, l := range t.Lines {
		l.joinedToo(t, groups)
		l.looks(in)
	}
	t.through(in)
	t.pair(in)
	for _, l := range t.Lines {
		for _, p := range l.Source.spaces() {
			t.bySpace[p] = append(t.bySpace[p], l)
		}
	}
	t.Clashes = t.clashes(in)
	t.Oddities = t.oddities(in)
	for _, o := range in.Openings {
		if len(o.Stops) > 0 {
			t.Again = append(t.Again, tr.spot(in, o, t)...)
		}
	}
}

// joinedToo adds the spaces found joined with a line's space at the panel. A
// line that says so stands no firmer than the join does.
func (l *Line) joinedToo(t *Trace, groups map[observation.Thing][][]int) {
	if l.Source.Kind != FromSpace {
		return
	}
	for _, g := range groups[l.Source.At.At] {
		if !slices.Contains(g, l.Source.At.Space) {
			continue
		}
		also := slices.Clone(l.Source.Also)
		for _, s := range g {
			p := SpacePoint(l.Source.At.At, s)
			if p != l.Source.At && !slices.Contains(also, p) {
				also = append(also, p)
			}
		}
		l.Source.Also = also
		l.heldBy(t, g)
	}
}

// heldBy lets a line stand no firmer than the joins of a group of spaces.
func (l *Line) heldBy(t *Trace, spaces []int) {
	for _, x := range t.Joins {
		if x.Panel != l.Source.At.At || x.Bar != "" || x.Kind != Joined || !slices.Contains(spaces, x.A) {
			continue
		}
		l.RestsOn = append(slices.Clone(l.RestsOn), x.RestsOn...)
		if l.Verdict.Standing == evidence.Settled && x.Verdict.Standing != evidence.Settled {
			l.Verdict.Standing = evidence.Likely
			l.lacks = "The join of its circuits read once more at the panel."
		}
	}
}

// looks adds the room checks that bear on a line to what it rests on.
func (l *Line) looks(in *installation.Installation) {
	o := in.Opening(l.End.At)
	if o == nil || in.Room(o.Room) == nil {
		return
	}
	for _, e := range in.Room(o.Room).Checks {
		if len(e.Under) > 0 && slices.Contains(l.RestsOn, e.Under[0]) {
			l.RestsOn = append(slices.Clone(l.RestsOn), e.ID)
		}
	}
}

// pair mirrors what was read in a pairing tour: the end that carried the
// resistor has its other end where the resistor was read. Its own open reading,
// taken before the resistor was on, is no sign that it is dead; any other reading
// of its own stands. Where two ends read its resistor, none is mirrored.
func (t *Trace) pair(in *installation.Installation) {
	read := map[observation.Point][]*Line{}
	for _, l := range t.Lines {
		if l.Source.Kind == FromEnd {
			read[l.Source.At] = append(read[l.Source.At], l)
		}
	}
	for _, tour := range in.Tours {
		for _, e := range tour.Resistors {
			on := e.Body.(observation.Resistor).On
			l := t.byEnd[on]
			if tour.Means != observation.ByPairing || l == nil || !l.openBefore(e) {
				continue
			}
			if far := read[on]; len(far) == 1 {
				l.Source = Source{Kind: FromEnd, At: far[0].End}
				l.Others, l.Verdict, l.RestsOn = far[0].Others, far[0].Verdict, far[0].RestsOn
				l.group, l.mirrors = far[0].group, far[0]
			} else {
				l.Others, l.Source = nil, Source{Kind: NoAnswer}
				l.Verdict.Standing = evidence.Untested
			}
		}
	}
}

// openBefore reports whether all that was read at an end is open, from before a
// resistor was put on it.
func (l *Line) openBefore(resistor observation.Event) bool {
	x := l.group.end(l.End)
	return x != nil && !slices.ContainsFunc(x.readings, func(r reading) bool {
		return r.shown.kind != showsOpen || !resistor.Follows(r.event)
	})
}
