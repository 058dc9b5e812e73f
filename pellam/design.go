package pellam

import (
	"slices"
	"strconv"

	"asfound/observation"
	"asfound/quantity"
)

// Wire makes the copper that the design means: every cable run, spliced and
// landed as its role says. With it every luminaire, receptacle and piece of
// equipment ends on the nodes that Box names, and every switch on its yoke.
func (p *Property) Wire() *Wiring {
	w := &Wiring{joint: map[Node]int{}, nodes: map[int][]Node{}}
	for i := range p.Cables {
		p.lay(w, &p.Cables[i])
	}
	for i := range p.Groups {
		p.join(w, &p.Groups[i])
	}
	for _, f := range p.Feeders {
		p.feed(w, f)
	}
	return w
}

// feedJoint names the joint of a circuit's hots in a box; a box may hold two
// circuits.
func feedJoint(place, circuit string, wire observation.Wire) Node {
	return Node{At: place, Terminal: circuit + " " + string(wire)}
}

// legJoint names the joint of the hots behind a group's last switch in a box.
func legJoint(place, group string) Node { return Node{At: place, Terminal: group + " leg"} }

// lay puts a cable into the walls and ties its grounds and neutrals. Its hots
// are tied by role.
func (p *Property) lay(w *Wiring, c *Cable) {
	circuit := p.Circuit(c.Circuit)
	wires := conductors(c.Type, len(circuit.Spaces))
	n := w.add(Run{Circuit: c.Circuit, From: c.From, To: c.To, Role: c.Role, Conductors: wires, Size: gauge(c.Type), Length: c.Length})
	for _, at := range []string{c.From, c.To} {
		if p.Panel(at) != nil {
			p.land(w, n, circuit)
			continue
		}
		w.Tie(Box(at, observation.EGC), w.End(n, at, observation.EGC))
		if slices.Contains(wires, observation.Neutral) && c.Role != Loop {
			w.Tie(feedJoint(at, c.Circuit, observation.Neutral), w.End(n, at, observation.Neutral))
		}
		if c.Role == HomeRun || c.Role == Feed {
			w.Tie(feedJoint(at, c.Circuit, observation.Hot), w.End(n, at, observation.Hot))
			if slices.Contains(wires, HotTwo) {
				w.Tie(feedJoint(at, c.Circuit, HotTwo), w.End(n, at, HotTwo))
			}
			p.outlet(w, at, c.Circuit)
		}
	}
}

// outlet brings a fed joint to the receptacle or equipment of its box.
func (p *Property) outlet(w *Wiring, at, circuit string) {
	if o := p.Opening(at); o.Kind == Switch || o.Kind == Luminaire && p.lit(at) {
		return
	}
	for _, wire := range []observation.Wire{observation.Hot, HotTwo, observation.Neutral} {
		w.Tie(Box(at, wire), feedJoint(at, circuit, wire))
	}
}

// lit reports whether a luminaire is switched by a group.
func (p *Property) lit(opening string) bool {
	return slices.ContainsFunc(p.Groups, func(g Group) bool { return slices.Contains(g.Luminaires, opening) })
}

// land puts a home run on its terminals, unless it was left coiled.
func (p *Property) land(w *Wiring, n int, c *Circuit) {
	if c.Coiled {
		return
	}
	r := w.Run(n)
	for i, wire := range []observation.Wire{observation.Hot, HotTwo}[:len(c.Spaces)] {
		w.Tie(SpaceAt{c.Panel, c.Spaces[i]}.Node(), w.End(n, c.Panel, wire))
	}
	if slices.Contains(r.Conductors, observation.Neutral) {
		w.Tie(NeutralBar(c.Panel), w.End(n, c.Panel, observation.Neutral))
	}
	w.Tie(GroundBar(c.Panel), w.End(n, c.Panel, observation.EGC))
}

// join ties the hots of a switching group: feed to the first switch, travelers
// from one to the next, leg from the last to the luminaires.
func (p *Property) join(w *Wiring, g *Group) {
	first, last := g.Switches[0], g.Switches[len(g.Switches)-1]
	if !p.loop(w, g) {
		w.Tie(first.Screw("common"), feedJoint(first.Box, g.Circuit, observation.Hot))
	}
	for i := range g.Switches[1:] {
		n := p.travelers(w, g, i)
		w.Tie(g.Switches[i].Screw(out(i, 1)), w.End(n, g.Switches[i].Box, observation.Hot))
		w.Tie(g.Switches[i].Screw(out(i, 2)), w.End(n, g.Switches[i].Box, HotTwo))
		w.Tie(g.Switches[i+1].Screw("traveler 1"), w.End(n, g.Switches[i+1].Box, observation.Hot))
		w.Tie(g.Switches[i+1].Screw("traveler 2"), w.End(n, g.Switches[i+1].Box, HotTwo))
	}
	w.Tie(last.Screw(legScrew(g)), legJoint(last.Box, g.ID))
	for i, n := range w.Runs {
		if n.Circuit != g.Circuit || n.Role != SwitchLeg && n.Role != Onward || !slices.Contains(g.Luminaires, n.To) {
			continue
		}
		for _, at := range []string{n.From, n.To} {
			w.Tie(legJoint(at, g.ID), w.End(i+1, at, observation.Hot))
		}
	}
	for _, lamp := range g.Luminaires {
		w.Tie(Box(lamp, observation.Hot), legJoint(lamp, g.ID))
		w.Tie(Box(lamp, observation.Neutral), feedJoint(lamp, g.Circuit, observation.Neutral))
	}
}

