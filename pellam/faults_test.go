package pellam

import (
	"maps"
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
	cases := map[string]func(*testing.T, *Found){}
	for _, group := range []map[string]func(*testing.T, *Found){switchFaults, circuitFaults, groundFaults, lookFaults, feederFaults} {
		maps.Copy(cases, group)
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
