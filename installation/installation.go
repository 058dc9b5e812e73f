// Package installation is the property as the live observations describe it:
// buildings, rooms, openings, panels and tours, each with the events that are
// about it.
//
// It folds a journal's events in any order, any number of times, into the same
// Installation, and one more event without folding the rest again. A withdrawn
// event leaves the Installation as if it had never been recorded, but stays in
// the story of its thing. The package draws no conclusion: which conductor is
// fed from where is for package trace.
//
// Start with Fold, then Installation.
package installation

import (
	"cmp"
	"slices"
	"strings"

	"asfound/observation"
)

// Installation is the property at one journal state. It is never changed after
// it is made; the things it points to are shared with later ones.
type Installation struct {
	Buildings []*Building         // by name
	Rooms     []*Room             // in walking order: building, floor, order
	Openings  []*Opening          // in walking order
	Panels    []*Panel            // by building and name
	Tours     []*Tour             // in the order they were set up
	Sources   []*Source           // by name
	Feeders   []*Feeder           // by the panel they come to
	Drawn     []*Drawn            // openings on drawings, in the walking order of their rooms
	Notes     []observation.Event // about the job as a whole, oldest first
	Decisions []observation.Event
	Events    int // how many events it was folded from, withdrawn ones included
	Strange   int // events of kinds this program does not know

	things map[observation.Thing]any
	setUps map[observation.ID]bool // whether each counts
	change int                     // how often the set-ups have changed

	power power
}

// Story is what was recorded about one thing, oldest first.
type Story []Entry

// Entry is one event of a story, with what became of it.
type Entry struct {
	observation.Event
	WithdrawnBy []observation.ID // withdrawals that name it
	ReplacedBy  []observation.ID // later events that name it as seen
}

// Live reports whether the event still counts.
func (e Entry) Live() bool { return len(e.WithdrawnBy) == 0 && len(e.ReplacedBy) == 0 }

// Building is a building of the property.
type Building struct {
	Thing observation.Thing
	observation.Building
	Paths []observation.Event // to other buildings, oldest first
	Story Story
}

// Room is a room, or a stretch outdoors, of a building.
type Room struct {
	Thing observation.Thing
	observation.Room
	Checks   []observation.Event // room checks, oldest first
	Size     *observation.RoomSize
	Doorways []observation.Event
	Story    Story
}

// Opening is a box or connection point with what was read at it.
type Opening struct {
	Thing observation.Thing
	observation.Opening
	Cables     []observation.CableEnd // latest of each tag, by tag
	Stops      []*Stop                // oldest first
	Joints     []observation.Event    // feed joined to leg here on purpose
	NotReached *observation.Event     // the latest, unless something was read since
	Spot       *observation.Spot
	Plate      observation.Known // whether the plate is on
	Story      Story
}

// ReadUnder reports whether something was read at the opening in a tour.
func (o *Opening) ReadUnder(tour observation.ID) bool {
	return slices.ContainsFunc(o.Stops, func(s *Stop) bool {
		return slices.ContainsFunc(s.Ohms, func(e observation.Event) bool { return slices.Contains(e.Under, tour) })
	})
}

// Stop is one visit of one person to one opening.
type Stop struct {
	ID      string
	Who     string
	First   observation.Event
	Letters []observation.Event
	Ohms    []observation.Event
	Cannot  []observation.Event
}

// Panel is a panelboard with what was seen and read at it.
type Panel struct {
	Thing observation.Thing
	observation.Panel
	Seen       map[int]observation.Space // latest of each space
	Cables     []observation.CableEnd
	Isolations []observation.Event
	Safety
	Cabinet *observation.Cabinet
	Passes  []observation.PassThrough
	Story   Story
}

// Tour is a set-up under which openings are read.
type Tour struct {
	ID observation.ID
	observation.Tour
	Resistors []observation.Event // put on for it, oldest first
	ReadBacks []observation.Event // oldest first
	Removed   bool
	TakenOff  []observation.Event // when it was taken down; none while it stands
	Story     Story
}

// Source is something that can put voltage on the property.
type Source struct {
	Thing observation.Thing
	observation.Source
	Safety
	Story Story
}

// Feeder is what supplies a panel, or could.
type Feeder struct {
	Thing observation.Thing
	observation.Feeder
	Story Story
}

// Drawn is an opening on a drawing, with what became of it.
type Drawn struct {
	Thing observation.Thing
	observation.Drawn
	Outcome *observation.Event // the latest that says what became of it, or nil
	Story   Story
}

// Gone is a thing whose record was withdrawn: only its story is left.
type Gone struct {
	Story Story
}

// Building returns the building with this name for good, or nil.
func (in *Installation) Building(t observation.Thing) *Building { return find[*Building](in, t) }

// Room returns the room with this name for good, or nil.
func (in *Installation) Room(t observation.Thing) *Room { return find[*Room](in, t) }

// Opening returns the opening with this name for good, or nil.
func (in *Installation) Opening(t observation.Thing) *Opening { return find[*Opening](in, t) }

// Panel returns the panel with this name for good, or nil.
func (in *Installation) Panel(t observation.Thing) *Panel { return find[*Panel](in, t) }

// Source returns the source with this name for good, or nil.
func (in *Installation) Source(t observation.Thing) *Source { return find[*Source](in, t) }

// Feeder returns the feeder with this name for good, or nil.
func (in *Installation) Feeder(t observation.Thing) *Feeder { return find[*Feeder](in, t) }

// DrawnAs returns the opening on a drawing with this name for good, or nil.
func (in *Installation) DrawnAs(t observation.Thing) *Drawn { return find[*Drawn](in, t) }

// Tour returns the tour set up by this event, or nil.
func (in *Installation) Tour(id observation.ID) *Tour { return find[*Tour](in, id.Thing()) }

