package scenario

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"

	"asfound/observation"
	"asfound/pellam"
	"asfound/quantity"
)

// PellamPoint is the demo property as people meet it.
type PellamPoint struct {
	Found *pellam.Found
	Work  *pellam.Work

	view   *View
	hots   map[End]pellam.Hots
	coils  map[Terminal]pellam.Hots
	closed *pellam.Net // every switch in and closed
	rigged *pellam.Net // with what a rig has on
	of     *Rig
	at     int // the version of the rig it was made of

	without   *pellam.Net // with its clips alone
	withoutOf *Rig
	withoutAt int // so many of them
}

// NewPellamPoint builds the demo property.
func NewPellamPoint() (*PellamPoint, error) { return pellamPointWithout() }

// pellamPointWithout builds it as it would be without some of its faults.
func pellamPointWithout(faults ...string) (*PellamPoint, error) {
	f, err := pellam.Build(faults...)
	if err != nil {
		return nil, err
	}
	p := &PellamPoint{Found: f, Work: atPellam(), view: &View{}, hots: map[End]pellam.Hots{}, coils: map[Terminal]pellam.Hots{}}
	p.rooms()
	for _, d := range f.OnDrawing() {
		p.view.Drawn = append(p.view.Drawn, DrawnView{Room: p.room(d.Room), Use: use(d.Kind), What: d.What})
	}
	for _, panel := range f.Panels {
		p.panel(panel)
	}
	p.supply()
	var clips [][2]pellam.Node
	for _, o := range f.Openings {
		p.box(o)
		for _, y := range f.Yokes(o.ID) {
			for _, h := range y[1:] {
				clips = append(clips, [2]pellam.Node{y[0].Node, h.Node})
			}
		}
	}
	p.closed = f.Wiring.In(pellam.State{Clips: clips})
	return p, nil
}

// buildingsOfPellam are called as their people call them; a number on a tape
// begins with their letter.
var buildingsOfPellam = []string{"A, main house", "B, guest cabin", "C, boathouse", "D, workshop", "E, well house"}

func buildingOf(place string) int { return int(pellam.Building(place)[0] - 'A') }

// rooms puts the rooms in walking order: floor by floor, as they are numbered.
func (p *PellamPoint) rooms() {
	p.view.Buildings = buildingsOfPellam
	for _, r := range p.Found.Rooms {
		const story = 8 // ft at the least
		floor := int(math.Trunc(float64(r.Floor) / story))
		p.view.Rooms = append(p.view.Rooms, Room{Building: buildingOf(r.ID), Name: r.ID + " " + r.Name, Floor: floor})
	}
}

func (p *PellamPoint) room(id string) int {
	return slices.IndexFunc(p.Found.Rooms, func(r pellam.Room) bool { return r.ID == id })
}

// panel notes a panel with its dead front off.
func (p *PellamPoint) panel(panel pellam.Panel) {
	f, at := p.Found, len(p.view.Panels)
	v := PanelFace{Building: buildingOf(panel.ID), Room: p.room(panel.Room), Name: panel.ID, Spaces: panel.Spaces}
	for s := 1; s <= panel.Spaces; s++ {
		if b, there := p.breaker(pellam.SpaceAt{Panel: panel.ID, Space: s}); there {
			v.Breakers = append(v.Breakers, b)
		}
	}
	for _, h := range f.Hots(panel.ID) {
		run := f.Wiring.Run(h.Node.Run)
		mark := ""
		if c := f.Circuit(run.Circuit); c != nil {
			mark = c.Mark
		}
		c := observation.CableEnd{Tag: h.Tag, Mark: mark}
		for _, w := range []observation.Wire{observation.Hot, observation.Neutral, observation.EGC} {
			c.Conductors = append(c.Conductors, observation.Conductor{Wire: w, Size: h.Size, State: observation.Coiled})
		}
		v.Coiled = append(v.Coiled, c)
		p.coils[Terminal{Panel: at, Cable: h.Tag}] = h
	}
	for _, n := range f.Wiring.At(panel.ID) {
		if r := f.Wiring.Run(n); r.Role != pellam.HomeRun && f.Circuit(r.Circuit) != nil {
			v.Passing += len(r.Conductors) - 1
		}
	}
	p.view.Panels = append(p.view.Panels, v)
}

