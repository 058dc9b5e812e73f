package scenario

import "testing"

// Without mistakes both practices name everything that one circuit reaches, and
// nothing wrongly; in time they stand in the order the trade expects.
func TestPracticesWithoutMistakes(t *testing.T) {
	w := pellamPoint(t)
	one, pair := w.Practice(OneAtATime, Rates{}, 1), w.Practice(CompetentPair, Rates{}, 1)
	for _, p := range []Practiced{one, pair} {
		if p.Wrong > 0 || p.Right+p.Wrong+p.NoName+p.Dead != 451 {
			t.Errorf("%+v: want none wrong, and 451 ends in all", p)
		}
		t.Logf("%+v %.1f h", p, p.Hours())
	}
}
func TestPracticesWithMistakes(t *testing.T) {
	w := pellamPoint(t)
	for seed := range uint64(3) {
		one, pair := w.Practice(OneAtATime, Mistaken(), seed), w.Practice(CompetentPair, Mistaken(), seed)
		for _, p := range []Practiced{one, pair} {
			t.Logf("%+v %.1f h", p, p.Hours())
		}
	}
}
