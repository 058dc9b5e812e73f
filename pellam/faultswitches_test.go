package pellam

import (
	"testing"
)

// Faults of the switches: what lights when, and what stands under voltage then.
var switchFaults = map[string]func(*testing.T, *Found){
	"X02": func(t *testing.T, f *Found) {
		if got := lit(f, "S07", on(SpaceAt{"A1", 31})); got[0] == got[1] || got[2] != got[3] {
			t.Errorf("states %v: want it to follow the far switch in one position of the near one only", got)
		}
	},
	"X03": func(t *testing.T, f *Found) {
		got := lit(f, "S13", on(SpaceAt{"A1", 33}))
		var lightsIn [2]int
		for k, is := range got {
			if is {
				lightsIn[k>>1&1]++
			}
		}
		if min(lightsIn[0], lightsIn[1]) != 0 || max(lightsIn[0], lightsIn[1]) != 2 {
			t.Errorf("states %v: want no light in one position of the 4-way, and two states of four in the other", got)
		}
	},
	"X04": func(t *testing.T, f *Found) {
		landed(f.Circuit("C1-12"), f)
		s := on(SpaceAt{"C1", 12})
		got, live, both := lit(f, "S48", s), 0, 0
		g := f.Group("S48")
		for k := range 4 {
			s.Thrown[g.Switches[0]], s.Thrown[g.Switches[1]] = k>>1, k&1
			n := f.Wiring.In(s)
			v, _ := n.Volt(Box("C01-06", neutral), Box("C01-06", egc))
			h, _ := n.Volt(Box("C01-06", hot), Box("C01-06", egc))
			if v > 119 {
				live++
			}
			if v > 119 && h > 119 && !got[k] {
				both++
			}
		}
		if n := count(got); n != 2 || live != 2 || both != 1 {
			t.Errorf("lights in %d states, neutral live in %d, both live and off in %d; want 2, 2 and 1", n, live, both)
		}
	},
	"X06": func(t *testing.T, f *Found) {
		landed(f.Circuit("C1-12"), f)
		s := on(SpaceAt{"C1", 12})
		bare := f.Wiring.End(between(f, "C04-01", "C05-01"), "C05-01", egc)
		live := 0
		for way := range 2 {
			s.Thrown[Yoke{"C04-01", 2}] = way
			if v, ok := f.Wiring.In(s).Volt(bare, GroundBar("C1")); ok && v > 119 {
				live++
			}
		}
		if live != 1 {
			t.Errorf("bare conductor live in %d of two positions, want one", live)
		}
		open(t, f, State{}, bare, GroundBar("C1"))
	},
	"X34": func(t *testing.T, f *Found) {
		s := on(SpaceAt{"D1", 26})
		s.Thrown[Yoke{"D01-01", 2}] = 1
		volts(t, f, s, f.Wiring.End(between(f, "D01-01", "D05-02"), "D05-02", hot), GroundBar("D1"), 120)
		looksLike("D05-02", func(l Look) bool { return l.HotIsGreen })(t, f)
	},
}
