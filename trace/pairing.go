package trace

import (
	"slices"

	"asfound/installation"
	"asfound/observation"
	"asfound/pattern"
	"asfound/quantity"
)

// Pairing is a tour that pairs cables where boxes are not spliced yet. At each
// box, for each cable end: read its hot to its own ground. Open: put on the
// next free resistor. A value: it is the other end of the cable that bears it.
// Every end is touched once, and no ground need be joined anywhere.
type Pairing struct {
	Tour  *installation.Tour
	Free  []quantity.Ohms // values of the set not on yet, lowest first
	Pairs []*Line         // ends whose other end was found, at the end where it was read
	Out   []Put           // resistors never read again: their other end is buried, cut or not visited yet
}

// PairingOf says how far a pairing tour has come, with the set it draws from.
func (t *Trace) PairingOf(tour *installation.Tour, set pattern.ResistorSet) Pairing {
	p := Pairing{Tour: tour}
	found := map[observation.Point]bool{}
	for _, l := range t.Lines {
		if l.mirrors != nil || l.Source.Kind != FromEnd {
			continue
		}
		if slices.ContainsFunc(tour.Resistors, func(e observation.Event) bool { return e.Body.(observation.Resistor).On == l.Source.At }) {
			p.Pairs = append(p.Pairs, l)
			found[l.Source.At] = true
		}
	}
	used := map[quantity.Ohms]bool{}
	for _, x := range listOf([]*installation.Tour{tour}).puts {
		used[x.ohm] = true
		if !found[x.on] {
			p.Out = append(p.Out, Put{On: x.on, Ohm: x.ohm})
		}
	}
	for _, v := range set.Values {
		if !used[v] {
			p.Free = append(p.Free, v)
		}
	}
	return p
}
