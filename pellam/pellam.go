// Package pellam is the demo property: Pellam Point, five invented buildings
// whose first electrician left. Everything in it is invented; it stands for no
// real place, person or job.
//
// It holds the property as it was meant to be (the tables in data), as it really
// is (Found: the design with the faults of faults.go worked into it, each a
// typed operation), what a perfect meter would show between any two points of it,
// dead or live, and how people work there (Work: days, crews, ways, instruments,
// mistakes, notes). It takes no reading and draws no conclusion: that is for
// package scenario, whose people do, and the packages below it. Only makers of
// demos and tests may look in here.
//
// Start with Property, then Wiring for the copper, Found for what is wrong, and
// Work.
package pellam

import (
	"slices"
	"strings"

	"asfound/quantity"
)

// Property is Pellam Point as its drawings mean it to be. Lengths are on the
// site's tape: positions in a building's own frame, from the main floor up.
type Property struct {
	Rooms    []Room
	Openings []Opening
	Panels   []Panel
	Circuits []Circuit
	Cables   []Cable
	Groups   []Group
	Feeders  []Feeder
	Paths    []Path
	Drawn    []Drawn // where drawing and building differ
}

// Room is a room, its first letter the building.
type Room struct {
	ID, Name             string
	X, Y, Width, Depth   quantity.Feet
	Floor, Ceiling       quantity.Feet
	Walls, CeilingFinish string
}

// Building is the letter of the building a place belongs to.
func Building(place string) string { return place[:1] }

// Opening is a box or a connection.
type Opening struct {
	ID, Room   string
	Kind       Kind
	What       string
	Gangs      int
	Devices    []string // by yoke, from the left
	Volume     float64  // in.3; 0 for an enclosure of the luminaire or equipment
	Needs      float64  // in.3 that NFPA 70 314.16 wants as designed
	X, Y, Z    quantity.Feet
	VoltAmpere float64
}

// Kind is what an opening is for.
type Kind string

// The kinds of openings.
const (
	Switch     Kind = "switch"
	Receptacle Kind = "receptacle"
	Luminaire  Kind = "luminaire"
	Equipment  Kind = "equipment"
)

// Panel is a panelboard.
type Panel struct {
	ID, Name, Room string
	X, Y, Z        quantity.Feet
	Spaces         int
	Bus            quantity.Amperes
	Main           string
	FedFrom        string
	Mounting       string
}

// Circuit is a branch circuit or feeder as designed. Its spaces are those of
// its poles.
type Circuit struct {
	ID, Panel  string
	Spaces     []int
	Amps       quantity.Amperes
	Cable      string
	Protection string
	Serves     string
	Mark       string // on the jacket of its home run; may lie
	MarkIs     string // right, wrong, vague or none
	Coiled     bool   // its home run is in the panel and not landed
}

// Cable is a cable as designed.
type Cable struct {
	Circuit, From, To string
	Type              string // 12/2: conductor size and count, beside the ground
	Role              Role
	Length            quantity.Feet
}

// Role is what a cable is for.
type Role string

// The roles of cables.
const (
	HomeRun   Role = "home run"
	Feed      Role = "feed"
	SwitchLeg Role = "switch leg"
	Onward    Role = "luminaire to luminaire"
	Travelers Role = "travelers"
	Loop      Role = "switch loop"
)

// Group is the luminaires that work together and their switches, in the order of
// their travelers: supply enters at the first and the leg leaves at the last.
type Group struct {
	ID, Name, Kind, Circuit string
	Switches                []Yoke
	Luminaires              []string
}

// Yoke is one device's place in a box, counted from the left.
type Yoke struct {
	Box string
	At  int
}

// Feeder is a feeder or the wiring of a source.
type Feeder struct {
	ID, From, To string
	Length       quantity.Feet
	Conductors   string
}

// Path is the walk between two buildings.
type Path struct {
	From, To string
	Length   quantity.Feet
}

// Drawn is where the drawing and the building differ in number: so many openings
// of a sort are drawn, and so many of those are in the building.
type Drawn struct {
	Room         string
	Kind         Kind
	What         string
	Opening      string // one that is found and not drawn
	Drawn, Found int
}

// OnDrawing lists the openings that the drawing shows, by room.
func (p *Property) OnDrawing() []Drawn {
	missing := map[string]bool{}
	var out []Drawn
	for _, d := range p.Drawn {
		missing[d.Opening] = d.Drawn < d.Found
		for range d.Drawn - d.Found {
			out = append(out, Drawn{Room: d.Room, Kind: d.Kind, What: d.What, Drawn: 1})
		}
	}
	for _, o := range p.Openings {
		if !missing[o.ID] {
			out = append(out, Drawn{Room: o.Room, Kind: o.Kind, What: o.What, Opening: o.ID, Drawn: 1, Found: 1})
		}
	}
	slices.SortStableFunc(out, func(a, b Drawn) int { return strings.Compare(a.Room, b.Room) })
	return out
}

// Opening returns the opening with a number, or nil.
func (p *Property) Opening(id string) *Opening {
	return find(p.Openings, func(o *Opening) bool { return o.ID == id })
}

// Room returns the room with a number, or nil.
func (p *Property) Room(id string) *Room {
	return find(p.Rooms, func(r *Room) bool { return r.ID == id })
}

// Panel returns the panel with a name, or nil.
func (p *Property) Panel(id string) *Panel {
	return find(p.Panels, func(x *Panel) bool { return x.ID == id })
}

// Circuit returns the circuit with a name, or nil.
func (p *Property) Circuit(id string) *Circuit {
	return find(p.Circuits, func(c *Circuit) bool { return c.ID == id })
}

// Group returns the switching group with a name, or nil.
func (p *Property) Group(id string) *Group {
	return find(p.Groups, func(g *Group) bool { return g.ID == id })
}

func find[T any](all []T, is func(*T) bool) *T {
	i := slices.IndexFunc(all, func(x T) bool { return is(&x) })
	if i < 0 {
		return nil
	}
	return &all[i]
}

// circuitOf is the circuit that a luminaire, receptacle or piece of equipment is
// on as designed, or nil.
func (p *Property) circuitOf(opening string) *Circuit {
	for _, c := range p.Cables {
		if c.To == opening {
			return p.Circuit(c.Circuit)
		}
	}
	return nil
}
