package scenario

import (
	"slices"

	"asfound/observation"
	"asfound/quantity"
	"asfound/table"
)

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
func (t *Truth) Ohm(r *Rig, end End, a, b observation.Wire) quantity.Resistance {
	o := t.Openings[end.Box]
	for _, w := range []observation.Wire{a, b} {
		if w == observation.EGC && !o.Ground || w == observation.Neutral && !o.Neutral || w == observation.Hot && o.Circuit == Dead {
			return open
		}
	}
	if a != observation.Hot && b != observation.Hot {
		return quantity.Resistance{Ohm: o.loop()}
	}
	shown := t.toGround(r, t.Node(o.Circuit))
	shown.Ohm += o.loop()
	return shown
}

// AtTerminal is what it shows at a panel between the hot of a space and the EGC.
func (t *Truth) AtTerminal(r *Rig, at Terminal) quantity.Resistance {
	c := t.CircuitAt(at.Panel, at.Space)
	if c == Dead {
		return Parallel(r.on[at]...)
	}
	return t.toGround(r, t.Node(c))
}

// toGround is the path from a node to the joined neutral and EGC: all resistors
// on it, loads left connected and faults, side by side.
func (t *Truth) toGround(r *Rig, node int) quantity.Resistance {
	var paths []quantity.Ohms
	for c, circuit := range t.Circuits {
		if t.Node(c) != node {
			continue
		}
		paths = append(paths, r.on[Terminal{Panel: circuit.Panel, Space: circuit.Space}]...)
		for _, ohm := range []quantity.Ohms{t.load(r, c), circuit.ToGround} {
			if ohm > 0 {
				paths = append(paths, ohm)
			}
		}
	}
	return Parallel(paths...)
}

// load is what is still plugged in on a circuit.
func (t *Truth) load(r *Rig, circuit int) quantity.Ohms {
	if r.unplugged[circuit] {
		return 0
	}
	return t.Circuits[circuit].Load
}

// Unplug takes off the loads on the spaces' circuits; it reports whether there
// was one.
func (t *Truth) Unplug(r *Rig, panel int, spaces []int) bool {
	found := false
	for _, s := range spaces {
		if c := t.CircuitAt(panel, s); c != Dead && t.load(r, c) > 0 {
			r.unplugged[c] = true
			found = true
		}
	}
	return found
}

// joint is what a join shows between two terminals: two home runs of copper.
const joint quantity.Ohms = 0.3

// Isolation is what it shows at a panel in the isolation test: spaces a joined
// together, against spaces b joined together or a bar, no resistor on, neutral
// and EGC not joined to each other.
func (t *Truth) Isolation(r *Rig, panel int, a []int, against observation.Against, b []int) quantity.Resistance {
	load := func(c int) quantity.Ohms { return t.load(r, c) }
	leak := func(c int) quantity.Ohms { return t.Circuits[c].ToGround }
	switch against {
	case observation.AgainstNeutral:
		return t.side(panel, a, load)
	case observation.AgainstEGC:
		return t.side(panel, a, leak)
	}
	nodes := t.nodes(panel, b)
	for _, n := range t.nodes(panel, a) {
		if slices.Contains(nodes, n) {
			return quantity.Resistance{Ohm: joint}
		}
	}
	var through []quantity.Ohms // load to load over the neutral, fault to fault over the EGC
	for _, of := range []func(int) quantity.Ohms{load, leak} {
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
func (t *Truth) side(panel int, spaces []int, of func(circuit int) quantity.Ohms) quantity.Resistance {
	nodes := t.nodes(panel, spaces)
	var paths []quantity.Ohms
	for c := range t.Circuits {
		if r := of(c); r > 0 && slices.Contains(nodes, t.Node(c)) {
			paths = append(paths, r)
		}
	}
	return Parallel(paths...)
}
