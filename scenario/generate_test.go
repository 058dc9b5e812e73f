package scenario

import (
	"math"
	"testing"

	"asfound/observation"
	"asfound/trace"
	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

func TestTruthHoldsTogether(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		size := rapid.SampledFrom([]Size{OnePanel, TwoPanels, FourPanels}).Draw(t, "size")
		truth := Generate(rapid.Uint64().Draw(t, "seed"), size)
		checkSpaces(t, truth)
		checkOpenings(t, truth)
		checkFaults(t, truth, shapes[size].faults)
		if want := shapes[size].openings; want > 0 && len(truth.Openings) != want {
			t.Fatalf("%d openings, want %d", len(truth.Openings), want)
		}
	})
}

func checkSpaces(t *rapid.T, truth *Truth) {
	taken := map[Terminal]bool{}
	for _, c := range truth.Circuits {
		for pole := range c.Poles {
			at := Terminal{Panel: c.Panel, Space: c.Space + 2*pole}
			if at.Space < 1 || at.Space > truth.Panels[c.Panel].Spaces || taken[at] {
				t.Fatalf("space %v is outside its panel or taken twice", at)
			}
			taken[at] = true
		}
		if truth.Rooms[c.Home].Building != truth.Panels[c.Panel].Building {
			t.Fatalf("circuit %v serves a room of another building", c)
		}
	}
}

func checkOpenings(t *rapid.T, truth *Truth) {
	numbers := map[string]bool{}
	for i, o := range truth.Openings {
		if err := observation.CheckNumber(o.Number); err != nil || numbers[o.Number] {
			t.Fatalf("number %q is used twice or unusable: %v", o.Number, err)
		}
		numbers[o.Number] = true
		if i > 0 && o.Room < truth.Openings[i-1].Room {
			t.Fatalf("opening %s is out of walking order", o.Number)
		}
		if o.Circuit == Dead {
			continue
		}
		c := truth.Circuits[o.Circuit]
		if o.Foreign != (truth.Panels[c.Panel].Building != truth.Rooms[o.Room].Building) {
			t.Fatalf("opening %s: foreign is %v", o.Number, o.Foreign)
		}
		if !truth.Feeds(Terminal{Panel: c.Panel, Space: c.Space}, End{i, "1"}) {
			t.Fatalf("opening %s is not fed from its own circuit", o.Number)
		}
		if o.loop() > conductorMost {
			t.Fatalf("opening %s has %v of conductor", o.Number, o.loop())
		}
	}
}

func checkFaults(t *rapid.T, truth *Truth, want faults) {
	for _, j := range truth.Joins {
		a, b := truth.Circuits[j[0]], truth.Circuits[j[1]]
		if a.Panel != b.Panel || trace.Leg(a.Space) != trace.Leg(b.Space) || truth.Node(j[0]) != truth.Node(j[1]) {
			t.Fatalf("joined circuits %v and %v", a, b)
		}
	}
	dead, foreign, tied := 0, 0, 0
	for _, o := range truth.Openings {
		if o.Circuit == Dead {
			dead++
		}
		if o.Foreign {
			foreign++
		}
		if o.MisTied {
			tied++
		}
	}
	got := []int{len(truth.Joins), len(truth.OneLeg), dead, foreign, tied}
	if diff := cmp.Diff([]int{want.joined, want.oneLeg, want.dead, want.foreign, want.misTied}, got); diff != "" {
		t.Fatal(diff)
	}
}

// The study's generator: 52 + 26 + 20 + 12 circuits on average, and per circuit
// 0.16 + 0.22 + 0.62 x 4 openings; it reports about 310.
func TestBenchmarkJobsAreTheStudys(t *testing.T) {
	const jobs = 60
	circuits, openings, twoPole, dedicated := 0.0, 0.0, 0.0, 0.0
	for seed := range uint64(jobs) {
		truth := Generate(seed, FourPanels)
		circuits += float64(len(truth.Circuits))
		openings += float64(len(truth.Openings))
		for _, c := range truth.Circuits {
			switch {
			case c.Poles == 2:
				twoPole++
			case c.Dedicated:
				dedicated++
			}
		}
		if n := len(truth.Rooms); n != 38 {
			t.Fatalf("%d rooms, want 20 + 8 + 6 + 4", n)
		}
	}
	for _, c := range []struct {
		what            string
		got, want, near float64
	}{
		{"circuits", circuits / jobs, 110, 2},
		{"openings", openings / jobs, 314, 8},
		{"two-pole share", twoPole / circuits, 0.16, 0.02},
		{"dedicated share", dedicated / circuits, 0.22, 0.02},
	} {
		if math.Abs(c.got-c.want) > c.near {
			t.Errorf("%s: %.3f, want %.3f", c.what, c.got, c.want)
		}
	}
}

func TestSameSeedSameTruth(t *testing.T) {
	if diff := cmp.Diff(Generate(7, TwoPanels), Generate(7, TwoPanels)); diff != "" {
		t.Error(diff)
	}
	if cmp.Equal(Generate(7, TwoPanels), Generate(8, TwoPanels)) {
		t.Error("two seeds made one property")
	}
}
