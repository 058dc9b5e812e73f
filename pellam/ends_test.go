package pellam

import "testing"

// Every hot of the property, and how many a panel reaches with no switch in and
// with every switch closed. The rest are where no splice was made, the second
// hots of ranges and alarms, and cut or buried ends.
func TestHotsReached(t *testing.T) {
	f := build(t)
	hots := 0
	var clips [][2]Node
	for _, o := range f.Openings {
		hots += len(f.Hots(o.ID))
		for _, y := range f.Yokes(o.ID) {
			for _, h := range y[1:] {
				clips = append(clips, [2]Node{y[0].Node, h.Node})
			}
		}
	}
	for _, c := range []struct {
		name  string
		state State
		want  int
	}{{"no switch in", State{}, 207}, {"every switch closed", State{Clips: clips}, 419}} {
		if n := reached(f, f.Wiring.In(c.state)); n != c.want {
			t.Errorf("%s: %d hots reached, want %d", c.name, n, c.want)
		}
	}
	if hots != 454 {
		t.Errorf("%d hots, want 454", hots)
	}
}

func reached(f *Found, net *Net) int {
	n := 0
	for _, o := range f.Openings {
		for _, h := range f.Hots(o.ID) {
			if fromPanel(f, net, h.Node) {
				n++
			}
		}
	}
	return n
}

func fromPanel(f *Found, net *Net, hot Node) bool {
	near := func(n Node) bool {
		r := net.Ohm(hot, n)
		return !r.Open && r.Ohm < 20
	}
	for _, p := range f.Panels {
		for s := 1; s <= p.Spaces; s++ {
			if near(SpaceAt{p.ID, s}.Node()) {
				return true
			}
		}
		for _, coil := range f.Hots(p.ID) {
			if near(coil.Node) {
				return true
			}
		}
	}
	return false
}