func find[T any](in *Installation, t observation.Thing) T {
	got, _ := in.things[t].(T)
	return got
}

// Story returns what was recorded about a thing, withdrawn events included.
func (in *Installation) Story(t observation.Thing) Story {
	switch x := in.things[t].(type) {
	case *Building:
		return x.Story
	case *Room:
		return x.Story
	case *Opening:
		return x.Story
	case *Panel:
		return x.Story
	case *Tour:
		return x.Story
	case *Source:
		return x.Story
	case *Feeder:
		return x.Story
	case *Drawn:
		return x.Story
	case *Gone:
		return x.Story
	}
	return nil
}

// Entries lists what was recorded of every thing and of the job as a whole, each
// entry once, in the order of clocks. Withdrawals and decisions that name no thing
// are left out.
func (in *Installation) Entries() []Entry {
	seen := make(map[observation.ID]bool, in.Events)
	out := make([]Entry, 0, in.Events)
	add := func(e Entry) {
		if !seen[e.ID] {
			seen[e.ID] = true
			out = append(out, e)
		}
	}
	for t := range in.things {
		for _, e := range in.Story(t) {
			add(e)
		}
	}
	for _, e := range slices.Concat(in.Notes, in.Decisions) {
		add(Entry{Event: e})
	}
	slices.SortFunc(out, func(a, b Entry) int { return byClock(a.Event, b.Event) })
	return out
}

// EachThing goes through all things that are there with their stories, in the
// order of their lists.
func (in *Installation) EachThing(do func(observation.Thing, Story)) {
	for _, x := range in.Buildings {
		do(x.Thing, x.Story)
	}
	for _, x := range in.Rooms {
		do(x.Thing, x.Story)
	}
	for _, x := range in.Openings {
		do(x.Thing, x.Story)
	}
	for _, x := range in.Panels {
		do(x.Thing, x.Story)
	}
	for _, x := range in.Tours {
		do(x.ID.Thing(), x.Story)
	}
	for _, x := range in.Sources {
		do(x.Thing, x.Story)
	}
	for _, x := range in.Feeders {
		do(x.Thing, x.Story)
	}
	for _, x := range in.Drawn {
		do(x.Thing, x.Story)
	}
}

// SetUps changes whenever a set-up came in or its standing changed.
func (in *Installation) SetUps() int { return in.change }

// Rests reports whether every set-up an event names is on record and live. What
// rests on a set-up that was withdrawn, or that nobody here has heard of, counts
// no more.
func (in *Installation) Rests(e observation.Event) bool {
	for _, id := range e.Under {
		if !in.setUps[id] {
			return false
		}
	}
	return true
}

// Numbered returns the openings that bear a number; more than one until
// somebody settles which is which.
func (in *Installation) Numbered(number string) []*Opening {
	var out []*Opening
	for _, o := range in.Openings {
		if strings.EqualFold(o.Number, strings.TrimSpace(number)) {
			out = append(out, o)
		}
	}
	return out
}

// In returns the openings of a room in walking order.
func (in *Installation) In(room observation.Thing) []*Opening {
	var out []*Opening
	for _, o := range in.Openings {
		if o.Room == room {
			out = append(out, o)
		}
	}
	return out
}

// BuildingOf returns the building an opening or panel is in, or nil.
func (in *Installation) BuildingOf(t observation.Thing) *Building {
	switch x := in.things[t].(type) {
	case *Opening:
		if room := in.Room(x.Room); room != nil {
			return in.Building(room.Building)
		}
	case *Panel:
		return in.Building(x.Building)
	case *Source:
		return in.Building(x.Building)
	case *Room:
		return in.Building(x.Building)
	case *Building:
		return x
	}
	return nil
}

// Name is what people call a thing: the number of an opening, else its name.
func (in *Installation) Name(t observation.Thing) string {
	switch x := in.things[t].(type) {
	case *Building:
		return x.Name
	case *Room:
		return x.Name
	case *Opening:
		return x.Number
	case *Panel:
		return x.Name
	case *Tour:
		return x.Name
	case *Source:
		return x.Name
	case *Feeder:
		return "feeder to " + in.Name(x.To)
	case *Drawn:
		return cmp.Or(x.Mark, x.What, string(x.Use), "drawn opening")
	}
	return "not recorded"
}

// PointName names a point in full: "A02-08, hot of cable 1", "A1-34".
func (in *Installation) PointName(p observation.Point) string {
	if panel := in.Panel(p.At); panel != nil && p.Space > 0 && p.Wire == observation.Hot {
		return SpaceName(panel, p.Space)
	}
	return in.Name(p.At) + ", " + p.String()
}

// UpperHalf returns the space of the 2-pole breaker on record whose lower half a
// space is, or 0. Pairs are counted from the top of the column: a 2-pole breaker
// noted at its lower half too is one breaker.
func (p *Panel) UpperHalf(space int) int {
	upper := 0
	for s := (space-1)%2 + 1; s < space; s += 2 {
		taken := upper > 0 && p.Seen[s].Poles != 1
		upper = 0
		if p.Seen[s].Poles == 2 && !taken {
			upper = s
		}
	}
	return upper
}

// Branches lists the spaces on which a branch conductor is known to land, in
// the order of the panel's columns: left then right.
func (p *Panel) Branches() []int {
	var out []int
	for s, seen := range p.Seen {
		if seen.Lands == observation.LandsBranch {
			out = append(out, s)
		}
	}
	slices.SortFunc(out, compareColumns)
	return out
}

// compareColumns puts odd spaces before even ones, each from the top.
func compareColumns(a, b int) int {
	if a%2 != b%2 {
		return b%2 - a%2
	}
	return a - b
}
