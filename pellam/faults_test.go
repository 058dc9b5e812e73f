package pellam

import (
	"math"
	"testing"

	"asfound/quantity"
)

func build(t testing.TB) *Found {
	t.Helper()
	f, err := Build()
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// on is a state in which panels are fed and the given breakers are closed.
func on(spaces ...SpaceAt) State {
	s := State{Live: map[string]bool{}, On: spaces, Thrown: map[Yoke]int{}}
	for _, x := range spaces {
		s.Live[x.Panel] = true
	}
	return s
}

// lit gives the rows of a group's table of states: whether its first luminaire
// has more than 60 V across it, counting the switches' positions in binary, the
// first switch the highest figure.
func lit(f *Found, group string, s State) []bool {
	g := f.Group(group)
	var out []bool
	for k := range 1 << len(g.Switches) {
		for i, y := range g.Switches {
			s.Thrown[y] = k >> (len(g.Switches) - 1 - i) & 1
		}
		v, ok := f.Wiring.In(s).Volt(Box(g.Luminaires[0], hot), Box(g.Luminaires[0], neutral))
		out = append(out, ok && v > 60)
	}
	return out
}

func volts(t *testing.T, f *Found, s State, a, b Node, want float64) {
	t.Helper()
	v, ok := f.Wiring.In(s).Volt(a, b)
	if !ok || math.Abs(float64(v)-want) > 2 {
		t.Errorf("%v to %v: %v (reached %v), want %.0f V", a, b, v, ok, want)
	}
}

func floats(t *testing.T, f *Found, s State, a, b Node) {
	t.Helper()
	if v, ok := f.Wiring.In(s).Volt(a, b); ok {
		t.Errorf("%v to %v: %v, want floating", a, b, v)
	}
}

func ohms(t *testing.T, f *Found, s State, a, b Node, least, most quantity.Ohms) {
	t.Helper()
	r := f.Wiring.In(s).Ohm(a, b)
	if r.Open || r.Ohm < least || r.Ohm > most {
		t.Errorf("%v to %v: %v, want %v to %v", a, b, r, least, most)
	}
}

func open(t *testing.T, f *Found, s State, a, b Node) {
	t.Helper()
	if r := f.Wiring.In(s).Ohm(a, b); !r.Open {
		t.Errorf("%v to %v: %v, want open", a, b, r)
	}
}

func between(f *Found, a, b string) int { return f.Wiring.Lies(a, b)[0] }

// runOf is the run of a circuit that ends at a panel.
func runOf(f *Found, circuit, panel string) int {
	for _, n := range f.Wiring.At(panel) {
		if r := f.Wiring.Run(n); r.Circuit == circuit && r.Role == HomeRun {
			return n
		}
	}
	return 0
}

func landed(circuit *Circuit, f *Found) {
	n := f.Wiring.Lies(circuit.Panel, f.home(circuit.ID))[0]
	circuit.Coiled = false
	f.land(f.Wiring, n, circuit)
}

// home is the first opening of a circuit.
func (p *Property) home(circuit string) string {
	for _, c := range p.Cables {
		if c.Circuit == circuit && c.Role == HomeRun {
			return c.To
		}
	}
	return ""
}

// Each fault shows what its column of the table says shows it.
func TestEachFaultShows(t *testing.T) {
	cases := map[string]func(*testing.T, *Found){
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
		"X05": func(t *testing.T, f *Found) {
			a, b := f.Wiring.End(runOf(f, "A1-32", "A1"), "A1", neutral), f.Wiring.End(runOf(f, "A2-07", "A2"), "A2", neutral)
			s := State{Lifted: []Node{a, b}}
			ohms(t, f, s, s.Lifted[0], s.Lifted[1], 0.05, 0.5)
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
		"X10": func(t *testing.T, f *Found) {
			n := between(f, "A1", "A19-02")
			ohms(t, f, State{}, f.Wiring.End(n, "A1", hot), f.Wiring.End(n, "A1", egc), 29e3, 31e3)
			m := between(f, "A19-04", "A19-05") // opened at A19-04: toward the panel nothing, away from it all
			s := State{Lifted: []Node{f.Wiring.End(m, "A19-04", hot)}}
			open(t, f, s, Box("A19-04", hot), Box("A19-04", egc))
			ohms(t, f, s, f.Wiring.End(m, "A19-04", hot), Box("A19-04", egc), 29e3, 31e3)
		},
		"X11": func(t *testing.T, f *Found) {
			landed(f.Circuit("A2-03"), f)
			floats(t, f, on(SpaceAt{"A2", 3}), Box("A16-05", hot), Box("A16-05", egc))
			volts(t, f, on(SpaceAt{"A2", 3}), Spliced("A16-05", "brown", hot), Box("A16-05", egc), 120)
			floats(t, f, on(SpaceAt{"A2", 2}), Spliced("A16-05", "brown", hot), Box("A16-05", egc))
		},
		"X12": func(t *testing.T, f *Found) {
			s := on(SpaceAt{"B1", 12})
			s.Across = []Across{{Box("B03-03", hot), Box("B03-03", neutral), 12}}
			volts(t, f, s, Box("B03-03", neutral), Box("B03-03", egc), 0)
			ohms(t, f, State{}, Box("B03-03", neutral), Box("B03-03", egc), 0, 0)
			far := f.Wiring.End(between(f, "B03-02", "B03-03"), "B03-03", egc)
			open(t, f, State{Lifted: []Node{Box("B03-03", egc), Box("B03-04", egc), far}}, far, GroundBar("B1"))
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
		"X16": func(t *testing.T, f *Found) {
			for _, at := range []string{"A02-08", "A14-01"} {
				if o := f.Opening(at); o.Needs <= o.Volume {
					t.Errorf("%s needs %v of %v in.3", at, o.Needs, o.Volume)
				}
			}
		},
		"X17": looksLike("A06-07", func(l Look) bool { return l.FreeLength == 2 }),
		"X18": looksLike("A02-11", func(l Look) bool { return l.Setback == 1.125 }),
		"X19": func(t *testing.T, f *Found) {
			looksLike("A16-09", func(l Look) bool { return l.Covered })(t, f)
			if n := len(f.Wiring.At("A11-04")); n != 2 {
				t.Errorf("%d cables at A11-04, want two with nothing to be seen beyond", n)
			}
		},
		"X20": func(t *testing.T, f *Found) {
			white := f.Wiring.End(between(f, "A04-04", "A04-01"), "A04-01", neutral)
			volts(t, f, on(SpaceAt{"A1", 30}), white, Box("A04-01", egc), 120)
			looksLike("A04-01", func(l Look) bool { return l.Unmarked == neutral })(t, f)
		},
		"X21": panelLooksLike("A2", func(l PanelLook) bool { return l.DeadFrontGone && l.NameplateGone }),
		"X22": panelLooksLike("A2", func(l PanelLook) bool { return l.KnockoutsBroken == 2 && l.CablesInOneFitting == 4 }),
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
		"X24": func(t *testing.T, f *Found) {
			n := between(f, "D1", "B1")
			if got := len(f.Wiring.Run(n).Conductors); got != 3 {
				t.Errorf("%d conductors, want 3", got)
			}
			ohms(t, f, State{Lifted: []Node{f.Wiring.End(n, "B1", neutral)}}, NeutralBar("B1"), GroundBar("B1"), 0, 0)
		},
		"X25": func(t *testing.T, f *Found) {
			if r := f.Wiring.Run(between(f, "A1", "C1")); r.Size != "8" || f.Circuit("A1-02").Amps != 60 {
				t.Errorf("size %s on %v, want 8 on 60 A", r.Size, f.Circuit("A1-02").Amps)
			}
		},
		"X26": panelLooksLike("C1", func(l PanelLook) bool { return l.NoElectrode }),
		"X27": func(t *testing.T, f *Found) {
			if w := f.Ways["F5"]; w.StubShort != 11 || w.Cover >= 18 {
				t.Errorf("%+v, want a stub 11 ft short under less than 18 in.", w)
			}
		},
		"X28": func(t *testing.T, f *Found) {
			if w, length := f.Ways["F4"], f.Wiring.Run(between(f, "A1", "C1")).Length; w.Blocked+123 != length {
				t.Errorf("fish stops at %v and 123 of %v ft", w.Blocked, length)
			}
		},
		"X29": func(t *testing.T, f *Found) {
			ohms(t, f, State{}, NeutralBar("A1"), GroundBar("A1"), 0, 0)
		},
		"X30": func(t *testing.T, f *Found) {
			volts(t, f, on(SpaceAt{"D1", 2}, SpaceAt{"D1", 4}), Box("D05-04", hot), Box("D05-04", HotTwo), 240)
			volts(t, f, on(SpaceAt{"D1", 37}, SpaceAt{"D1", 39}), Box("D01-11", hot), Box("D01-11", HotTwo), 240)
		},
		"X31": panelLooksLike("A1", func(l PanelLook) bool { return l.DoubleNeutrals == 7 }),
		"X32": looksLike("A17-05", func(l Look) bool { return l.BoxNotFor == "insulation contact" }),
		"X33": looksLike("A15-07", func(l Look) bool { return l.BoxNotFor == "a fan" }),
		"X34": func(t *testing.T, f *Found) {
			s := on(SpaceAt{"D1", 26})
			s.Thrown[Yoke{"D01-01", 2}] = 1
			volts(t, f, s, f.Wiring.End(between(f, "D01-01", "D05-02"), "D05-02", hot), GroundBar("D1"), 120)
			looksLike("D05-02", func(l Look) bool { return l.HotIsGreen })(t, f)
		},
		"X35": func(t *testing.T, f *Found) {
			looksLike("C05-03", func(l Look) bool { return l.WetCable })(t, f)
			panelLooksLike("C1", func(l PanelLook) bool { return len(l.NoGroundFault) == 1 })(t, f)
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
		"X38": func(t *testing.T, f *Found) {
			ohms(t, f, State{}, Box("A02-05", hot), Box("A02-05", egc), 790e3, 801e3)
		},
		"X39": func(t *testing.T, f *Found) {
			if !f.Source["GEN"] || !f.Wiring.Touch(NeutralBar("GEN"), GroundBar("GEN")) {
				t.Error("the generator's neutral is not tied to its frame")
			}
		},
		"X40": panelLooksLike("A2", func(l PanelLook) bool { return l.InClothesCloset }),
	}
	if len(cases) != 40 {
		t.Fatalf("%d faults are tested, want 40", len(cases))
	}
	for _, fault := range build(t).Faults {
		t.Run(fault.ID, func(t *testing.T) { cases[fault.ID](t, build(t)) })
	}
}

func looksLike(at string, is func(Look) bool) func(*testing.T, *Found) {
	return func(t *testing.T, f *Found) {
		t.Helper()
		if !is(f.Boxes[at]) || is(Look{}) {
			t.Errorf("%s: %+v", at, f.Boxes[at])
		}
	}
}

func panelLooksLike(at string, is func(PanelLook) bool) func(*testing.T, *Found) {
	return func(t *testing.T, f *Found) {
		t.Helper()
		if !is(f.Cabinets[at]) || is(PanelLook{}) {
			t.Errorf("%s: %+v", at, f.Cabinets[at])
		}
	}
}

func count(states []bool) int {
	n := 0
	for _, is := range states {
		if is {
			n++
		}
	}
	return n
}
