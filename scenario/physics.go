package scenario

import (
	"slices"

	"asfound/observation"
	"asfound/quantity"
	"asfound/table"
)

// SpaceAt is a space of one of a Truth's panels.
type SpaceAt struct{ Panel, Space int }

// OnSpaces says which resistors are really on which spaces, hot to EGC, with
// their true values.
type OnSpaces map[SpaceAt][]quantity.Ohms

// open is a reading with no path.
var open = quantity.Resistance{Open: true}

// Parallel is the resistance of several side by side: one over the sum of one
// over each (Ohm's law). None is open.
func Parallel(each ...quantity.Ohms) quantity.Resistance {
	siemens := 0.0
	for _, r := range each {
		if r <= 0 {
			return quantity.Resistance{}
		}
		siemens += 1 / float64(r)
	}
	if siemens == 0 {
		return open
	}
	return quantity.Resistance{Ohm: quantity.Ohms(1 / siemens)}
}

// loop is the resistance of an opening's cable out and back, copper at 20 °C.
func (o Opening) loop() quantity.Ohms {
	perKft, _ := table.CopperAt20C(o.Size)
	return 2 * perKft * quantity.Ohms(o.Length) / 1000
}

// Ohm is what a perfect ohmmeter shows between two conductors of an opening
// while neutral and EGC are joined at the panels and all breakers are off.
func (t *Truth) Ohm(opening int, a, b observation.Wire, on OnSpaces) quantity.Resistance {
	o := t.Openings[opening]
	for _, w := range []observation.Wire{a, b} {
		if w == observation.EGC && !o.Ground || w == observation.Neutral && !o.Neutral || w == observation.Hot && o.Circuit == Dead {
			return open
		}
	}
	if a != observation.Hot && b != observation.Hot {
		return quantity.Resistance{Ohm: o.loop()}
	}
	r := t.toGround(t.Node(o.Circuit), on)
	r.Ohm += o.loop()
	return r
}

// AtSpace is what it shows at a panel between the hot of a space and the EGC.
func (t *Truth) AtSpace(at SpaceAt, on OnSpaces) quantity.Resistance {
	c := t.CircuitAt(at.Panel, at.Space)
	if c == Dead {
		return Parallel(on[at]...)
	}
	return t.toGround(t.Node(c), on)
}

// toGround is the path from a node to the joined neutral and EGC: all resistors
// on it, loads left connected and faults, side by side.
func (t *Truth) toGround(node int, on OnSpaces) quantity.Resistance {
	var paths []quantity.Ohms
	for c, circuit := range t.Circuits {
		if t.Node(c) != node {
			continue
		}
		paths = append(paths, on[SpaceAt{circuit.Panel, circuit.Space}]...)
		for _, r := range []quantity.Ohms{circuit.Load, circuit.ToGround} {
			if r > 0 {
				paths = append(paths, r)
			}
		}
	}
	return Parallel(paths...)
}

// joint is what a join shows between two terminals: two home runs of copper.
const joint quantity.Ohms = 0.3

// Isolation is what it shows at a panel in the isolation test: spaces a joined
// together, against spaces b joined together or a bar, no resistor on, neutral
// and EGC not joined to each other.
func (t *Truth) Isolation(panel int, a []int, against observation.Against, b []int) quantity.Resistance {
	switch against {
	case observation.AgainstNeutral:
		return t.side(panel, a, func(c Circuit) quantity.Ohms { return c.Load })
	case observation.AgainstEGC:
		return t.side(panel, a, func(c Circuit) quantity.Ohms { return c.ToGround })
	}
	nodes := t.nodes(panel, b)
	for _, n := range t.nodes(panel, a) {
		if slices.Contains(nodes, n) {
			return quantity.Resistance{Ohm: joint}
		}
	}
	var through []quantity.Ohms // load to load over the neutral, fault to fault over the EGC
	for _, of := range []func(Circuit) quantity.Ohms{
		func(c Circuit) quantity.Ohms { return c.Load },
		func(c Circuit) quantity.Ohms { return c.ToGround },
	} {
		x, y := t.side(panel, a, of), t.side(panel, b, of)
		if !x.Open && !y.Open {
			through = append(through, x.Ohm+y.Ohm)
		}
	}
	return Parallel(through...)
}

func (t *Truth) nodes(panel int, spaces []int) []int {
	var out []int
	for _, s := range spaces {
		if c := t.CircuitAt(panel, s); c != Dead {
			out = append(out, t.Node(c))
		}
	}
	return out
}

// side puts side by side what of gives for all circuits on the spaces' nodes.
func (t *Truth) side(panel int, spaces []int, of func(Circuit) quantity.Ohms) quantity.Resistance {
	nodes := t.nodes(panel, spaces)
	var paths []quantity.Ohms
	for c, circuit := range t.Circuits {
		if r := of(circuit); r > 0 && slices.Contains(nodes, t.Node(c)) {
			paths = append(paths, r)
		}
	}
	return Parallel(paths...)
}
