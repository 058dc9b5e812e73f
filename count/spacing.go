package count

import (
	"asfound/installation"
	"asfound/observation"
	"asfound/quantity"
	"asfound/rule"
)

// RoomSpacing is the receptacle spacing along the walls of one room.
type RoomSpacing struct {
	Room    *installation.Room
	Applies observation.Known // whether somebody said that it is required here
	Cannot  []string          // why nothing can be told
	Gaps    []RoomGap
	Notes   []string
}

// RoomGap is a gap with the openings at its ends; nil is the end of the wall
// space.
type RoomGap struct {
	rule.Gap
	Left, Right *installation.Opening
}

// SpacingOf applies the spacing to a room in which somebody said that it is
// required. In the others nothing is told.
func SpacingOf(in *installation.Installation, r *installation.Room) RoomSpacing {
	out := RoomSpacing{Room: r}
	if r.Size != nil {
		out.Applies = r.Size.Spaced
	}
	if out.Applies != observation.Yes {
		return out
	}
	line, by := floorLine(in, r)
	found := rule.Spacing(line)
	out.Cannot, out.Notes = found.Cannot, found.Notes
	for _, g := range found.Gaps {
		out.Gaps = append(out.Gaps, RoomGap{g, by[g.From.Name], by[g.To.Name]})
	}
	return out
}

// floorLine is the floor line of a room with what is, or may be, a receptacle on
// it, and the openings by the names they have there.
func floorLine(in *installation.Installation, r *installation.Room) (rule.FloorLine, map[string]*installation.Opening) {
	var f rule.FloorLine
	by := map[string]*installation.Opening{}
	at := map[observation.Wall]int{}
	for i, w := range observation.Walls {
		wall := rule.Wall{Name: string(w) + " wall", Length: r.Wall(w)}
		for _, e := range r.Doorways {
			if d := e.Body.(observation.Doorway); d.Wall == w {
				wall.Breaks = append(wall.Breaks, rule.Stretch{From: d.From, To: d.To})
			}
		}
		f.Walls = append(f.Walls, wall)
		at[w] = i
	}
	for _, o := range in.In(r.Thing) {
		if o.Use != observation.Receptacle && o.Use != observation.NoUse || o.Spot != nil && o.Spot.Wall == observation.Overhead {
			continue
		}
		c := rule.Receptacle{Name: o.Number, Height: o.Height, Unsure: o.Use == observation.NoUse}
		for by[c.Name] != nil { // two openings may bear one number
			c.Name += " (again)"
		}
		by[c.Name] = o
		switch {
		case o.Spot == nil, o.Spot.Wall == observation.Underfoot && !r.Sized():
			f.Unplaced = append(f.Unplaced, c)
		case o.Spot.Wall == observation.Underfoot:
			var wall observation.Wall
			c.Floor = true
			wall, c.Along, c.OffWall = nearest(r, *o.Spot)
			f.Walls[at[wall]].Receptacles = append(f.Walls[at[wall]].Receptacles, c)
		default:
			c.Along = o.Spot.Along
			f.Walls[at[o.Spot.Wall]].Receptacles = append(f.Walls[at[o.Spot.Wall]].Receptacles, c)
		}
	}
	return f, by
}

// nearest is the wall that a place on the floor is nearest to, how far along it
// the place is, and how far from it.
func nearest(r *installation.Room, s observation.Spot) (wall observation.Wall, along, off quantity.Inches) {
	wide, deep := r.Wall(observation.FrontWall), r.Wall(observation.LeftWall)
	wall, along, off = observation.FrontWall, wide-s.Along, s.Out
	for _, w := range []struct {
		wall       observation.Wall
		along, off quantity.Inches
	}{{observation.LeftWall, s.Out, s.Along}, {observation.BackWall, s.Along, deep - s.Out}, {observation.RightWall, deep - s.Out, wide - s.Along}} {
		if w.off < off {
			wall, along, off = w.wall, w.along, w.off
		}
	}
	return wall, along, off
}
