package scenario

import "testing"

// Without mistakes both practices name every end that their building's panels
// reach, and nothing wrongly; the two who halve are sooner done than the one who
// walks for each circuit, and with mistakes some names are wrong.
func TestPractices(t *testing.T) {
	w := pellamPoint(t)
	ends, reached := 0, 0
	for i, b := range w.view.Boxes {
		for _, e := range b.Ends {
			if b.Covered {
				continue
			}
			ends++
			if len(w.Reaching(newRig(), End{i, e.Tag})) > 0 || len(w.feeding(w.closed, End{i, e.Tag})) > 0 {
				reached++
			}
		}
	}
	one, pair := w.Practice(OneAtATime, Rates{}, 1), w.Practice(CompetentPair, Rates{}, 1)
	for _, p := range []Practiced{one, pair} {
		if p.Wrong+p.NoName+p.Joined > 0 || p.Right != reached || p.Dead != ends-reached {
			t.Errorf("%+v: want %d right, %d dead and nothing else", p, reached, ends-reached)
		}
	}
	if pair.Elapsed >= one.Elapsed || pair.Readings >= one.Readings || one.Readings < 5*ends {
		t.Errorf("one at a time %s and %d readings, a pair %s and %d", one.Elapsed, one.Readings, pair.Elapsed, pair.Readings)
	}
	wrong := 0
	for seed := range uint64(5) {
		a, b := w.Practice(OneAtATime, Mistaken(), seed), w.Practice(OneAtATime, Mistaken(), seed)
		if a != b {
			t.Errorf("the same seed came to %+v and %+v", a, b)
		}
		wrong += a.Wrong
	}
	if wrong == 0 {
		t.Error("nobody wrote a wrong name in five jobs")
	}
}

// What a building without a panel is looked for on: the well house stands 110 ft
// from the workshop, further from all others.
func TestPanelsOfABuilding(t *testing.T) {
	p := &practitioner{world: pellamPoint(t)}
	for building, want := range [][]int{{0, 1}, {2}, {3}, {4}, {4}} {
		if got := p.panelsOf(building); len(got) != len(want) || got[0] != want[0] {
			t.Errorf("building %d: panels %v, want %v", building, got, want)
		}
	}
}