// supply notes the sources, and the feeders that are pulled: the others are
// drawn and not there.
func (p *PellamPoint) supply() {
	f := p.Found
	p.view.Sources = []observation.Source{
		{Name: "utility", Of: observation.Utility, Disconnect: "SD1 and SD2 at the service rack"},
		{Name: "generator", Of: observation.Generator, Disconnect: "the breaker on its frame"}}
	panel := func(name string) int {
		return slices.IndexFunc(p.view.Panels, func(v PanelFace) bool { return v.Name == name })
	}
	for _, feeder := range f.Feeders {
		pulled := false
		for n := range f.Wiring.Runs {
			pulled = pulled || f.Wiring.Run(n+1).Circuit == feeder.ID
		}
		from, space, _ := strings.Cut(feeder.From, "-")
		v := FeederView{Panel: panel(from), To: panel(feeder.To), Wires: feeder.Conductors}
		if !pulled || v.To < 0 {
			continue
		}
		v.Space, _ = strconv.Atoi(space)
		if v.Panel < 0 { // a disconnect of the service
			v.Source, v.Way = 1, feeder.From
		}
		p.view.Feeders = append(p.view.Feeders, v)
	}
}

// breaker is what is to be seen on a space: nothing, the first pole of a
// breaker, or its second, which is not noted again.
func (p *PellamPoint) breaker(at pellam.SpaceAt) (observation.Space, bool) {
	w := p.Found.Wiring
	for n := range w.Runs {
		r := w.Run(n + 1)
		for _, wire := range r.Conductors {
			if end := w.End(n+1, at.Panel, wire); (r.From == at.Panel || r.To == at.Panel) && w.Touch(end, at.Node()) {
				return p.breakerOn(at, n+1, wire)
			}
		}
	}
	return observation.Space{}, false
}

func (p *PellamPoint) breakerOn(at pellam.SpaceAt, run int, wire observation.Wire) (observation.Space, bool) {
	w := p.Found.Wiring
	r := w.Run(run)
	s := observation.Space{Number: at.Space, Poles: 1, Lands: observation.LandsBranch, Wire: "black " + string(r.Size)}
	if p.Found.Circuit(r.Circuit) == nil { // a feeder is named for itself
		s.Lands = observation.LandsFeeder
	}
	for _, c := range p.Found.Circuits {
		if c.Panel == at.Panel && slices.Contains(c.Spaces, at.Space) {
			s.Amps = c.Amps
			if c.Spaces[0] == at.Space {
				s.Label = c.Mark
			}
			if len(c.Spaces) == 2 && c.Spaces[1] == at.Space && wire == pellam.HotTwo {
				return s, false
			}
			if len(c.Spaces) == 2 && c.Spaces[0] == at.Space {
				s.Poles = 2
			}
		}
	}
	return s, true
}

// box notes an opening with its cover off.
func (p *PellamPoint) box(o pellam.Opening) {
	f, at := p.Found, len(p.view.Boxes)
	look := f.Boxes[o.ID]
	b := BoxView{Room: p.room(o.Room), Number: o.ID, Use: use(o.Kind), Gangs: o.Gangs, Covered: look.Covered,
		Height: quantity.Inches(math.Round(12 * float64(o.Z-f.Room(o.Room).Floor))), Setback: look.Setback}
	for _, h := range f.Hots(o.ID) {
		e := EndView{Tag: h.Tag, Color: "black", Size: h.Size, Bare: h.Neutral == pellam.Node{}, Free: look.FreeLength}
		switch {
		case look.HotIsGreen && f.Wiring.Run(h.Node.Run).Role == pellam.SwitchLeg:
			e.Color = "green"
		case h.Node.Wire == observation.Neutral && look.Unmarked == observation.Neutral:
			e.Color = "white"
		case h.Node.Wire == observation.Neutral:
			e.Color = "white marked black"
		case h.Second:
			e.Color = "red"
		}
		b.Ends = append(b.Ends, e)
		p.hots[End{at, h.Tag}] = h
	}
	for _, y := range f.Yokes(o.ID) {
		for _, h := range y[1:] {
			b.Joins = append(b.Joins, [2]string{y[0].Tag, h.Tag})
		}
	}
	p.view.Boxes = append(p.view.Boxes, b)
}

