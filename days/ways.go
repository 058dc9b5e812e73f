package days

import (
	"math"

	"asfound/installation"
	"asfound/observation"
)

// How people move (assumed; no source). Lengths in feet, times in seconds,
// heights in inches.
const (
	indoorSpeed = 4.0 // ft/s
	snowSpeed   = 3.0 // ft/s on snow, and outdoors where nobody said
	stairsUp    = 14.0
	stairsDown  = 10.0

	detour       = 1.3   // the way against the straight line between two measured places
	roomFeet     = 16.0  // from a room to the next on the walk, when they are not measured
	stairFeet    = 32.0  // to the stairs and from them
	doorFeet     = 30.0  // from a room to the door of its building
	besideFeet   = 6.0   // from an opening to the next one in the room
	acrossFeet   = 30.0  // the most it takes within a room that is not measured
	betweenFeet  = 200.0 // between two buildings without a path on record
	unknownPlace = 30.0  // within a building, where the room is not on record

	bareBox         = 10.0
	plateOff        = 40.0
	plateOn         = 60.0
	stepladder      = 75.0
	extensionLadder = 150.0
	stepladderOver  = 9 * 12.0
	extensionOver   = 12 * 12.0
)

// ways tells how long people are on the way in an installation.
type ways struct {
	in    *installation.Installation
	order map[observation.Thing]int // of a room on the walk through the property
	place map[observation.Thing]int // of an opening on the walk through its room
	// beside is the seconds from a building to those that a path of its own leads
	// to; quickest those to all, as far as they were asked for.
	beside, quickest map[observation.Thing]map[observation.Thing]float64
}

func newWays(in *installation.Installation) *ways {
	w := &ways{in: in, order: map[observation.Thing]int{}, place: map[observation.Thing]int{},
		beside: map[observation.Thing]map[observation.Thing]float64{}, quickest: map[observation.Thing]map[observation.Thing]float64{}}
	for i, r := range in.Rooms {
		w.order[r.Thing] = i
	}
	before := map[observation.Thing]int{}
	for _, o := range in.Openings {
		w.place[o.Thing] = before[o.Room]
		before[o.Room]++
	}
	w.paths()
	return w
}

// paths keeps the seconds from each building to the next ones along the paths on
// record, which are walked both ways.
func (w *ways) paths() {
	along := func(a, b observation.Thing, s float64) {
		if w.beside[a] == nil {
			w.beside[a] = map[observation.Thing]float64{}
		}
		if had, ok := w.beside[a][b]; !ok || s < had {
			w.beside[a][b] = s
		}
	}
	for _, b := range w.in.Buildings {
		for _, e := range b.Paths {
			p := e.Body.(observation.Path)
			speed := snowSpeed
			if p.Snow == observation.No {
				speed = indoorSpeed
			}
			along(b.Thing, p.To, float64(p.Feet)/speed)
			along(p.To, b.Thing, float64(p.Feet)/speed)
		}
	}
}

// outdoors is the quickest way on foot, in seconds, from one building to all that
// paths lead to, through other buildings too. It is worked out once for each
// building that is asked for, the nearest first.
func (w *ways) outdoors(from observation.Thing) map[observation.Thing]float64 {
	if had := w.quickest[from]; had != nil {
		return had
	}
	out, met := map[observation.Thing]float64{}, map[observation.Thing]float64{from: 0}
	for len(met) > 0 {
		next, nearest := observation.Thing(""), math.Inf(1)
		for t, s := range met {
			if s < nearest {
				next, nearest = t, s
			}
		}
		delete(met, next)
		out[next] = nearest
		for t, s := range w.beside[next] {
			if _, done := out[t]; done {
				continue
			}
			if had, ok := met[t]; !ok || nearest+s < had {
				met[t] = nearest + s
			}
		}
	}
	w.quickest[from] = out
	return out
}

// roomOf is the room a thing is in, or nil: of a panel nobody may have said.
func (w *ways) roomOf(t observation.Thing) *installation.Room {
	if o := w.in.Opening(t); o != nil {
		return w.in.Room(o.Room)
	}
	if p := w.in.Panel(t); p != nil {
		return w.in.Room(p.Room)
	}
	if d := w.in.DrawnAs(t); d != nil {
		return w.in.Room(d.Room)
	}
	return w.in.Room(t)
}

