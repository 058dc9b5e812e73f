package pellam

import (
	"math"
	"testing"
)

// Faults of what is on what: readings and voltages, one breaker at a time.
var circuitFaults = map[string]func(*testing.T, *Found){
	"X01": func(t *testing.T, f *Found) {
		s := on(SpaceAt{"A1", 18}, SpaceAt{"A1", 22})
		volts(t, f, s, Box("A03-04", hot), Box("A03-06", hot), 0)
		volts(t, f, s, Box("A03-04", hot), Box("A03-04", neutral), 120)
		if n := len(f.Wiring.Run(between(f, "A1", "A03-03")).Conductors); n != 4 {
			t.Errorf("%d conductors in the home run, want 3 and the ground", n)
		}
		a, b := Across{Box("A03-04", hot), Box("A03-04", neutral), 12}, Across{Box("A03-06", hot), Box("A03-06", neutral), 12}
		s.Across = []Across{a, b}
		net := f.Wiring.In(s)
		sum, shared := net.Ampere(a)+net.Ampere(b), -net.InConductor(between(f, "A1", "A03-03"), neutral)
		if math.Abs(float64(sum-shared)) > 0.01 || shared < 19 {
			t.Errorf("neutral carries %v, the two hots %v together", shared, sum)
		}
		ohms(t, f, State{}, Box("A03-04", neutral), Box("A03-06", neutral), 0, 0.2)
	},
	"X05": func(t *testing.T, f *Found) {
		a, b := f.Wiring.End(runOf(f, "A1-32", "A1"), "A1", neutral), f.Wiring.End(runOf(f, "A2-07", "A2"), "A2", neutral)
		s := State{Lifted: []Node{a, b}}
		ohms(t, f, s, s.Lifted[0], s.Lifted[1], 0.05, 0.5)
	},
	"X07": func(t *testing.T, f *Found) {
		landed(f.Circuit("A1-38"), f)
		s := on(SpaceAt{"A1", 38})
		s.Thrown[Yoke{"A11-01", 1}] = 1
		volts(t, f, s, Box("A11-07", hot), Box("A11-07", neutral), 120)
		s.On = []SpaceAt{{"A1", 39}}
		floats(t, f, s, Box("A11-07", hot), Box("A11-07", neutral))
		if size := f.Wiring.Run(between(f, "A11-02", "A11-01")).Size; size != "14" {
			t.Errorf("size %s in A11-02, want 14 on a 20 A circuit", size)
		}
	},
	"X08": func(t *testing.T, f *Found) {
		s := on(SpaceAt{"A1", 21})
		volts(t, f, s, Box("A04-05", hot), Box("A04-05", neutral), 120)
		load := Across{Box("A04-05", hot), Box("A04-05", neutral), 9.62}
		s.Across = []Across{load}
		n := f.Wiring.In(s)
		amps := n.Ampere(load)
		for _, c := range []struct {
			at   string
			feet float64 // of shared way: 84 + 17 to A04-02, 11 to the fork, 9 on
		}{{"A04-02", 101}, {"A05-06", 112}, {"A04-05", 121}} {
			v, _ := n.Volt(Box(c.at, hot), Box(c.at, neutral))
			want := 2 * c.feet * 1.588 / 1000 * float64(amps)
			if sag := 120 - float64(v); math.Abs(sag-want) > 0.01 {
				t.Errorf("%s sags %.2f V at %v, want %.2f", c.at, sag, amps, want)
			}
		}
	},
	"X09": func(t *testing.T, f *Found) {
		n := between(f, "A1", "A04-05")
		open(t, f, State{}, f.Wiring.End(n, "A1", hot), f.Wiring.End(n, "A04-05", hot))
		if cut := f.Wiring.Run(n).Cut; cut != 17 {
			t.Errorf("cut at %v, want 17 ft", cut)
		}
	},
	"X11": func(t *testing.T, f *Found) {
		landed(f.Circuit("A2-03"), f)
		floats(t, f, on(SpaceAt{"A2", 3}), Box("A16-05", hot), Box("A16-05", egc))
		volts(t, f, on(SpaceAt{"A2", 3}), Spliced("A16-05", "brown", hot), Box("A16-05", egc), 120)
		floats(t, f, on(SpaceAt{"A2", 2}), Spliced("A16-05", "brown", hot), Box("A16-05", egc))
	},
	"X13": func(t *testing.T, f *Found) {
		volts(t, f, on(SpaceAt{"D1", 17}), Box("D02-03", neutral), Box("D02-03", egc), 120)
		volts(t, f, on(SpaceAt{"D1", 17}), Box("D02-02", neutral), Box("D02-02", egc), 0)
	},
	"X14": func(t *testing.T, f *Found) {
		for _, at := range []string{"A15-05", "A15-06"} {
			volts(t, f, on(SpaceAt{"A2", 1}), Box(at, hot), Box(at, egc), 120)
			floats(t, f, on(SpaceAt{"A2", 1}), Box(at, hot), Box(at, neutral))
		}
		volts(t, f, on(SpaceAt{"A2", 1}), Box("A15-04", hot), Box("A15-04", neutral), 120)
	},
	"X15": func(t *testing.T, f *Found) {
		volts(t, f, on(SpaceAt{"A1", 35}), Box("A02-10", hot), Box("A02-10", neutral), 120)
		floats(t, f, on(SpaceAt{"A1", 35}), Box("A02-10", hot), Box("A02-10", egc))
	},
	"X20": func(t *testing.T, f *Found) {
		white := f.Wiring.End(between(f, "A04-04", "A04-01"), "A04-01", neutral)
		volts(t, f, on(SpaceAt{"A1", 30}), white, Box("A04-01", egc), 120)
		looksLike("A04-01", func(l Look) bool { return l.Unmarked == neutral })(t, f)
	},
	"X23": func(t *testing.T, f *Found) {
		s := on(SpaceAt{"A1", 36}, SpaceAt{"A1", 49}) // the breaker of A2's feeder, spaces 1 and 3, stays open
		floats(t, f, s, SpaceAt{"A2", 1}.Node(), GroundBar("A1"))
		volts(t, f, s, Spliced("A2", "A1-36", hot), GroundBar("A2"), 120)
		volts(t, f, s, Spliced("A2", "A1-49", hot), GroundBar("A2"), 120)
		cables, insulated := 0, 0
		for _, n := range f.Wiring.At("A2") {
			r := f.Wiring.Run(n)
			if r.Role != HomeRun && r.Circuit != "F3" {
				cables++
				insulated += len(r.Conductors) - 1
			}
		}
		if cables != 7 || insulated != 19 {
			t.Errorf("%d cables with %d insulated conductors pass, want 7 and 19", cables, insulated)
		}
	},
	"X36": func(t *testing.T, f *Found) {
		for _, wire := range f.Wiring.Run(between(f, "A1", "A09-03")).Conductors {
			if wire == neutral {
				t.Error("the dryer's cable has a neutral")
			}
		}
		volts(t, f, on(SpaceAt{"A1", 9}, SpaceAt{"A1", 11}), Box("A09-03", hot), Box("A09-03", HotTwo), 240)
		floats(t, f, on(SpaceAt{"A1", 9}, SpaceAt{"A1", 11}), Box("A09-03", hot), Box("A09-03", neutral))
	},
	"X37": func(t *testing.T, f *Found) {
		if r := f.Wiring.Run(between(f, "A1", "A03-13")); r.Size != "8" || f.Circuit("A1-05").Amps != 50 {
			t.Errorf("size %s on %v, want 8 on 50 A", r.Size, f.Circuit("A1-05").Amps)
		}
	},
}
