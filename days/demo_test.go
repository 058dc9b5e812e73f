package days

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"asfound/installation"
	"asfound/journal"
	"asfound/observation"
	"asfound/scenario"
	"asfound/site"
	"asfound/step"
	"asfound/trace"
)

// demo is the demo property half way through its tour, as its two people left it.
var demo = sync.OnceValues(func() (*scenario.Played, error) {
	w, err := scenario.NewPellamPoint()
	if err != nil {
		return nil, err
	}
	return scenario.Play(w, scenario.People{Visits: w.Visits(time.UTC, 0)[:2], Rates: scenario.Mistaken(),
		Costs: scenario.AssumedCosts(), Seed: 1}, scenario.HalfTour)
})

func played(tb testing.TB) *scenario.Played {
	tb.Helper()
	p, err := demo()
	if err != nil {
		tb.Fatal(err)
	}
	return p
}

// Half way through the dead tour of the demo property: whoever is on it is sent
// to read, each to other rooms than the other, the tall room with its ladders not
// first, and what nobody recorded stands among what is open.
func TestDemoProperty(t *testing.T) {
	a := played(t).AsFound
	for _, name := range []string{"Marit Sandvei", "Tomas Veil", "Dell Amoah"} {
		card := Next(a, Person{Name: name})
		if len(card.Best) != 3 || card.Best[0].Kind != step.Read {
			t.Fatalf("%s is offered %v, want three with a reading first", name, card.keys())
		}
		for _, s := range card.Best {
			if s.Kind == step.Read && len(s.MustBeOff) != len(a.Tours[0].Panels) {
				t.Errorf("%s, %s: must be off %v, want every panel of the tour", name, s.Where, s.MustBeOff)
			}
			if strings.Contains(s.Where, "Great room") {
				t.Errorf("%s is sent to the tall room, %.0f of %.0f min on ladders, with easier rooms left", name, s.Moving, s.Minutes)
			}
		}
	}
	open := map[string]int{}
	for _, p := range proposals(a) {
		what, _, _ := strings.Cut(p.Key, " ")
		open[what]++
	}
	unfed := slices.DeleteFunc(slices.Clone(a.Panels), func(p *installation.Panel) bool {
		return slices.ContainsFunc(a.Feeders, func(f *installation.Feeder) bool { return f.To == p.Thing })
	})
	if open["feeder"] != len(unfed) || open["sources"] != 0 || open["spaces"] == 0 || open["read"] == 0 || open["release"] != 0 {
		t.Errorf("open are %v", open)
	}
	great := a.Rooms[1]
	s := Stretch(a, Person{Name: "Marit Sandvei"}, 60)
	if total := step.Total(s); total < 45 || total > 75 {
		t.Errorf("an hour of work from %s takes %.0f min: %d steps", great.Name, total, len(s))
	}
}

// copied is the demo job n times over, as if other devices had recorded it on
// properties of their own.
func copied(b *testing.B, n int) *site.AsFound {
	b.Helper()
	var events []observation.Event
	err := played(b).Journal.Read(0, func(e journal.Entry) error {
		for i := range n {
			device := fmt.Sprintf("%0*d", len(e.Event.Device), i)
			other, err := observation.Decode(bytes.ReplaceAll(e.Raw, []byte(e.Event.Device), []byte(device)))
			if err != nil {
				return err
			}
			events = append(events, other)
		}
		return nil
	})
	if err != nil {
		b.Fatal(err)
	}
	f := installation.NewFold()
	for _, e := range events {
		f.Add(e)
	}
	in := f.Installation()
	return &site.AsFound{Installation: in, Trace: trace.NewTracer().Trace(in)}
}

// The card on the demo job, and on five times it: about 10,000 observations.
func BenchmarkNext(b *testing.B) {
	for _, n := range []int{1, 5} {
		a := copied(b, n)
		b.Run(fmt.Sprintf("%d observations", a.Events), func(b *testing.B) {
			for b.Loop() {
				Next(a, Person{Name: "Marit Sandvei"})
			}
		})
		b.Run(fmt.Sprintf("stretch, %d observations", a.Events), func(b *testing.B) {
			for b.Loop() {
				Stretch(a, Person{Name: "Marit Sandvei"}, 60)
			}
		})
	}
}
