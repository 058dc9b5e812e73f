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
	"slices"
	"strings"

	"asfound/observation"
)

// Installation is the property at one journal state. It is never changed after
// it is made; the things it points to are shared with later ones.
type Installation struct {
	Buildings []*Building // by name
	Rooms     []*Room     // in walking order: building, floor, order
	Openings  []*Opening  // in walking order
	Panels    []*Panel    // by building and name
	Tours     []*Tour     // in the order they were set up
	Decisions []observation.Event
	Events    int // how many events it was folded from, withdrawn ones included
	Strange   int // events of kinds this program does not know

	things map[observation.Thing]any
	setUps map[observation.ID]bool // whether each counts
	change int                     // how often the set-ups have changed
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
	Story Story
}

// Room is a room, or a stretch outdoors, of a building.
type Room struct {
	Thing observation.Thing
	observation.Room
	Checks []observation.Event // room checks, oldest first
	Story  Story
}

// Opening is a box or connection point with what was read at it.
type Opening struct {
	Thing observation.Thing
	observation.Opening
	Cables     []observation.CableEnd // latest of each tag, by tag
	Stops      []*Stop                // oldest first
	Joints     []observation.Event    // feed joined to leg here on purpose
	NotReached *observation.Event     // the latest, unless something was read since
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
	LockOuts   []observation.Event
	Dead       []observation.Event
	Cabinet    *observation.Cabinet
	Passes     []observation.PassThrough
	Story      Story
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
	case *Gone:
		return x.Story
	}
	return nil
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

// DeadSince returns the test that shows a panel dead: an absence-of-voltage test
// of the whole panel that holds and is known to follow every one that does not.
func (p *Panel) DeadSince() (observation.Event, bool) {
	var out observation.Event
	found := false
	for _, e := range p.Dead {
		if d := e.Body.(observation.ProvenDead); !d.Holds() || len(d.Spaces) > 0 {
			continue
		}
		if !slices.ContainsFunc(p.Dead, func(o observation.Event) bool {
			return !o.Body.(observation.ProvenDead).Holds() && !e.Follows(o)
		}) {
			out, found = e, true
		}
	}
	return out, found
}

// Locked reports whether the supply of the whole panel is on record as locked
// out.
func (p *Panel) Locked() bool {
	return slices.ContainsFunc(p.LockOuts, func(e observation.Event) bool {
		return len(e.Body.(observation.LockOut).Spaces) == 0
	})
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
