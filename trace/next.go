package trace

import (
	"fmt"
	"slices"

	"asfound/evidence"
	"asfound/installation"
	"asfound/observation"
	"asfound/step"
)

// Minutes of each act (assumed).
const (
	minutesReading  = 15.0 / 60  // ohm reading at an opening
	minutesSecond   = 7.0 / 60   // another one without leaving
	minutesReadBack = 8.0 / 60   // a terminal read at a panel
	minutesPut      = 25.0 / 60  // a resistor on, and off again later
	minutesDead     = 900.0 / 60 // a panel opened, locked out and proven dead
	minutesRoom     = 8.0 / 60   // entering a room
	minutesPassing  = 4.0 / 60   // passing one
	minutesStairs   = 20.0 / 60
	minutesBuilding = 120.0 / 60 // to another building and into it
	minutesLook     = 10.0 / 60  // a look around a room for marks
	minutesSpace    = 10.0 / 60  // writing down what lands on a space
)

const deadCaution = "Dead only: every source open and locked out, the tester tried on a known source before and after, no voltage between any two conductors and to ground. Stop if anything reads live."

// planner proposes steps for somebody at a place.
type planner struct {
	in    *installation.Installation
	t     *Trace
	at    observation.Thing
	off   []string
	steps []candidate
}

// candidate is a step with how many lines it moves forward.
type candidate struct {
	step.Step
	gain    float64
	lacking func() string // works out the reason, for the few steps that are shown
}

// Next proposes the best three steps for somebody at a place, best first: most
// lines moved forward per minute, walking included. A step is proposed only if
// what it needs to be dead is on record as proven dead; else the test itself is.
// Steps whose keys the person put off follow the three, and count for none.
func (t *Trace) Next(in *installation.Installation, at observation.Thing, off ...string) []step.Step {
	p := &planner{in: in, t: t, at: at, off: off}
	if p.unrecorded() {
		return p.best()
	}
	for _, panel := range in.Panels {
		p.panel(panel)
	}
	p.tours()
	p.secondVisits()
	if len(p.steps) == 0 {
		return []step.Step{{Key: "rest", Kind: step.Rest, Where: "Here", Reason: t.rest(in)}}
	}
	return p.best()
}

// rest says what is left when there is no step to propose.
func (t *Trace) rest(in *installation.Installation) string {
	if n := len(t.Clashes); n > 0 {
		return "No single reading decides what still clashes (" + counted(n, "opening") + "). Open it under Trace: a reading that is plainly wrong is withdrawn there."
	}
	left := 0
	for _, l := range t.Lines {
		if l.Verdict.Standing != evidence.Settled {
			left++
		}
	}
	unread := 0
	for _, o := range in.Openings {
		if len(t.At(o.Thing)) == 0 {
			unread++
		}
	}
	if left+unread+len(t.Oddities) == 0 {
		return "Every line is settled and every opening was read."
	}
	return fmt.Sprintf("No dead reading to propose. Still open: %s not settled, %s not read, %s found that need a decision. See Trace.",
		counted(left, "line"), counted(unread, "opening"), counted(len(t.Oddities), "thing"))
}

func (p *planner) add(gain float64, to observation.Thing, s step.Step) {
	s.Place = string(to)
	s.Minutes += p.walk(to)
	p.steps = append(p.steps, candidate{Step: s, gain: gain})
}

func (p *planner) best() []step.Step {
	slices.SortStableFunc(p.steps, func(a, b candidate) int {
		switch x, y := a.gain/max(a.Minutes, 0.01), b.gain/max(b.Minutes, 0.01); {
		case x > y:
			return -1
		case x < y:
			return 1
		}
		return 0
	})
	const most = 3
	var out, passed []step.Step
	for _, c := range p.steps {
		off := slices.Contains(p.off, c.Key)
		if !off && len(out) == most {
			continue
		}
		if c.lacking != nil {
			c.Reason = "What it needs: " + c.lacking()
		}
		if off {
			passed = append(passed, c.Step)
		} else {
			out = append(out, c.Step)
		}
	}
	return append(out, passed...)
}

// walk is the minutes from where the person is to a place.
func (p *planner) walk(to observation.Thing) float64 {
	from, there := p.in.Opening(p.at), p.in.Opening(to)
	a, b := p.in.BuildingOf(p.at), p.in.BuildingOf(to)
	switch {
	case p.at == "" || p.at == to || a == nil || b == nil:
		return 0
	case a != b:
		return minutesBuilding
	case from == nil || there == nil:
		return minutesRoom
	case from.Room == there.Room:
		return minutesPassing
	}
	r, s := p.in.Room(from.Room), p.in.Room(there.Room)
	minutes := minutesRoom + minutesPassing*float64(max(r.Order-s.Order, s.Order-r.Order))
	if r.Floor != s.Floor {
		minutes += minutesStairs
	}
	return minutes
}