func use(k pellam.Kind) observation.OpeningUse {
	return map[pellam.Kind]observation.OpeningUse{pellam.Switch: observation.Switch, pellam.Receptacle: observation.Receptacle,
		pellam.Luminaire: observation.Lighting, pellam.Equipment: observation.Equipment}[k]
}

// Seed is that of the property: there is one only.
func (p *PellamPoint) Seed() uint64 { return 0 }

// View is what is to be seen.
func (p *PellamPoint) View() *View { return p.view }

// net is the copper with what a rig has on: resistors at the panels, bars
// joined, feeds joined to legs. A coiled cable has its resistor to its own
// ground, and its neutral joined to that.
func (p *PellamPoint) net(r *Rig) *pellam.Net {
	if p.of == r && p.at == r.version && p.rigged != nil {
		return p.rigged
	}
	s := pellam.State{}
	for panel := range p.view.Panels {
		name := p.view.Panels[panel].Name
		s.Clips = append(s.Clips, [2]pellam.Node{pellam.NeutralBar(name), pellam.GroundBar(name)})
	}
	for _, at := range sortedTerminals(r.on) {
		a, ground := p.terminal(at)
		for _, ohm := range r.on[at] {
			s.Across = append(s.Across, pellam.Across{A: a, B: ground, Ohm: ohm})
		}
		if h, coil := p.coils[at]; coil && h.Neutral != (pellam.Node{}) {
			s.Clips = append(s.Clips, [2]pellam.Node{h.Neutral, h.Ground})
		}
	}
	s.Clips = append(s.Clips, p.clips(r)...)
	p.rigged, p.of, p.at = p.Found.Wiring.In(s), r, r.version
	return p.rigged
}

func sortedTerminals(on map[Terminal][]quantity.Ohms) []Terminal {
	var out []Terminal
	for at := range on {
		out = append(out, at)
	}
	slices.SortFunc(out, func(a, b Terminal) int {
		return cmp.Or(a.Panel-b.Panel, a.Space-b.Space, len(a.Cable)-len(b.Cable), strings.Compare(a.Cable, b.Cable))
	})
	return out
}

// terminal is the node of a terminal and the ground beside it.
func (p *PellamPoint) terminal(at Terminal) (hot, ground pellam.Node) {
	if h, coil := p.coils[at]; coil {
		return h.Node, h.Ground
	}
	name := p.view.Panels[at.Panel].Name
	return pellam.SpaceAt{Panel: name, Space: at.Space}.Node(), pellam.GroundBar(name)
}

// Ohm is shown between two conductors beside each other in a box.
func (p *PellamPoint) Ohm(r *Rig, end End, a, b observation.Wire) quantity.Resistance {
	h := p.hots[end]
	node := map[observation.Wire]pellam.Node{observation.Hot: h.Node, observation.Neutral: h.Neutral, observation.EGC: h.Ground}
	if node[a] == (pellam.Node{}) || node[b] == (pellam.Node{}) {
		return open
	}
	return p.net(r).Ohm(node[a], node[b])
}

// AtTerminal is shown at a panel between a terminal and the ground beside it.
func (p *PellamPoint) AtTerminal(r *Rig, at Terminal) quantity.Resistance {
	hot, ground := p.terminal(at)
	return p.net(r).Ohm(hot, ground)
}