// end is the place that one person works at: a panel, else a room, else a
// building.
func (w *ways) end(t observation.Thing) observation.Thing {
	if w.in.Panel(t) != nil {
		return t
	}
	if room := w.roomOf(t); room != nil {
		return room.Thing
	}
	if b := w.in.BuildingOf(t); b != nil {
		return b.Thing
	}
	return ""
}

// building is the building a thing is in, or nil.
func (w *ways) building(t observation.Thing) *installation.Building {
	if b := w.in.BuildingOf(t); b != nil {
		return b
	}
	if room := w.roomOf(t); room != nil {
		return w.in.Building(room.Building)
	}
	return nil
}

// walk is the seconds from one place to another; none when either is not known,
// so that what lies where nobody knows is neither near nor far.
func (w *ways) walk(from, to observation.Thing) float64 {
	if from == to {
		return 0
	}
	r, s := w.roomOf(from), w.roomOf(to)
	if r != nil && r == s {
		return w.within(r, from, to) / indoorSpeed
	}
	a, b := w.building(from), w.building(to)
	switch {
	case a == nil || b == nil:
		return 0
	case a != b:
		return w.toDoor(r) + w.between(a.Thing, b.Thing) + w.fromDoor(s)
	case r == nil || s == nil:
		return unknownPlace / indoorSpeed
	}
	return w.rooms(r, s)/indoorSpeed + stairs(r.Floor, s.Floor)
}

// between is the seconds between the doors of two buildings.
func (w *ways) between(a, b observation.Thing) float64 {
	if s, ok := w.outdoors(a)[b]; ok {
		return s
	}
	return betweenFeet / snowSpeed
}

func (w *ways) toDoor(r *installation.Room) float64 {
	if r == nil {
		return doorFeet / indoorSpeed
	}
	return doorFeet/indoorSpeed + stairs(r.Floor, 0)
}

func (w *ways) fromDoor(r *installation.Room) float64 {
	if r == nil {
		return doorFeet / indoorSpeed
	}
	return doorFeet/indoorSpeed + stairs(0, r.Floor)
}

func stairs(from, to int) float64 {
	return stairsUp*float64(max(0, to-from)) + stairsDown*float64(max(0, from-to))
}

// rooms is the feet between two rooms of a building, stairs left out: between
// their middles when both are measured, else as they follow each other.
func (w *ways) rooms(r, s *installation.Room) float64 {
	if x, y, ok := middle(r); ok {
		if u, v, ok := middle(s); ok {
			return detour * math.Hypot(x-u, y-v) / 12
		}
	}
	if r.Floor != s.Floor {
		return stairFeet
	}
	return roomFeet * math.Abs(float64(w.order[r.Thing]-w.order[s.Thing]))
}

// middle is where the middle of a room is on the plan of its building, in
// inches, when its corner and both its sides were measured.
func middle(r *installation.Room) (right, back float64, ok bool) {
	if r.Size == nil || r.Size.Corner == nil || r.Size.Width == 0 || r.Size.Depth == 0 {
		return 0, 0, false
	}
	return float64(r.Size.Corner.Right + r.Size.Width/2), float64(r.Size.Corner.Back + r.Size.Depth/2), true
}

// within is the feet between two places of a room: as measured, or from one
// opening to the next as they follow each other.
func (w *ways) within(r *installation.Room, from, to observation.Thing) float64 {
	o, p := w.in.Opening(from), w.in.Opening(to)
	if o == nil || p == nil {
		return besideFeet
	}
	if x, y, ok := spot(r, o); ok {
		if u, v, ok := spot(r, p); ok {
			return detour * math.Hypot(x-u, y-v) / 12
		}
	}
	steps := max(w.place[to]-w.place[from], w.place[from]-w.place[to])
	return min(acrossFeet, besideFeet*float64(steps))
}

// spot is where an opening is in its measured room, in inches to the right of
// its front left corner and behind it.
func spot(r *installation.Room, o *installation.Opening) (right, back float64, ok bool) {
	if r.Size == nil || r.Size.Width == 0 || r.Size.Depth == 0 || o.Spot == nil {
		return 0, 0, false
	}
	along, wide, deep := float64(o.Spot.Along), float64(r.Size.Width), float64(r.Size.Depth)
	switch o.Spot.Wall { // its left end as one faces it from inside
	case observation.FrontWall:
		return wide - along, 0, true
	case observation.RightWall:
		return wide, deep - along, true
	case observation.BackWall:
		return along, deep, true
	case observation.LeftWall:
		return 0, along, true
	}
	return along, float64(o.Spot.Out), true
}
