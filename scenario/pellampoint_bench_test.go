package scenario

import (
	"fmt"
	"testing"
	"time"

	"asfound/observation"
	"asfound/quantity"
	"asfound/site"
)

func benchPlayed(b *testing.B, seed uint64, until Until) *Played {
	b.Helper()
	w, err := NewPellamPoint()
	if err != nil {
		b.Fatal(err)
	}
	p, err := Play(w, People{Visits: w.Visits(time.UTC, 0), Rates: Mistaken(), Costs: AssumedCosts(), Seed: seed}, until)
	if err != nil {
		b.Fatal(err)
	}
	return p
}

// The whole job at the demo property, with people's mistakes.
func BenchmarkPellamPointWholeJob(b *testing.B) {
	for seed := uint64(1); b.Loop(); seed++ {
		p := benchPlayed(b, seed, EndOfJob)
		if s := p.Score(); len(s.WrongSettled) > 0 {
			b.Errorf("seed %d: %d wrong lines settled", seed, len(s.WrongSettled))
		}
	}
}

// One more reading at the demo job, half way through the tour: recorded, all
// worked out again.
func BenchmarkPellamPointOneMoreReading(b *testing.B) {
	p := benchPlayed(b, 2, HalfTour)
	s, err := site.Open(p.Journal, func() time.Time { return start.AddDate(0, 0, 3) })
	if err != nil {
		b.Fatal(err)
	}
	found, err := s.AsFound()
	if err != nil {
		b.Fatal(err)
	}
	tour, lines := found.Tours[len(found.Tours)-1], found.Trace.Lines
	for i := 0; b.Loop(); i++ {
		end := lines[i*17%len(lines)].End
		ground := observation.Point{At: end.At, Cable: end.Cable, Wire: observation.EGC}
		_, err := s.Record(observation.Observation{Who: "Marit Sandvei", Stop: fmt.Sprint("once more ", i), Under: []observation.ID{tour.ID},
			Body: observation.Ohm{A: end, B: ground, Reprobed: observation.Yes, Ohm: quantity.Resistance{Open: true}}})
		if err != nil {
			b.Fatal(err)
		}
		if _, err = s.AsFound(); err != nil {
			b.Fatal(err)
		}
	}
}
