package pellam

import (
	"math"

	"asfound/observation"
	"asfound/quantity"
)

// State is how the property stands while somebody measures.
type State struct {
	Live   map[string]bool // panels whose bus is fed
	On     []SpaceAt       // spaces whose breaker is closed
	Thrown map[Yoke]int    // switches put in, and the way they are thrown: 0 or 1
	Clips  [][2]Node       // joined for the test
	Lifted []Node          // conductor ends taken off for the test
	Across []Across        // resistors and loads put on for the test
}

// Ohm is what a perfect ohmmeter shows between two nodes, in a state in which
// nothing is live. It is open when no path is there.
func (n *Net) Ohm(a, b Node) quantity.Resistance {
	x, okX := n.at(a)
	y, okY := n.at(b)
	switch {
	case a == b || okX && okY && x == y:
		return quantity.Resistance{}
	case !okX || !okY:
		return quantity.Resistance{Open: true}
	}
	r, ok := n.dead.between(x, y)
	if !ok {
		return quantity.Resistance{Open: true}
	}
	return quantity.Resistance{Ohm: quantity.Ohms(r)}
}

// Volt is what a perfect voltmeter shows between two nodes. A node that nothing
// live and nothing grounded reaches floats: then ok is false, and a real meter
// shows anything. Legs are at plus and minus 120 V, neutrals and grounds of fed
// panels at 0.
func (n *Net) Volt(a, b Node) (v quantity.Volts, ok bool) {
	va, okA := n.potential(a)
	vb, okB := n.potential(b)
	return quantity.Volts(math.Abs(va - vb)), okA && okB
}

// potential is the voltage of a node against the ground of the fed panels.
func (n *Net) potential(a Node) (float64, bool) {
	if n.volts == nil {
		n.volts = n.live.potentials(n.fixed)
	}
	x, ok := n.at(a)
	if !ok {
		return 0, false
	}
	v := n.volts[x]
	return v, !math.IsNaN(v)
}

// Ampere is the current through what lies between two nodes, from A to B.
func (n *Net) Ampere(x Across) quantity.Amperes {
	va, okA := n.potential(x.A)
	vb, okB := n.potential(x.B)
	if !okA || !okB {
		return 0
	}
	return quantity.Amperes((va - vb) / float64(x.Ohm))
}

// InConductor is the current in one conductor of a run, from From to To.
func (n *Net) InConductor(run int, wire observation.Wire) quantity.Amperes {
	r := n.wiring.Run(run)
	ohm := r.ohm()
	return n.Ampere(Across{A: n.wiring.End(run, r.From, wire), B: n.wiring.End(run, r.To, wire), Ohm: ohm})
}
