package scenario

import (
	"time"

	"asfound/observation"
	"asfound/quantity"
)

// World is a property as people meet it: what is to be seen there, how long the
// ways are, and what a perfect ohmmeter shows with all breakers off. Truth is a
// made-up one, PellamPoint the demo property.
type World interface {
	// View is what is to be seen.
	View() *View
	// Walk is the time from one room to another; from is -1 outside.
	Walk(c Costs, from, to int) time.Duration
	// Reach is the time to get a ladder to a box and open it.
	Reach(c Costs, box int) time.Duration
	// Ohm is shown between two conductors beside each other in a box.
	Ohm(r *Rig, end End, a, b observation.Wire) quantity.Resistance
	// AtTerminal is shown at a panel between a terminal and the ground bar.
	AtTerminal(r *Rig, at Terminal) quantity.Resistance
	// Isolation is shown at a panel in the isolation test: spaces a joined
	// together against spaces b joined together or a bar, no resistor on, neutral
	// and ground bar not joined to each other.
	Isolation(r *Rig, panel int, a []int, against observation.Against, b []int) quantity.Resistance
	// Unplug takes off the loads on spaces' circuits; it reports whether there
	// was one.
	Unplug(r *Rig, panel int, spaces []int) bool
	// Feeds reports whether a terminal reaches an end, once every switch is in and
	// closed. It is what is so.
	Feeds(at Terminal, end End) bool
	// Reaching lists the terminals that reach an end as the rig has it.
	Reaching(r *Rig, end End) []Terminal
	// Near lists terminals of other circuits present in the room of a box or in
	// one beside it.
	Near(box int) []Terminal
	// Seed tells one made-up property from another.
	Seed() uint64
}

// View is what is to be seen of a property. Its parts name each other by their
// place in these lists.
type View struct {
	Buildings []string
	Rooms     []Room // in walking order
	Panels    []PanelFace
	Boxes     []BoxView
	Sources   []observation.Source
	Feeders   []FeederView
	Drawn     []DrawnView
}

// DrawnView is an opening on a drawing that came with the property.
type DrawnView struct {
	Room int
	Use  observation.OpeningUse
	What string
}

// PanelFace is a panel with its dead front off.
type PanelFace struct {
	Building, Room int
	Name           string
	Spaces         int
	Breakers       []observation.Space
	Coiled         []observation.CableEnd // home runs that are landed nowhere
	Passing        int                    // conductors that pass through
}

// FeederView is a feeder as its marks show it: from a space of a panel, or from
// a source.
type FeederView struct {
	Source int // counted from 1; 0 is from a panel
	Panel  int
	Space  int
	To     int
	Wires  string
	Way    string
}

// BoxView is an opening with its cover off.
type BoxView struct {
	Room    int
	Number  string
	Use     observation.OpeningUse
	Gangs   int
	Height  quantity.Inches
	Setback quantity.Inches
	Covered bool // no one can find it: the finish was never cut
	Ends    []EndView
	Joins   [][2]string // tags of the hots that a closed switch would join, feed first if known
}

// EndView is the hots of a box that touch each other, seen as one.
type EndView struct {
	Tag   string
	Color string
	Size  quantity.Gauge
	Mark  string
	Bare  bool            // without a neutral of its own
	Free  quantity.Inches // of its conductors outside the face, where that is too short to overlook; 0 is not
}

// End is one of them.
type End struct {
	Box int
	Tag string
}

// Terminal is where a resistor can be put on in a panel: a space, or the hot of
// a cable coiled there.
type Terminal struct {
	Panel int
	Space int
	Cable string
}

// Rig is what people have put on and joined.
type Rig struct {
	on        map[Terminal][]quantity.Ohms // resistors, terminal to ground, true values
	clips     []Clip
	unplugged map[int]bool // loads, by circuit
	version   int
}

// Clip is a feed and a leg joined in a box.
type Clip struct {
	Box       int
	Feed, Leg string
}

func newRig() *Rig { return &Rig{on: map[Terminal][]quantity.Ohms{}, unplugged: map[int]bool{}} }

// put sets what is really on each terminal.
func (r *Rig) put(on map[Terminal][]quantity.Ohms) {
	r.on = on
	r.version++
}

func (r *Rig) clip(c Clip) {
	r.clips = append(r.clips, c)
	r.version++
}

// in lists the boxes of a room in walking order.
func (v *View) in(room int) []int {
	var out []int
	for i, b := range v.Boxes {
		if b.Room == room {
			out = append(out, i)
		}
	}
	return out
}

// end returns the end with a tag.
func (b BoxView) end(tag string) (EndView, bool) {
	for _, e := range b.Ends {
		if e.Tag == tag {
			return e, true
		}
	}
	return EndView{}, false
}
