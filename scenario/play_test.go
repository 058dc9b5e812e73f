package scenario

import (
	"testing"
	"time"
)

var start = time.Date(2027, 1, 19, 8, 0, 0, 0, time.UTC)

func TestTry(t *testing.T) {
	for _, size := range []Size{OnePanel, TwoPanels, FourPanels} {
		for seed := range uint64(3) {
			tr := Generate(seed, size)
			at := time.Now()
			p, err := Play(tr, People{Crew: []Person{Dell}, Costs: StudyCosts(), Start: start, Seed: 1, Misread: 0.01, Rates: Mistaken()}, EndOfJob)
			if err != nil {
				t.Fatal(err)
			}
			s := p.Score()
			t.Log(size, seed, len(tr.Openings), len(tr.Circuits), time.Since(at), s.Standing, len(s.WrongSettled), len(s.WrongLikely), s.Unresolved, s.Joins, s.Foreign, s.Dead, p.Spent, p.Readings, p.Visits, p.Slips)
		}
	}
}
