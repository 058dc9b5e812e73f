package pellam

import (
	"maps"
	"math"
	"slices"

	"asfound/quantity"
	"asfound/table"
)

// Net is the copper in one state, ready to be measured.
type Net struct {
	wiring     *Wiring
	index      map[int]int // of a joint in the vectors
	dead, live factored
	fixed      map[int]float64 // what the fed panels hold at a potential
	volts      []float64       // once asked for
}

// legVolts is the voltage of a leg to ground.
const legVolts = 120

// In makes the net of a state.
func (w *Wiring) In(s State) *Net {
	w = w.Clone()
	for _, n := range s.Lifted {
		w.Free(n)
	}
	for _, space := range s.On {
		w.Tie(space.Node(), Lug(space.Panel, space.Leg()))
	}
	for y, way := range s.Thrown {
		w.throw(y, way)
	}
	for _, c := range s.Clips {
		w.Tie(c[0], c[1])
	}
	n := &Net{wiring: w, index: map[int]int{}, fixed: map[int]float64{}}
	var links []link
	join := func(a, b Node, ohm quantity.Ohms) {
		if x, y := n.number(a), n.number(b); x != y {
			links = append(links, link{x, y, 1 / float64(ohm)})
		}
	}
	for i, r := range w.Runs {
		for _, wire := range r.Conductors {
			a, b := w.End(i+1, r.From, wire), w.End(i+1, r.To, wire)
			n.number(a)
			n.number(b)
			if r.Cut == 0 {
				join(a, b, r.ohm())
			}
		}
	}
	for _, x := range slices.Concat(w.Across, s.Across) {
		join(x.A, x.B, x.Ohm)
	}
	for _, panel := range slices.Sorted(maps.Keys(s.Live)) {
		n.fixed[n.number(Lug(panel, 1))], n.fixed[n.number(Lug(panel, 2))] = legVolts, -legVolts
		n.fixed[n.number(NeutralBar(panel))], n.fixed[n.number(GroundBar(panel))] = 0, 0
	}
	n.dead = factor(len(n.index), links, nil)
	n.live = n.dead
	if len(n.fixed) > 0 {
		n.live = factor(len(n.index), links, n.fixed)
	}
	return n
}

// number gives the joint of a node its place in the vectors.
func (n *Net) number(a Node) int {
	j := n.wiring.of(a)
	x, ok := n.index[j]
	if !ok {
		x = len(n.index)
		n.index[j] = x
	}
	return x
}

// at is the place of a node's joint; not ok if no copper ends there.
func (n *Net) at(a Node) (int, bool) {
	j, known := n.wiring.joint[a]
	if !known {
		return 0, false
	}
	x, ok := n.index[j]
	return x, ok
}

// throw ties the terminals that a switch connects. A 4-way connects its pairs
// straight or crossed; a 3-way its common to one traveler or the other.
func (w *Wiring) throw(y Yoke, way int) {
	tie := func(a, b string) { w.Tie(y.Screw(a), y.Screw(b)) }
	_, four := w.joint[y.Screw("traveler 3")]
	_, three := w.joint[y.Screw("traveler 1")]
	switch {
	case four && way == 0:
		tie("traveler 1", "traveler 3")
		tie("traveler 2", "traveler 4")
	case four:
		tie("traveler 1", "traveler 4")
		tie("traveler 2", "traveler 3")
	case three && way == 0:
		tie("common", "traveler 1")
	case three:
		tie("common", "traveler 2")
	case way == 1:
		tie("common", "leg")
	}
}

// aluminumOver is how much more resistance a conductor of aluminum has than one
// of copper: conductivity 61 % (ASTM B230, from memory).
const aluminumOver = 1 / 0.61

// ohm is the resistance of one conductor of a run, at 20 °C.
func (r Run) ohm() quantity.Ohms {
	perKft, known := table.CopperAt20C(r.Size)
	if !known {
		panic("pellam: no resistance for size " + string(r.Size))
	}
	if r.Aluminum {
		perKft *= aluminumOver
	}
	return perKft * quantity.Ohms(r.Length) / 1000
}