// unrecorded proposes what has to be on record before anything can be read.
func (p *planner) unrecorded() bool {
	switch {
	case len(p.in.Buildings) == 0:
		p.add(1, "", step.Step{Key: "buildings", Kind: step.Record, Where: "The property", Do: []string{"Record the first building."},
			WriteDown: "its name or letter", Reason: "Nothing is on record yet.", Minutes: 1})
	case len(p.in.Panels) == 0:
		p.add(1, "", step.Step{Key: "panels", Kind: step.Record, Where: "The panel", Do: []string{"Record the panel: its name and how many spaces it has.", "Photograph it as found."},
			WriteDown: "name, spaces", Reason: "Without a panel nothing can be traced to it.", Minutes: 2})
	case len(p.in.Openings) == 0:
		p.add(1, "", step.Step{Key: "openings", Kind: step.Record, Where: "Room by room", Do: []string{"Walk the building.", "Put a tape with number and check letters on each opening.", "Record it."},
			WriteDown: "number, what it is for, gangs", Reason: "Openings need numbers before they are read.", Minutes: 30, Bring: []string{"tape", "marker"}})
	default:
		return false
	}
	return true
}

// untested counts the openings of a panel's building at which nothing was read.
func (p *planner) untested(building observation.Thing) int {
	n := 0
	for _, o := range p.in.Openings {
		if b := p.in.BuildingOf(o.Thing); b != nil && b.Thing == building && len(p.t.At(o.Thing)) == 0 && o.NotReached == nil {
			n++
		}
	}
	return n
}

// panel proposes what a panel needs before its circuits can be read.
func (p *planner) panel(panel *installation.Panel) {
	waiting := float64(p.untested(panel.Building))
	if waiting == 0 {
		return
	}
	where := "Panel " + panel.Name
	if len(panel.Branches()) == 0 {
		p.add(waiting, panel.Thing, step.Step{Key: "spaces " + panel.Name, Kind: step.Record, Where: where,
			Do:        []string{"Go down the left column, then the right.", "For each space write the breaker and whether a branch conductor lands there."},
			WriteDown: "poles, amperes, label as found, what lands", Reason: "It is not on record what lands on its spaces.",
			Caution: "An open panel may be live whatever its main says: gloves, and nothing bare is touched before it is proven dead.",
			Minutes: minutesSpace * float64(panel.Spaces), StopIf: "anything in the panel is live that you did not expect"})
		return
	}
	if !held(p.in, panel) {
		p.add(waiting, panel.Thing, step.Step{Key: "dead " + panel.Name, Kind: step.ProveDead, Where: where, Caution: deadCaution,
			Do:        []string{"Open and lock out every source of this panel.", "Try the tester on a known source.", "Test every conductor to every other and to ground.", "Try the tester again."},
			WriteDown: "lock, the three answers", StopIf: "any voltage shows, or the tester does not answer afterwards",
			Reason: "Waiting for dead readings from this panel: " + counted(int(waiting), "opening") + ".", Minutes: minutesDead, Bring: []string{"lock and tag", "tester", "known source"}})
		return
	}
	if open := PlanIsolation(p.in, panel.Thing).Open(); len(open) > 0 {
		p.add(waiting, panel.Thing, step.Step{Key: "isolation " + panel.Name, Kind: step.Isolate, Where: where, Caution: deadCaution,
			Do:        []string{"All branch breakers off, loads unplugged, wall switches on.", "Read each branch conductor against all others joined, then the bars."},
			WriteDown: "ohms of each line of the sheet", StopIf: "any reading shows voltage", MustBeOff: []string{where},
			Reason:  "It finds every circuit joined to another without a walk: " + counted(len(open), "reading") + ".",
			Minutes: minutesReadBack * float64(len(open)), Bring: []string{"ohmmeter", "jumpers"}})
		return
	}
	if t := p.tourOf(panel.Thing); t == nil || len(t.Resistors) == 0 {
		p.add(waiting, panel.Thing, putOn(panel, waiting))
	}
}