// Isolation is shown at a panel in the isolation test. What is apart before its
// sides are joined is apart then too: a path would go through one piece of copper
// that both sides touch. Only where there is one the net is made anew.
func (p *PellamPoint) Isolation(r *Rig, panel int, a []int, against observation.Against, b []int) quantity.Resistance {
	name := p.view.Panels[panel].Name
	node := func(space int) pellam.Node { return pellam.SpaceAt{Panel: name, Space: space}.Node() }
	others := []pellam.Node{pellam.NeutralBar(name)}
	switch against {
	case observation.AgainstEGC:
		others = []pellam.Node{pellam.GroundBar(name)}
	case observation.AgainstSpaces:
		others = nil
		for _, space := range b {
			others = append(others, node(space))
		}
	}
	if p.apart(p.bare(r), node, a, others) {
		return open
	}
	s := pellam.State{Clips: p.clips(r)}
	for _, space := range a {
		s.Clips = append(s.Clips, [2]pellam.Node{node(a[0]), node(space)})
	}
	for _, other := range others {
		s.Clips = append(s.Clips, [2]pellam.Node{others[0], other})
	}
	return p.Found.Wiring.In(s).Ohm(node(a[0]), others[0])
}

func (p *PellamPoint) apart(n *pellam.Net, node func(int) pellam.Node, a []int, others []pellam.Node) bool {
	for _, space := range a {
		for _, other := range others {
			if !n.Ohm(node(space), other).Open {
				return false
			}
		}
	}
	return true
}

// bare is the copper with no more than feeds joined to legs.
func (p *PellamPoint) bare(r *Rig) *pellam.Net {
	if p.without == nil || p.withoutOf != r || p.withoutAt != len(r.clips) {
		p.without, p.withoutOf, p.withoutAt = p.Found.Wiring.In(pellam.State{Clips: p.clips(r)}), r, len(r.clips)
	}
	return p.without
}

// clips are the feeds joined to legs.
func (p *PellamPoint) clips(r *Rig) [][2]pellam.Node {
	var out [][2]pellam.Node
	for _, c := range r.clips {
		out = append(out, [2]pellam.Node{p.hots[End{c.Box, c.Feed}].Node, p.hots[End{c.Box, c.Leg}].Node})
	}
	return out
}

// Unplug finds nothing: no load was left connected but the workshop's strips,
// whose drivers an ohmmeter does not see.
func (p *PellamPoint) Unplug(*Rig, int, []int) bool { return false }

// copperMost is more than the copper of any run, and far less than any leak.
const copperMost quantity.Ohms = 20

// Feeds reports whether a terminal reaches an end once every switch is closed.
func (p *PellamPoint) Feeds(at Terminal, end End) bool {
	hot, _ := p.terminal(at)
	return reaches(p.closed, hot, p.hots[end].Node)
}

func reaches(n *pellam.Net, a, b pellam.Node) bool {
	r := n.Ohm(a, b)
	return !r.Open && r.Ohm < copperMost
}

// Reaching lists the terminals that reach an end as the rig has it.
func (p *PellamPoint) Reaching(r *Rig, end End) []Terminal { return p.feeding(p.net(r), end) }

// feeding lists the terminals that reach an end.
func (p *PellamPoint) feeding(n *pellam.Net, end End) []Terminal {
	var out []Terminal
	for i, v := range p.view.Panels {
		for _, b := range v.Breakers {
			at := Terminal{Panel: i, Space: b.Number}
			if hot, _ := p.terminal(at); reaches(n, hot, p.hots[end].Node) {
				out = append(out, at)
			}
		}
		for _, c := range v.Coiled {
			at := Terminal{Panel: i, Cable: c.Tag}
			if hot, _ := p.terminal(at); reaches(n, hot, p.hots[end].Node) {
				out = append(out, at)
			}
		}
	}
	return out
}

// Near lists terminals of other circuits present in the room of a box or in one
// beside it.
func (p *PellamPoint) Near(box int) []Terminal {
	var out []Terminal
	room := p.view.Boxes[box].Room
	own := map[Terminal]bool{}
	for _, e := range p.view.Boxes[box].Ends {
		for _, at := range p.feeding(p.closed, End{box, e.Tag}) {
			own[at] = true
		}
	}
	for i, b := range p.view.Boxes {
		if b.Room < room-1 || b.Room > room+1 || p.view.Rooms[b.Room].Building != p.view.Rooms[room].Building {
			continue
		}
		for _, e := range b.Ends {
			for _, at := range p.feeding(p.closed, End{i, e.Tag}) {
				if !own[at] && !slices.Contains(out, at) {
					out = append(out, at)
				}
			}
		}
	}
	return out
}
