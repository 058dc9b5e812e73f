package pellam

import (
	"testing"

	"asfound/observation"
)

func designed(t testing.TB) *Property {
	t.Helper()
	p, err := Designed()
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// The counts that the tables were made to.
func TestDesignedCounts(t *testing.T) {
	p := designed(t)
	ft := 0.0
	for _, c := range p.Cables {
		ft += float64(c.Length)
	}
	for _, c := range []struct {
		what      string
		got, want int
	}{
		{"rooms", len(p.Rooms), 37}, {"openings", len(p.Openings), 312}, {"panels", len(p.Panels), 5}, {"circuits and feeders", len(p.Circuits), 94},
		{"cables", len(p.Cables), 321}, {"feet of branch cable", int(ft), 9934}, {"switching groups", len(p.Groups), 56},
	} {
		if c.got != c.want {
			t.Errorf("%d %s, want %d", c.got, c.what, c.want)
		}
	}
}

// The drawing shows 318 openings: eight were never roughed in, two are in the
// building and not on it.
func TestOnDrawing(t *testing.T) {
	p := designed(t)
	drawn, never := p.OnDrawing(), 0
	for _, d := range drawn {
		if p.Room(d.Room) == nil || d.Opening != "" && p.Opening(d.Opening).Room != d.Room {
			t.Errorf("%+v: no such room or opening", d)
		}
		if d.Found == 0 {
			never++
		}
	}
	if len(drawn) != 318 || never != 8 || len(drawn)-never+2 != len(p.Openings) {
		t.Errorf("%d drawn, %d of them never roughed in; want 318 and 8", len(drawn), never)
	}
}

// As designed, with every switch thrown so that its lamp lights, every opening
// has 120 V (or 240 V for two-pole circuits) and its ground.
func TestDesignedReachesEveryOpening(t *testing.T) {
	p := designed(t)
	for i := range p.Circuits { // all landed
		p.Circuits[i].Coiled = false
	}
	w := p.Wire()
	s := State{Live: map[string]bool{"A1": true, "A2": true, "B1": true, "C1": true, "D1": true}, Thrown: map[Yoke]int{}}
	for _, c := range p.Circuits {
		for _, space := range c.Spaces {
			s.On = append(s.On, SpaceAt{c.Panel, space})
		}
	}
	for _, g := range p.Groups {
		for _, y := range g.Switches {
			s.Thrown[y] = 0
			if len(g.Switches) == 1 {
				s.Thrown[y] = 1
			}
		}
	}
	n := w.In(s)
	checked := 0
	for _, o := range p.Openings {
		if o.Kind == Switch {
			continue
		}
		checked++
		other, want := observation.Neutral, 120.0
		if c := p.circuitOf(o.ID); len(c.Spaces) == 2 {
			other, want = HotTwo, 240
		}
		if v, ok := n.Volt(Box(o.ID, observation.Hot), Box(o.ID, other)); !ok || float64(v) < want-1 || float64(v) > want+1 {
			t.Errorf("%s %s: %v, reached %v, want %v", o.ID, o.What, v, ok, want)
		}
		if v, ok := n.Volt(Box(o.ID, observation.Hot), Box(o.ID, observation.EGC)); !ok || v < 119 || v > 121 {
			t.Errorf("%s %s to ground: %v, reached %v", o.ID, o.What, v, ok)
		}
	}
	if checked != 271 {
		t.Errorf("%d openings checked, want 271: 312 less 41 switch boxes", checked)
	}
}
