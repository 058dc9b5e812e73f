package scenario

import (
	"slices"
	"testing"
	"time"

	"asfound/pellam"
)

// Played without mistakes, some faults come out and others cannot: of these the
// table says what would show them. In the property as it would be without any
// fault nothing comes out.
func TestWhatComesOutOfEachFault(t *testing.T) {
	w := pellamPoint(t)
	toTheEnd := func(w *PellamPoint) map[string]Tell {
		p := play(t, w, People{Visits: w.Visits(time.UTC, 0), Costs: AssumedCosts(), Seed: 1}, EndOfJob)
		covered := 0
		for _, b := range p.View.Boxes {
			if b.Covered {
				covered++
			}
		}
		if r := p.reach(); r.covered != covered || r.reached+r.unspliced > len(p.View.Boxes)-covered || r.reached < 200 {
			t.Errorf("%+v of %d openings, %d of them covered", r, len(p.View.Boxes), covered)
		}
		return p.Told()
	}
	told := toTheEnd(w)
	want := map[Tells][]string{
		Told:     {"X07", "X09", "X11", "X23"},
		OnRecord: {"X14", "X15", "X17", "X18", "X20", "X25", "X34", "X36", "X37"},
	}
	for tells, faults := range want {
		for _, id := range faults {
			if told[id].Tells != tells || told[id].By == "" {
				t.Errorf("%s is %q by %q, want %q", id, told[id].Tells, told[id].By, tells)
			}
		}
	}
	var all []string
	for _, f := range w.Found.Faults {
		all = append(all, f.ID)
		if shown := told[f.ID].Tells == Told || told[f.ID].Tells == OnRecord; shown != slices.Contains(append(want[Told], want[OnRecord]...), f.ID) {
			t.Errorf("%s is %q by %q", f.ID, told[f.ID].Tells, told[f.ID].By)
		}
		if told[f.ID].Tells != Told && f.Needs == "" && !slices.Contains(want[OnRecord], f.ID) {
			t.Errorf("%s is %q, and nothing says what would show it", f.ID, told[f.ID].Tells)
		}
	}
	sound, err := pellamPointWithout(all...)
	if err != nil {
		t.Fatal(err)
	}
	sound.Found.Faults = w.Found.Faults
	for id, tell := range toTheEnd(sound) {
		if tell.Tells == Told || tell.Tells == OnRecord {
			t.Errorf("without it %s is still %q by %q", id, tell.Tells, tell.By)
		}
	}
}

// What each fault is looked for by names a fault that there is.
func TestShowsNamesFaults(t *testing.T) {
	faults := pellamPoint(t).Found.Faults
	for id := range shows {
		if !slices.ContainsFunc(faults, func(f pellam.Fault) bool { return f.ID == id }) {
			t.Errorf("there is no fault %s", id)
		}
	}
}
