package pellam

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"asfound/observation"
	"asfound/quantity"
	"asfound/trace"
)

// HotTwo is the second insulated conductor beside the neutral of a cable such as
// 14/3, the red one: second pole, traveler, or interconnect of smoke alarms. In
// a two-pole 12/2 it is the white one.
const HotTwo observation.Wire = "hot 2"

// Wiring is the copper of the property: runs of conductors, and joints in which
// conductor ends and terminals touch. It can be changed; take a Clone to keep.
type Wiring struct {
	Runs   []Run
	joint  map[Node]int   // nodes with the same number touch
	nodes  map[int][]Node // of each joint
	last   int            // the latest number given
	Across []Across       // what lies between two nodes beside the runs
}

// Run is a cable, or a set of conductors in a raceway, as it really lies.
type Run struct {
	Circuit    string
	From, To   string
	Role       Role
	Conductors []observation.Wire
	Size       quantity.Gauge
	Aluminum   bool
	Length     quantity.Feet
	Cut        quantity.Feet // from From; 0 is whole
}

// Node is a conductor end (Run and Wire) or a terminal, at a place. Runs are
// numbered from 1.
type Node struct {
	At       string
	Run      int
	Wire     observation.Wire
	Terminal string
}

// Across is a resistance between two nodes: a leak, a load, a resistor put on.
type Across struct {
	A, B Node
	Ohm  quantity.Ohms
}

// SpaceAt is a space of a panel.
type SpaceAt struct {
	Panel string
	Space int
}

// Node is the terminal of the space's breaker.
func (s SpaceAt) Node() Node { return Node{At: s.Panel, Terminal: fmt.Sprintf("space %d", s.Space)} }

// Leg is the leg a space is on, 1 or 2.
func (s SpaceAt) Leg() int { return trace.Leg(s.Space) + 1 }

// NeutralBar is where a panel's neutrals land.
func NeutralBar(panel string) Node { return Node{At: panel, Terminal: "neutral bar"} }

// GroundBar is where its equipment grounding conductors land: the cabinet.
func GroundBar(panel string) Node { return Node{At: panel, Terminal: "ground bar"} }

// Lug is where the feeder's hot of a leg lands, 1 or 2.
func Lug(panel string, leg int) Node { return Node{At: panel, Terminal: fmt.Sprintf("lug %d", leg)} }

// Screw is a terminal of the device that a yoke is for.
func (y Yoke) Screw(name string) Node {
	return Node{At: y.Box, Terminal: fmt.Sprintf("yoke %d %s", y.At, name)}
}

// Box names what the bare ends in a box belong to when no device is in: the
// hot, neutral or ground of its receptacle, luminaire or equipment.
func Box(opening string, w observation.Wire) Node { return Node{At: opening, Terminal: string(w)} }

// End is a conductor end.
func (w *Wiring) End(run int, at string, wire observation.Wire) Node {
	return Node{At: at, Run: run, Wire: wire}
}

// Lies returns the numbers of the runs between two places, in either direction.
func (w *Wiring) Lies(a, b string) []int {
	var out []int
	for i, r := range w.Runs {
		if r.From == a && r.To == b || r.From == b && r.To == a {
			out = append(out, i+1)
		}
	}
	return out
}

// At returns the numbers of the runs that end at a place.
func (w *Wiring) At(place string) []int {
	var out []int
	for i, r := range w.Runs {
		if r.From == place || r.To == place {
			out = append(out, i+1)
		}
	}
	return out
}

// Run returns a run by its number.
func (w *Wiring) Run(n int) *Run { return &w.Runs[n-1] }

// add lays a run and returns its number.
func (w *Wiring) add(r Run) int {
	w.Runs = append(w.Runs, r)
	return len(w.Runs)
}

// Tie lets nodes touch, with all that touched them before.
func (w *Wiring) Tie(nodes ...Node) {
	for _, n := range nodes[1:] {
		to, from := w.of(nodes[0]), w.of(n)
		if to == from {
			continue
		}
		for _, moved := range w.nodes[from] {
			w.joint[moved] = to
		}
		w.nodes[to] = append(w.nodes[to], w.nodes[from]...)
		delete(w.nodes, from)
	}
}

// Free takes a node out of the joint it is in.
func (w *Wiring) Free(n Node) {
	j := w.of(n)
	w.nodes[j] = slices.DeleteFunc(slices.Clone(w.nodes[j]), func(x Node) bool { return x == n })
	delete(w.joint, n)
	w.of(n)
}

// Exchange puts each of two nodes where the other was.
func (w *Wiring) Exchange(a, b Node) {
	besideA, besideB := w.beside(a), w.beside(b)
	w.Free(a)
	w.Free(b)
	w.Tie(append([]Node{a}, besideB...)...)
	w.Tie(append([]Node{b}, besideA...)...)
}

// beside lists what touches a node.
func (w *Wiring) beside(n Node) []Node {
	return slices.DeleteFunc(slices.Clone(w.nodes[w.of(n)]), func(x Node) bool { return x == n })
}

// Touch reports whether two nodes touch in one joint.
func (w *Wiring) Touch(a, b Node) bool { return w.of(a) == w.of(b) }

// of is the number of the joint a node is in.
func (w *Wiring) of(n Node) int {
	j, ok := w.joint[n]
	if !ok {
		w.last++
		j = w.last
		w.joint[n], w.nodes[j] = j, []Node{n}
	}
	return j
}

// Clone is a copy that can be changed without changing w.
func (w *Wiring) Clone() *Wiring {
	c := &Wiring{Runs: slices.Clone(w.Runs), joint: maps.Clone(w.joint), nodes: make(map[int][]Node, len(w.nodes)),
		last: w.last, Across: slices.Clone(w.Across)}
	for j, nodes := range w.nodes {
		c.nodes[j] = slices.Clone(nodes)
	}
	return c
}

// conductors lists the conductors of a cable type for a use: 12/2 holds two
// insulated conductors and the ground.
func conductors(kind string, poles int) []observation.Wire {
	_, count, _ := strings.Cut(kind, "/")
	switch {
	case count == "2" && poles == 2:
		return []observation.Wire{observation.Hot, HotTwo, observation.EGC}
	case count == "2":
		return []observation.Wire{observation.Hot, observation.Neutral, observation.EGC}
	}
	return []observation.Wire{observation.Hot, HotTwo, observation.Neutral, observation.EGC}
}

// gauge is the size in a cable type.
func gauge(kind string) quantity.Gauge {
	size, _, _ := strings.Cut(kind, "/")
	return quantity.Gauge(size)
}
