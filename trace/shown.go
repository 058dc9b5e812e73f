package trace

import (
	"cmp"
	"slices"

	"asfound/installation"
	"asfound/observation"
	"asfound/pattern"
	"asfound/quantity"
)

// shown is what a reading under a tour amounts to.
type shown struct {
	kind  shownKind
	named observation.Point      // of showsNamed: where that resistor was noted
	pairs [][2]observation.Point // of showsPair: two resistors side by side
}

type shownKind int

const (
	showsOther shownKind = iota // a value that fits nothing on the list
	showsOpen
	showsNamed
	showsPair
	showsClosed // no more than conductors in the path
)

// conductorMax is the greatest loop of conductor between panel and opening that
// a reading may hold: 20 ohms is more than 5,000 ft of 12 AWG copper out and
// back at 1.588 ohms per 1,000 ft.
const conductorMax quantity.Ohms = 20

// list is what a tour has on its conductors, for reading its values.
type list struct {
	tour *installation.Tour
	set  pattern.ResistorSet
	puts []put // in the order of the set's values
}

// put is a live resistor of a tour.
type put struct {
	event observation.Event
	on    observation.Point
	ohm   quantity.Ohms
}

// listOf reads a tour's resistors; the latest on a conductor counts.
func listOf(t *installation.Tour) *list {
	on := map[observation.Point]put{}
	for _, e := range t.Resistors {
		r := e.Body.(observation.Resistor)
		on[r.On] = put{e, r.On, r.Ohm}
	}
	l := &list{tour: t, set: pattern.ResistorSet{Tolerance: t.Tolerance,
		Meter: pattern.Meter{Relative: t.MeterRelative, AbsoluteOhm: t.MeterOhm}, ConductorMax: conductorMax}}
	for _, p := range on {
		l.puts = append(l.puts, p)
	}
	slices.SortFunc(l.puts, func(a, b put) int {
		return cmp.Or(cmp.Compare(a.ohm, b.ohm), a.event.ID.Compare(b.event.ID))
	})
	for _, p := range l.puts {
		l.set.Values = append(l.set.Values, p.ohm)
	}
	return l
}

// read says what a value amounts to.
func (l *list) read(r quantity.Resistance) shown {
	switch {
	case r.Open:
		return shown{kind: showsOpen}
	case r.Ohm <= conductorMax && (len(l.puts) == 0 || r.Ohm < l.least()):
		return shown{kind: showsClosed}
	}
	if i, ok := l.set.Named(r); ok {
		return shown{kind: showsNamed, named: l.puts[i].on}
	}
	s := shown{kind: showsOther}
	for _, p := range l.set.Parallels(r) {
		s.kind = showsPair
		s.pairs = append(s.pairs, [2]observation.Point{l.puts[p[0]].on, l.puts[p[1]].on})
	}
	if len(s.pairs) > mostPairs {
		return shown{kind: showsOther} // too many to mean anything
	}
	return s
}

// mostPairs is how many joined pairs a reading may fit and still be of use.
const mostPairs = 3

func (l *list) least() quantity.Ohms {
	least, _ := l.set.Accepts(0)
	return least
}

// putOn returns the resistor on a conductor, if the tour has one there and it is
// not on record as put on only later than the event.
func (l *list) putOn(p observation.Point, at observation.Event) (put, bool) {
	for _, x := range l.puts {
		if x.on == p {
			return x, !surelyBefore(at, x.event)
		}
	}
	return put{}, false
}

// surelyBefore reports whether a is known to come before b: by count on one
// device, or because b names it. Clocks of two devices prove no order.
func surelyBefore(a, b observation.Event) bool {
	if a.Device == b.Device {
		return a.Seq < b.Seq
	}
	return slices.Contains(b.Under, a.ID) || slices.Contains(b.Seen, a.ID)
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
