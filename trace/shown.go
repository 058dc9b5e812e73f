package trace

import (
	"cmp"
	"slices"

	"asfound/installation"
	"asfound/observation"
	"asfound/pattern"
	"asfound/quantity"
)

// shown is what a reading amounts to: the one resistor it names, and the pairs
// of resistors that would read the same side by side.
type shown struct {
	kind  shownKind
	named observation.Point      // of showsNamed: where that resistor was noted
	pairs [][2]observation.Point // of any kind: two resistors on joined conductors
}

type shownKind int

const (
	showsOther shownKind = iota // a value that fits no single resistor
	showsOpen
	showsNamed
	showsClosed // no more than conductors in the path
)

// conductorMax is the greatest loop of conductor between panel and opening that
// a reading may hold: 20 ohms is more than 5,000 ft of 12 AWG copper out and
// back at 1.588 ohms per 1,000 ft.
const conductorMax quantity.Ohms = 20

// list is what the tours standing together have on their conductors, for
// reading values taken meanwhile.
type list struct {
	tours []*installation.Tour
	set   pattern.ResistorSet
	puts  []put // in the order of the set's values
	at    map[observation.Point]int
}

// put is a live resistor of a tour.
type put struct {
	event observation.Event
	tour  *installation.Tour
	on    observation.Point
	ohm   quantity.Ohms
	// moved is the latest of several records of this resistor or of this
	// conductor in its tour; zero when there is one only.
	moved observation.Event
}

// listOf reads the resistors of tours; the latest on a conductor counts. The
// coarsest tolerance and meter of them hold for all.
func listOf(tours []*installation.Tour) *list {
	l := &list{tours: tours, set: pattern.ResistorSet{ConductorMax: conductorMax}}
	for _, t := range tours {
		l.set.Tolerance = max(l.set.Tolerance, t.Tolerance)
		l.set.Meter.Relative = max(l.set.Meter.Relative, t.MeterRelative)
		l.set.Meter.AbsoluteOhm = max(l.set.Meter.AbsoluteOhm, t.MeterOhm)
		on := map[observation.Point]put{}
		for _, e := range t.Resistors {
			r := e.Body.(observation.Resistor)
			on[r.On] = put{event: e, tour: t, on: r.On, ohm: r.Ohm, moved: movedTo(t, e, r)}
		}
		for _, p := range on {
			l.puts = append(l.puts, p)
		}
	}
	slices.SortFunc(l.puts, func(a, b put) int {
		return cmp.Or(cmp.Compare(a.ohm, b.ohm), a.event.ID.Compare(b.event.ID))
	})
	l.at = make(map[observation.Point]int, len(l.puts))
	for i, p := range l.puts {
		l.set.Values = append(l.set.Values, p.ohm)
		l.at[p.on] = i
	}
	return l
}

// movedTo is the latest record of a tour, withdrawn and replaced ones included,
// that puts the same value elsewhere or another value on the same conductor: e
// itself or one after it. It is zero when e is the only such record.
func movedTo(t *installation.Tour, e observation.Event, r observation.Resistor) observation.Event {
	var last observation.Event
	others := 0
	for _, x := range t.Story {
		if o, ok := x.Body.(observation.Resistor); ok && (o.On == r.On || o.Ohm == r.Ohm) {
			last = x.Event
			others++
		}
	}
	if others < 2 {
		return observation.Event{}
	}
	return last
}

// atPanel reports whether a resistor is in a panel, on a space or on a cable that
// lies coiled there.
func (x put) atPanel() bool { return x.on.Space > 0 || slices.Contains(x.tour.Panels, x.on.At) }

// settledFor reports whether it is certain which record of a resistor an event
// met: there is one only, or the event follows the last of them.
func (x put) settledFor(e observation.Event) bool {
	return x.moved.ID.IsZero() || e.Follows(x.moved)
}

// read says what a value amounts to.
func (l *list) read(r quantity.Resistance) shown {
	switch {
	case r.Open:
		return shown{kind: showsOpen}
	case r.Ohm <= conductorMax && (len(l.puts) == 0 || r.Ohm < l.least()):
		return shown{kind: showsClosed}
	}
	var s shown
	if i, ok := l.set.Named(r); ok {
		s = shown{kind: showsNamed, named: l.puts[i].on}
	}
	for _, p := range l.set.Parallels(r) {
		s.pairs = append(s.pairs, [2]observation.Point{l.puts[p[0]].on, l.puts[p[1]].on})
	}
	return s
}

func (l *list) least() quantity.Ohms {
	least, _ := l.set.Accepts(0)
	return least
}

// find returns the resistor noted on a conductor.
func (l *list) find(p observation.Point) (put, bool) {
	if i, ok := l.at[p]; ok {
		return l.puts[i], true
	}
	return put{}, false
}

// putOn returns the resistor on a conductor, if the tours have one there that
// was not put on only later than the event, nor taken off before it.
func (l *list) putOn(p observation.Point, at observation.Event) (put, bool) {
	x, ok := l.find(p)
	return x, ok && !x.event.Follows(at) && !slices.ContainsFunc(x.tour.TakenOff, at.Follows)
}

// unit says by which factor a value that fits nothing would fit, when the unit
// was read wrong: 1000 or 1/1000.
func (l *list) unit(r quantity.Resistance) (as quantity.Resistance, ok bool) {
	for _, f := range []quantity.Ohms{1000, 0.001} {
		as = quantity.Resistance{Ohm: r.Ohm * f}
		if _, ok = l.set.Named(as); ok && !r.Open {
			return as, true
		}
	}
	return as, false
}