// link is a conductance between two joints.
type link struct {
	a, b    int
	siemens float64
}

// factored is the net with its joints taken out one by one, each star becoming
// the mesh seen from outside it: Gaussian elimination of the node equations,
// which keep their symmetry. Wiring is nearly a tree; taking the joint with
// fewest neighbors first keeps it thin (minimum degree, Tinney and Walker 1967).
type factored struct {
	stars []star // in the order taken out
	part  []int  // the connected part of each joint
}

// star is a joint when it was taken out, with what it was linked to then. A
// total of 0 is the last of a part, or one that is held.
type star struct {
	at    int
	to    []int
	g     []float64
	total float64
}

// factor takes out all joints but the held ones.
func factor(n int, links []link, held map[int]float64) factored {
	net := make([]map[int]float64, n)
	for i := range net {
		net[i] = map[int]float64{}
	}
	for _, l := range links {
		net[l.a][l.b] += l.siemens
		net[l.b][l.a] += l.siemens
	}
	f := factored{part: parts(net)}
	q := newQueue(net)
	for at, ok := q.fewest(); ok; at, ok = q.fewest() {
		if _, is := held[at]; is {
			continue
		}
		s := star{at: at}
		s.to = slices.Sorted(maps.Keys(net[at]))
		for _, to := range s.to {
			s.g = append(s.g, net[at][to])
			s.total += net[at][to]
		}
		s.takeOut(net)
		for _, to := range s.to {
			q.moved(to)
		}
		f.stars = append(f.stars, s)
	}
	return f
}

// takeOut turns the star into the mesh between its points.
func (s star) takeOut(net []map[int]float64) {
	for i, a := range s.to {
		delete(net[a], s.at)
		for j, b := range s.to[i+1:] {
			g := s.g[i] * s.g[i+1+j] / s.total
			net[a][b] += g
			net[b][a] += g
		}
	}
}

// parts numbers the connected parts of a net.
func parts(net []map[int]float64) []int {
	part := make([]int, len(net))
	last := 0
	for i := range net {
		if part[i] != 0 {
			continue
		}
		last++
		part[i] = last
		for todo := []int{i}; len(todo) > 0; {
			at := todo[len(todo)-1]
			todo = todo[:len(todo)-1]
			for to := range net[at] {
				if part[to] == 0 {
					part[to] = last
					todo = append(todo, to)
				}
			}
		}
	}
	return part
}

// between is the resistance between two joints; not ok if no path is there.
func (f factored) between(a, b int) (ohm float64, ok bool) {
	if f.part[a] != f.part[b] {
		return 0, false
	}
	amps := make([]float64, len(f.part))
	amps[a], amps[b] = 1, -1
	for _, s := range f.stars {
		for i, to := range s.to {
			amps[to] += amps[s.at] * s.g[i] / s.total
		}
	}
	volts := make([]float64, len(f.part))
	f.back(volts, amps)
	return volts[a] - volts[b], true
}

// potentials are the voltages of all joints with some held; NaN is one that
// nothing held reaches.
func (f factored) potentials(held map[int]float64) []float64 {
	volts := make([]float64, len(f.part))
	for i := range volts {
		volts[i] = math.NaN()
	}
	for at, v := range held {
		volts[at] = v
	}
	f.back(volts, make([]float64, len(f.part)))
	return volts
}

// back fills in the voltages from the last joint taken out to the first.
func (f factored) back(volts, amps []float64) {
	for _, s := range slices.Backward(f.stars) {
		if len(s.to) == 0 {
			continue // the last of its part: the reference
		}
		sum := amps[s.at]
		for i, to := range s.to {
			sum += s.g[i] * volts[to]
		}
		volts[s.at] = sum / s.total
	}
}