// putOn is the step of putting resistors on in a panel.
func putOn(panel *installation.Panel, waiting float64) step.Step {
	n := len(panel.Branches()) + len(coiled(panel))
	where := "Panel " + panel.Name
	return step.Step{Key: "resistors " + panel.Name, Kind: step.Place, Where: where, Caution: deadCaution,
		Do:        []string{"Lift each branch conductor off its breaker, or have the breaker open.", "Join the neutral bar to the ground bar.", "Put on the resistors as the list says."},
		WriteDown: "a tick for each", MustBeOff: []string{where}, StopIf: "any conductor shows voltage",
		Reason:  "Then one walk names the circuits of " + counted(int(waiting), "opening") + ".",
		Minutes: minutesPut * float64(n), Bring: []string{fmt.Sprintf("%d resistors", n), "clips"}}
}

// tourOf returns the standing tour a panel has resistors in, or nil.
func (p *planner) tourOf(panel observation.Thing) *installation.Tour {
	for _, t := range slices.Backward(p.in.Tours) {
		if !t.Removed && t.Means == observation.ByResistor && slices.Contains(t.Panels, panel) {
			return t
		}
	}
	return nil
}

// held reports whether a panel is on record as locked out and proven dead.
func held(in *installation.Installation, panel *installation.Panel) bool {
	_, dead := in.DeadSince(panel)
	return dead && panel.Locked()
}

// notHeld returns a panel of a tour that is not locked out and proven dead, or
// "" when all are.
func (p *planner) notHeld(t *installation.Tour) observation.Thing {
	for _, thing := range t.Panels {
		if panel := p.in.Panel(thing); panel == nil || !held(p.in, panel) {
			return thing
		}
	}
	return ""
}

// tours proposes what the standing tours need: read-backs, openings to read,
// rooms to look around, and the end.
func (p *planner) tours() {
	for _, t := range p.in.Tours {
		if t.Removed || t.Means != observation.ByResistor || len(t.Panels) == 0 {
			continue
		}
		if open := p.notHeld(t); open != "" {
			panel := p.in.Name(open)
			p.add(1, open, step.Step{Key: "dead " + panel, Kind: step.ProveDead, Where: "Panel " + panel, Caution: deadCaution,
				Do: []string{"Open and lock out every source of this panel.", "Try the tester on a known source, test, try it again."}, WriteDown: "lock, the three answers",
				StopIf: "any voltage shows", Reason: "The tour's readings need this panel dead.", Minutes: minutesDead})
			continue
		}
		p.tour(t)
	}
}

func (p *planner) tour(t *installation.Tour) {
	panel := t.Panels[0]
	where := "Panel " + p.in.Name(panel)
	if len(t.Resistors) == 0 {
		return // the panel's own step says so
	}
	if missing := unread(t, false); missing > 0 {
		p.add(float64(4*missing), panel, step.Step{Key: "back " + t.ID.String(), Kind: step.ReadBack, Where: where, Caution: deadCaution,
			Do:        []string{"Read each resistor at the space the sheet names, in the sheet's order.", "Write what the meter shows; do not look at the list."},
			WriteDown: "ohms", StopIf: "a space reads open", Reason: "A resistor on a wrong space would spoil every line of its circuit.",
			Minutes: minutesReadBack * float64(missing), Bring: []string{"ohmmeter"}, MustBeOff: []string{where}})
	}
	left := 0
	for _, room := range p.in.Rooms {
		left += p.room(t, room)
	}
	if left == 0 {
		p.add(float64(len(t.Resistors)), panel, step.Step{Key: "off " + t.ID.String(), Kind: step.TakeOff, Where: where, Caution: deadCaution,
			Do:        []string{"Read each resistor once more, blind, in the sheet's order.", "Take it off.", "Count them back."},
			WriteDown: "ohms, and the count", StopIf: "one is missing: nothing is energized until it is found",
			Reason:  "Read back at the end, they show that nothing was moved during the walk.",
			Minutes: minutesReadBack * float64(unread(t, true)), MustBeOff: []string{where}})
	}
}

// Fits reports whether a read-back shows the resistor that its tour has noted
// there.
func Fits(t *installation.Tour, b observation.ReadBack) bool {
	s := listOf([]*installation.Tour{t}).read(b.Ohm)
	return s.kind == showsNamed && s.named == b.At
}

// unread counts the resistors of a tour whose latest read-back of this sort does
// not show them, or that have none.
func unread(t *installation.Tour, after bool) int {
	n := 0
	l := listOf([]*installation.Tour{t})
	for _, e := range t.Resistors {
		on := e.Body.(observation.Resistor).On
		seen := false
		for _, b := range t.ReadBacks {
			if r := b.Body.(observation.ReadBack); r.At == on && r.After == after && !e.Follows(b) {
				s := l.read(r.Ohm)
				seen = s.kind == showsNamed && s.named == on
			}
		}
		if !seen {
			n++
		}
	}
	return n
}

