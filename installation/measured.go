package installation

import (
	"cmp"
	"fmt"
	"strings"

	"asfound/observation"
	"asfound/quantity"
)

// Wall is how long a wall of the room is, or 0 when that was not measured.
func (r *Room) Wall(w observation.Wall) quantity.Inches {
	switch {
	case r.Size == nil:
		return 0
	case w == observation.FrontWall || w == observation.BackWall:
		return r.Size.Width
	case w == observation.LeftWall || w == observation.RightWall:
		return r.Size.Depth
	}
	return 0
}

// Sized reports whether width and depth of the room were measured.
func (r *Room) Sized() bool { return r.Size != nil && r.Size.Width > 0 && r.Size.Depth > 0 }

// Placed reports whether it was measured, too, where the room lies.
func (r *Room) Placed() bool { return r.Sized() && r.Size.Corner != nil }

// Floors lists the floors of a building that have a room, lowest first.
func (in *Installation) Floors(building observation.Thing) []int {
	var out []int
	for _, r := range in.Rooms { // sorted by building, then by floor
		if r.Building == building && (len(out) == 0 || out[len(out)-1] != r.Floor) {
			out = append(out, r.Floor)
		}
	}
	return out
}

// Floor lists the rooms of one floor of a building, in walking order.
func (in *Installation) Floor(building observation.Thing, floor int) []*Room {
	var out []*Room
	for _, r := range in.Rooms {
		if r.Building == building && r.Floor == floor {
			out = append(out, r)
		}
	}
	return out
}

// Misfits says, in a sentence each, which measures of a floor cannot all be
// right: rooms that overlap, and what lies beyond the end of its wall.
func (in *Installation) Misfits(building observation.Thing, floor int) []string {
	var out []string
	for _, r := range in.Floor(building, floor) {
		out = append(out, in.MisfitsIn(r)...)
	}
	return append(out, in.Overlaps(building, floor)...)
}

// Overlaps are the misfits between the rooms of a floor.
func (in *Installation) Overlaps(building observation.Thing, floor int) []string {
	var out []string
	rooms := in.Floor(building, floor)
	for i, r := range rooms {
		for _, other := range rooms[i+1:] {
			if wide, deep := overlap(r, other); wide > 0 {
				out = append(out, fmt.Sprintf("%s and %s overlap by %s by %s: one of their measures is wrong.", r.Name, other.Name, wide.Span(), deep.Span()))
			}
		}
	}
	return out
}

// tapeError is by how much rooms may overlap before it is said: what a tape
// from wall to wall may be off (an assumption).
const tapeError quantity.Inches = 3

// overlap is the size of the stretch of floor that two rooms both take; zero
// for none.
func overlap(a, b *Room) (wide, deep quantity.Inches) {
	if !a.Placed() || !b.Placed() {
		return 0, 0
	}
	p, q := a.Size, b.Size
	wide = min(p.Corner.Right+p.Width, q.Corner.Right+q.Width) - max(p.Corner.Right, q.Corner.Right)
	deep = min(p.Corner.Back+p.Depth, q.Corner.Back+q.Depth) - max(p.Corner.Back, q.Corner.Back)
	if wide <= tapeError || deep <= tapeError {
		return 0, 0
	}
	return wide, deep
}

// MisfitsIn are the misfits within one room.
func (in *Installation) MisfitsIn(r *Room) []string {
	var out []string
	for _, e := range r.Doorways {
		if say := r.beyondWall(e.Body.(observation.Doorway)); say != "" {
			out = append(out, r.Name+": "+say+": one of the measures is wrong.")
		}
	}
	for _, o := range in.In(r.Thing) {
		if o.Spot != nil {
			if say := r.beyondSpot(*o.Spot); say != "" {
				out = append(out, o.Number+" in "+r.Name+": "+say+": one of the measures is wrong.")
			}
		}
	}
	return append(out, in.aboveCeiling(r)...)
}

// aboveCeiling says which openings are noted higher than the ceiling, those of
// one height together.
func (in *Installation) aboveCeiling(r *Room) []string {
	var out []string
	var heights []quantity.Inches
	numbers := map[quantity.Inches][]string{}
	for _, o := range in.In(r.Thing) {
		if r.Size == nil || r.Size.Ceiling <= 0 || o.Height <= r.Size.Ceiling {
			continue
		}
		if numbers[o.Height] == nil {
			heights = append(heights, o.Height)
		}
		numbers[o.Height] = append(numbers[o.Height], o.Number)
	}
	for _, h := range heights {
		out = append(out, fmt.Sprintf("%s in %s: noted %s above the floor, and the ceiling is at %s: one of the measures is wrong.",
			strings.Join(numbers[h], ", "), r.Name, h.Span(), r.Size.Ceiling.Span()))
	}
	return out
}

// beyondWall says that a doorway ends beyond its wall, or nothing.
func (r *Room) beyondWall(d observation.Doorway) string {
	long := r.Wall(d.Wall)
	if long == 0 || d.To <= long {
		return ""
	}
	return fmt.Sprintf("the %s wall is %s long on record, and the %s ends at %s", d.Wall, long.Span(), cmp.Or(d.What, "doorway"), d.To.Span())
}

// beyondSpot says that a place lies outside the room, or nothing.
func (r *Room) beyondSpot(s observation.Spot) string {
	if s.Wall != observation.Overhead && s.Wall != observation.Underfoot {
		if long := r.Wall(s.Wall); long > 0 && s.Along > long {
			return fmt.Sprintf("the %s wall is %s long on record, and the place is %s along it", s.Wall, long.Span(), s.Along.Span())
		}
		return ""
	}
	if wide := r.Wall(observation.FrontWall); wide > 0 && s.Along > wide {
		return fmt.Sprintf("the room is %s wide on record, and the place is %s from the left wall", wide.Span(), s.Along.Span())
	}
	if deep := r.Wall(observation.LeftWall); deep > 0 && s.Out > deep {
		return fmt.Sprintf("the room is %s deep on record, and the place is %s from the front wall", deep.Span(), s.Out.Span())
	}
	return ""
}

// admitFit refuses what lies beyond the end of its wall as measured.
func (in admission) admitFit(o observation.Observation) error {
	switch b := o.Body.(type) {
	case observation.Doorway:
		if r, ok := in(o.Subject).(*Room); ok {
			return misfit("to", b.To, r.beyondWall(b))
		}
	case observation.Spot:
		at, ok := in(o.Subject).(*Opening)
		if !ok {
			return nil
		}
		if r, ok := in(at.Room).(*Room); ok {
			return misfit("along", b.Along, r.beyondSpot(b))
		}
	}
	return nil
}

func misfit(field string, typed quantity.Inches, say string) error {
	if say == "" {
		return nil
	}
	return observation.Unusable{Field: field, Typed: typed.Span(), Say: "Check the measure, or put the room's size right first: " + say + "."}
}
