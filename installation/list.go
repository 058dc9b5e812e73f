package installation

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"asfound/observation"
)

// sameStanding reports whether a thing made anew stands at the same place in
// the lists as before, so that they need not be sorted again.
func sameStanding(old, made any) bool {
	switch a := old.(type) {
	case *Opening:
		b, ok := made.(*Opening)
		return ok && a.Room == b.Room && a.Order == b.Order && a.Number == b.Number
	case *Tour:
		_, ok := made.(*Tour)
		return ok
	case *Panel:
		b, ok := made.(*Panel)
		return ok && a.Name == b.Name && a.Building == b.Building
	case *Room:
		b, ok := made.(*Room)
		return ok && a.Room == b.Room
	}
	return old == nil && made == nil
}

// list fills the ordered lists, from those of the Installation before when no
// thing has moved.
func (in *Installation) list(before *Installation, again bool) {
	if !again {
		in.Buildings = renewed(in, before.Buildings, func(b *Building) any { return in.things[b.Thing] })
		in.Rooms = renewed(in, before.Rooms, func(r *Room) any { return in.things[r.Thing] })
		in.Openings = renewed(in, before.Openings, func(o *Opening) any { return in.things[o.Thing] })
		in.Panels = renewed(in, before.Panels, func(p *Panel) any { return in.things[p.Thing] })
		in.Tours = renewed(in, before.Tours, func(t *Tour) any { return in.things[t.ID.Thing()] })
		in.Sources = renewed(in, before.Sources, func(s *Source) any { return in.things[s.Thing] })
		in.Feeders = renewed(in, before.Feeders, func(f *Feeder) any { return in.things[f.Thing] })
		in.Drawn = renewed(in, before.Drawn, func(d *Drawn) any { return in.things[d.Thing] })
		return
	}
	in.Buildings = []*Building{}
	for _, x := range in.things {
		switch x := x.(type) {
		case *Building:
			in.Buildings = append(in.Buildings, x)
		case *Room:
			in.Rooms = append(in.Rooms, x)
		case *Opening:
			in.Openings = append(in.Openings, x)
		case *Panel:
			in.Panels = append(in.Panels, x)
		case *Tour:
			in.Tours = append(in.Tours, x)
		case *Source:
			in.Sources = append(in.Sources, x)
		case *Feeder:
			in.Feeders = append(in.Feeders, x)
		case *Drawn:
			in.Drawn = append(in.Drawn, x)
		}
	}
	in.sort()
}

func renewed[T any](in *Installation, before []T, now func(T) any) []T {
	out := make([]T, len(before))
	for i, x := range before {
		out[i] = now(x).(T)
	}
	return out
}

func (in *Installation) sort() {
	slices.SortFunc(in.Buildings, func(a, b *Building) int {
		return cmp.Or(compareNames(a.Name, b.Name), cmp.Compare(a.Thing, b.Thing))
	})
	buildingAt := map[observation.Thing]int{}
	for i, b := range in.Buildings {
		buildingAt[b.Thing] = i
	}
	slices.SortFunc(in.Rooms, func(a, b *Room) int {
		return cmp.Or(cmp.Compare(buildingAt[a.Building], buildingAt[b.Building]), cmp.Compare(a.Floor, b.Floor),
			cmp.Compare(a.Order, b.Order), compareNames(a.Name, b.Name), cmp.Compare(a.Thing, b.Thing))
	})
	roomAt := map[observation.Thing]int{}
	for i, r := range in.Rooms {
		roomAt[r.Thing] = i
	}
	in.sortOpenings(roomAt)
	slices.SortFunc(in.Panels, func(a, b *Panel) int {
		return cmp.Or(cmp.Compare(buildingAt[a.Building], buildingAt[b.Building]), compareNames(a.Name, b.Name), cmp.Compare(a.Thing, b.Thing))
	})
	slices.SortFunc(in.Tours, func(a, b *Tour) int {
		return byClock(a.Story[0].Event, b.Story[0].Event)
	})
	slices.SortFunc(in.Sources, func(a, b *Source) int {
		return cmp.Or(compareNames(a.Name, b.Name), cmp.Compare(a.Thing, b.Thing))
	})
	slices.SortFunc(in.Feeders, func(a, b *Feeder) int {
		return cmp.Or(compareNames(in.Name(a.To), in.Name(b.To)), cmp.Compare(a.Thing, b.Thing))
	})
	slices.SortFunc(in.Drawn, func(a, b *Drawn) int {
		return cmp.Or(cmp.Compare(roomAt[a.Room], roomAt[b.Room]), byClock(a.Story[0].Event, b.Story[0].Event))
	})
}

// sortOpenings puts openings into walking order. The place of their rooms is
// looked up once each: a large job has more comparisons than openings.
func (in *Installation) sortOpenings(roomAt map[observation.Thing]int) {
	type placed struct {
		o    *Opening
		room int
	}
	all := make([]placed, len(in.Openings))
	for i, o := range in.Openings {
		all[i] = placed{o, roomAt[o.Room]}
	}
	slices.SortFunc(all, func(a, b placed) int {
		return cmp.Or(cmp.Compare(a.room, b.room), cmp.Compare(a.o.Order, b.o.Order),
			compareNames(a.o.Number, b.o.Number), cmp.Compare(a.o.Thing, b.o.Thing))
	})
	for i, p := range all {
		in.Openings[i] = p.o
	}
}

// compareNames orders names as people count: 9 before 10.
func compareNames(a, b string) int {
	for a != "" && b != "" {
		x, y := figures(a), figures(b)
		if x != "" && y != "" {
			n, _ := strconv.Atoi(x)
			m, _ := strconv.Atoi(y)
			if c := cmp.Compare(n, m); c != 0 {
				return c
			}
			a, b = a[len(x):], b[len(y):]
			continue
		}
		if a[0] != b[0] {
			return cmp.Compare(a[0], b[0])
		}
		a, b = a[1:], b[1:]
	}
	return cmp.Or(cmp.Compare(len(a), len(b)), strings.Compare(a, b))
}

func figures(s string) string {
	n := 0
	for n < len(s) && n < 9 && s[n] >= '0' && s[n] <= '9' {
		n++
	}
	return s[:n]
}
