// Package scenario makes up jobs whose wiring is known, and people who trace
// them: the demo property, practice for a learner, tests and the benchmark.
//
// A Truth is a building or four with panels, openings and faults, all invented.
// It answers every reading as physics would, given which resistors are really
// where. People read, place and write, with the mistakes that people make; they
// record through package site like anybody else, and the journal they leave
// knows nothing of the truth. The same seed plays the same job, byte for byte:
// nothing here looks at a clock or draws from a shared generator.
//
// The package draws no conclusion of its own from readings. It only compares
// what trace concluded with what is so: that is Score, and for the faults of the
// demo property Told. Practice plays the usual ways to trace there instead.
//
// Start with Generate and Play, then Score; PellamPoint is the demo property.
package scenario

import (
	"slices"

	"asfound/observation"
	"asfound/quantity"
)

// Truth is the wiring of an invented property as it really is. Its parts name
// each other by their place in these lists.
type Truth struct {
	Number    uint64 // its seed
	Size      Size
	Buildings []string
	Rooms     []Room
	Panels    []Panel
	Circuits  []Circuit
	Openings  []Opening
	Joins     [][2]int // circuits with copper between their hots
	OneLeg    [][2]int // multiwire branch circuits with both hots on one leg
}

// Room is a room of the property. Rooms stand in walking order.
type Room struct {
	Building int
	Name     string
	Floor    int
}

// Panel is a panelboard, in a room.
type Panel struct {
	Building int
	Room     int
	Name     string
	Spaces   int
	Junction bool // conductors pass through it that never land
}

// Circuit is a branch circuit. A two-pole one takes the space below in the
// column as well; its openings are told by the first pole.
type Circuit struct {
	Panel     int
	Space     int
	Poles     int
	Dedicated bool // made for one opening
	Home      int  // the room it mostly serves
	Size      quantity.Gauge
	Label     string        // beside its breaker; may lie
	Load      quantity.Ohms // left connected between hot and neutral; 0 is none
	ToGround  quantity.Ohms // a fault between hot and EGC; 0 is none
}

// Dead is the Circuit of an opening whose hot reaches no space.
const Dead = -1

// Opening is a box with one cable that matters, tagged 1.
type Opening struct {
	Room     int
	Number   string
	Use      observation.OpeningUse
	Circuit  int // or Dead
	Length   quantity.Feet
	Size     quantity.Gauge
	Ground   bool // its EGC arrives
	Neutral  bool // its neutral arrives
	Foreign  bool // fed from another building
	MisTied  bool // spliced onto another circuit than its neighbors' cable belongs to
	OddColor bool // its hot has the color of a neutral
}

// Node names the piece of copper that a circuit's hot is part of: circuits that
// are joined have the same.
func (t *Truth) Node(circuit int) int {
	for moved := true; moved; {
		moved = false
		for _, j := range t.Joins {
			low, high := min(j[0], j[1]), max(j[0], j[1])
			if circuit == high {
				circuit, moved = low, true
			}
		}
	}
	return circuit
}

// CircuitAt returns the circuit whose first pole is on a space, or Dead.
func (t *Truth) CircuitAt(panel, space int) int {
	return slices.IndexFunc(t.Circuits, func(c Circuit) bool { return c.Panel == panel && c.Space == space })
}

// Feeds reports whether an opening's hot is on a space, or on one joined with it.
func (t *Truth) Feeds(at Terminal, end End) bool {
	c, on := t.Openings[end.Box].Circuit, t.CircuitAt(at.Panel, at.Space)
	return c != Dead && on != Dead && t.Node(c) == t.Node(on)
}

// Reaching lists the spaces that an opening's hot is on: its own, and those
// joined with it.
func (t *Truth) Reaching(_ *Rig, end End) []Terminal {
	own := t.Openings[end.Box].Circuit
	if own == Dead {
		return nil
	}
	var out []Terminal
	for i, c := range t.Circuits {
		if t.Node(i) == t.Node(own) {
			out = append(out, Terminal{Panel: c.Panel, Space: c.Space})
		}
	}
	return out
}

// Seed is the seed it was made from.
func (t *Truth) Seed() uint64 { return t.Number }

// View is what is to be seen: one cable in each box.
func (t *Truth) View() *View {
	v := &View{Buildings: t.Buildings, Rooms: t.Rooms}
	for i, p := range t.Panels {
		panel := PanelFace{Building: p.Building, Room: p.Room, Name: p.Name, Spaces: p.Spaces}
		if p.Junction {
			panel.Passing = 3
		}
		for s := 1; s <= p.Spaces; s++ {
			if c := t.CircuitAt(i, s); c != Dead {
				panel.Breakers = append(panel.Breakers, t.Circuits[c].breaker())
			}
		}
		v.Panels = append(v.Panels, panel)
	}
	for _, o := range t.Openings {
		color := "black"
		if o.OddColor {
			color = "white"
		}
		v.Boxes = append(v.Boxes, BoxView{Room: o.Room, Number: o.Number, Use: o.Use, Gangs: 1, Ends: []EndView{{Tag: "1", Color: color, Size: o.Size}}})
	}
	return v
}

func (c Circuit) breaker() observation.Space {
	amps := map[int]quantity.Amperes{1: 20, 2: 30}[c.Poles]
	return observation.Space{Number: c.Space, Poles: c.Poles, Amps: amps, Label: c.Label, Lands: observation.LandsBranch, Wire: "black " + string(c.Size)}
}

// Near lists the other circuits present in the room of a box or beside it.
func (t *Truth) Near(box int) []Terminal {
	var out []Terminal
	seen := map[int]bool{}
	room, own := t.Openings[box].Room, t.Openings[box].Circuit
	for _, o := range t.Openings {
		if o.Circuit == Dead || o.Room < room-1 || o.Room > room+1 || t.Rooms[o.Room].Building != t.Rooms[room].Building {
			continue
		}
		if own != Dead && t.Node(own) == t.Node(o.Circuit) || seen[o.Circuit] {
			continue
		}
		seen[o.Circuit] = true
		c := t.Circuits[o.Circuit]
		out = append(out, Terminal{Panel: c.Panel, Space: c.Space})
	}
	return out
}