// out names the screw of the i-th switch that a traveler leaves by: a switch in
// the middle has two pairs.
func out(i, traveler int) string {
	if i > 0 {
		traveler += 2
	}
	return "traveler " + strconv.Itoa(traveler)
}

// legScrew is where the leg leaves the last switch.
func legScrew(g *Group) string {
	if len(g.Switches) == 1 {
		return "leg"
	}
	return "common"
}

// loop ties a two-wire loop, if the group has one: the white is the supply to
// the switch and the black comes back.
func (p *Property) loop(w *Wiring, g *Group) bool {
	for i, r := range w.Runs {
		if r.Role == Loop && r.To == g.Switches[0].Box {
			n, lamp := i+1, r.From
			w.Tie(feedJoint(lamp, g.Circuit, observation.Hot), w.End(n, lamp, observation.Neutral))
			w.Tie(g.Switches[0].Screw("common"), w.End(n, r.To, observation.Neutral))
			w.Tie(g.Switches[0].Screw("leg"), w.End(n, r.To, observation.Hot))
			w.Tie(legJoint(lamp, g.ID), w.End(n, lamp, observation.Hot))
			return true
		}
	}
	return false
}

// travelers finds the cable between the i-th switch of a group and the next.
// Two groups with the same two boxes have a cable each, in their order.
func (p *Property) travelers(w *Wiring, g *Group, i int) int {
	a, b := g.Switches[i].Box, g.Switches[i+1].Box
	var cables []int
	for _, n := range w.Lies(a, b) {
		if w.Run(n).Role == Travelers && w.Run(n).Circuit == g.Circuit {
			cables = append(cables, n)
		}
	}
	before := 0
	for _, other := range p.Groups {
		if other.ID < g.ID && len(other.Switches) > 1 && other.Switches[0].Box == a && other.Switches[1].Box == b {
			before++
		}
	}
	return cables[before%len(cables)]
}

// feed lays what is pulled and landed of the feeders and sources: F3, F4 and F5
// between panels, F6 from its disconnect. F4 is landed at A1 alone. The others
// are not pulled or not landed yet.
func (p *Property) feed(w *Wiring, f Feeder) {
	all := []observation.Wire{observation.Hot, HotTwo, observation.Neutral, observation.EGC}
	type shape struct {
		from, to string
		spaces   []int
		size     quantity.Gauge
		aluminum bool
		landed   bool
	}
	s, known := map[string]shape{
		"F3": {"A1", "A2", []int{1, 3}, "3", false, true},
		"F4": {"A1", "C1", []int{2, 4}, "4", false, false},
		"F5": {"D1", "B1", []int{1, 3}, "1/0", true, true},
		"F6": {"SD2", "D1", nil, "4/0", true, true},
	}[f.ID]
	if !known {
		return
	}
	n := w.add(Run{Circuit: f.ID, From: s.from, To: s.to, Role: Feed, Conductors: all, Size: s.size, Aluminum: s.aluminum, Length: f.Length})
	hots := []Node{Lug(s.from, 1), Lug(s.from, 2)}
	if s.spaces != nil {
		hots = []Node{SpaceAt{s.from, s.spaces[0]}.Node(), SpaceAt{s.from, s.spaces[1]}.Node()}
	}
	p.landFeeder(w, n, s.from, hots)
	if s.landed {
		p.landFeeder(w, n, s.to, []Node{Lug(s.to, 1), Lug(s.to, 2)})
	}
}

func (p *Property) landFeeder(w *Wiring, n int, at string, hots []Node) {
	w.Tie(hots[0], w.End(n, at, observation.Hot))
	w.Tie(hots[1], w.End(n, at, HotTwo))
	w.Tie(NeutralBar(at), w.End(n, at, observation.Neutral))
	w.Tie(GroundBar(at), w.End(n, at, observation.EGC))
}
