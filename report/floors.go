package report

import (
	"asfound/drawing"
	"asfound/installation"
	"asfound/observation"
	"asfound/paper"
	"asfound/site"
)

// tabloid is 11 by 17 inches (ANSI/ASME Y14.1, size B), for a floor too full for
// a letter page.
var tabloid = paper.Size{Width: 279.4, Height: 431.8}

// makePlan makes the plan of a building, a page for each floor. A floor too full
// for a letter page makes the paper larger, never the plan shorter.
func makePlan(a *site.AsFound, k Kind) (*paper.Sheet, error) {
	floors := a.Floors(k.Of)
	if len(floors) == 0 {
		return nil, observation.Unusable{Field: "sheet", Typed: k.Name, Say: "There is no room in this building to draw. Record a room first."}
	}
	for _, size := range []paper.Size{paper.Letter, tabloid} {
		if s, over, err := planOn(size, a, k, floors); err != nil || over <= 0 {
			return s, err
		}
	}
	_, over, err := planOn(tabloid, a, k, floors)
	if err != nil {
		return nil, err
	}
	s, _, err := planOn(paper.Size{Width: tabloid.Width, Height: tabloid.Height + over}, a, k, floors)
	return s, err
}

// planOn makes the plan on paper of one size; over is by how much the fullest
// floor is too tall for it.
func planOn(size paper.Size, a *site.AsFound, k Kind, floors []int) (s *paper.Sheet, over float64, err error) {
	if s, err = beginOn(size, a, k); err != nil {
		return nil, 0, err
	}
	for i, n := range floors {
		if i > 0 {
			s.Break()
		}
		s.Heading(drawing.FloorName(a.Installation, k.Of, n))
		free := s.Free()
		page := drawing.FloorPlan(a.Installation, a.Trace, k.Of, n, free.W, nil)
		if page.Height > free.H {
			over = max(over, page.Height-free.H)
			continue
		}
		p, at := s.Room(page.Height)
		p.Add(page.Moved(at.X, at.Y))
	}
	return s, over, nil
}

func planRows(a *site.AsFound, k Kind) (list, error) {
	l := list{head: []string{"room", "size", "opening", "use", "place", "standing"}}
	for _, r := range a.Rooms {
		if r.Building != k.Of {
			continue
		}
		l.add(r.Name, roomSize(r), r.Name, roomSize(r), "", "", "", "")
		for _, o := range a.In(r.Thing) {
			standing := drawing.StandingAt(a.Trace, o.Thing).String()
			place := drawing.SpotName(o.Spot)
			if o.NotReached != nil {
				place += ", not reached"
			}
			l.add(o.Number, place+", "+standing, r.Name, "", o.Number, useName(o.Use), place, standing)
		}
	}
	return l, nil
}

func roomSize(r *installation.Room) string {
	if !r.Sized() {
		return "not measured"
	}
	return r.Size.Width.Span() + " by " + r.Size.Depth.Span()
}