// room proposes the next opening of a room, or the look around it, and returns
// how many openings of it are left to read.
func (p *planner) room(t *installation.Tour, room *installation.Room) int {
	if !walked(p.in, t.Panels)[room.Building] {
		return 0
	}
	left, unsure, first := 0, 0, (*installation.Opening)(nil)
	for _, o := range p.in.In(room.Thing) {
		lines := p.t.At(o.Thing)
		if len(lines) == 0 && o.NotReached == nil && !cannot(o) {
			left++
			if first == nil {
				first = o
			}
		}
		for _, l := range lines {
			if l.Verdict.Standing == evidence.Likely {
				unsure++
			}
		}
	}
	switch {
	case first != nil:
		p.add(2*float64(left), first.Thing, readStep(p.in, first, room, "Not read yet in this room: "+counted(left, "opening")+".", left))
	case unsure > 0 && !looked(t, room) && slices.ContainsFunc(p.in.In(room.Thing), func(o *installation.Opening) bool { return o.ReadUnder(t.ID) }):
		p.add(float64(unsure), p.in.In(room.Thing)[0].Thing, step.Step{Key: "look " + room.Name, Kind: step.LookRound, Where: room.Name,
			Do:        []string{"Look at the tape of every opening in the room.", "Each one read bears one new pencil mark."},
			WriteDown: "yes, or the numbers without a mark", Reason: "It shows that no reading was written against a wrong opening.", Minutes: minutesLook})
	}
	return left
}

func cannot(o *installation.Opening) bool {
	return slices.ContainsFunc(o.Stops, func(s *installation.Stop) bool { return len(s.Cannot) > 0 })
}

func looked(t *installation.Tour, room *installation.Room) bool {
	return slices.ContainsFunc(room.Checks, func(e observation.Event) bool { return slices.Contains(e.Under, t.ID) })
}

// leaves says what a settling reading may leave open.
func leaves(sets int) string {
	if sets <= 1 {
		return ""
	}
	return ", or leaves at most " + number(sets) + " explanations"
}

// readStep reads an opening, and those after it in the room.
func readStep(in *installation.Installation, o *installation.Opening, room *installation.Room, reason string, n int) step.Step {
	return step.Step{Key: "read " + string(o.Thing), Kind: step.Read, Where: o.Number + ", " + room.Name, Caution: deadCaution,
		Do:        []string{"Test for voltage here too: tester on a known source, every conductor, tester again.", "Note the two letters on the tape.", "Read hot to ground.", "Lift both leads. Read hot to neutral.", "Put a pencil mark on the tape."},
		WriteDown: "letters, two readings", StopIf: "anything shows voltage", Reason: reason,
		Minutes: (minutesReading + minutesSecond) * float64(n), Bring: []string{"ohmmeter"}}
}

// secondVisits proposes, under a standing tour, to settle clashes and to go
// back where a line rests on one visit.
func (p *planner) secondVisits() {
	var standing []*installation.Tour
	for _, t := range p.in.Tours {
		if p.notHeld(t) == "" && !t.Removed && t.Means == observation.ByResistor {
			standing = append(standing, t)
		}
	}
	tourAt := func(o *installation.Opening) *installation.Tour {
		for _, t := range standing {
			if b := p.in.BuildingOf(o.Thing); b != nil && walked(p.in, t.Panels)[b.Thing] {
				return t
			}
		}
		return nil
	}
	for _, c := range p.t.Clashes {
		o := p.in.Opening(c.Lines[0].End.At)
		if p.in.Room(o.Room) == nil || tourAt(o) == nil || c.Settle.Leaves >= len(c.Sets) {
			continue // no reading here decides it; the page of the clash says what does
		}
		s := readStep(p.in, o, p.in.Room(o.Room), "Its readings cannot all be right; one more decides"+leaves(c.Settle.Leaves)+".", 1)
		s.Key = "clash " + string(o.Thing)
		p.add(3, o.Thing, s)
	}
	for _, l := range p.t.Lines {
		o := p.in.Opening(l.End.At)
		if l.Verdict.Standing != evidence.Likely && l.Verdict.Standing != evidence.Undecided || l.Silent || o == nil {
			continue
		}
		room, tour := p.in.Room(o.Room), tourAt(o)
		if room == nil || tour == nil || l.Verdict.Standing == evidence.Likely && !looked(tour, room) {
			continue // the look around the room comes first: it is cheaper
		}
		s := readStep(p.in, o, room, "", 1)
		s.Key = "again " + string(o.Thing)
		p.add(0.5, o.Thing, s)
		p.steps[len(p.steps)-1].lacking = l.Lacks
	}
}
