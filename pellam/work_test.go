package pellam

import (
	"fmt"
	"slices"
	"testing"
	"time"
)

func working(t testing.TB) *Work {
	t.Helper()
	w, err := Working()
	if err != nil {
		t.Fatal(err)
	}
	return w
}

func TestWorkCounts(t *testing.T) {
	w := working(t)
	for _, c := range []struct {
		what      string
		got, want int
	}{
		{"people", len(w.People), 3}, {"instruments", len(w.Instruments), 4}, {"visits", len(w.Visits), 14}, {"notes", len(w.Notes), 30},
		{"notes of the second visit", len(w.NotesOf("V2")), 5}, {"notes of the first", len(w.NotesOf("V1")), 0},
	} {
		if c.got != c.want {
			t.Errorf("%d %s, want %d", c.got, c.what, c.want)
		}
	}
	for i, n := range w.Notes {
		if want := fmt.Sprintf("N%02d", i+1); n.ID != want {
			t.Errorf("note %s stands where %s belongs", n.ID, want)
		}
	}
	for i, v := range w.Visits {
		if want := fmt.Sprintf("V%d", i+1); v.ID != want || i > 0 && !v.Date.After(w.Visits[i-1].Date) {
			t.Errorf("visit %s on %s stands where %s belongs", v.ID, v.Date.Format(time.DateOnly), want)
		}
	}
}

// Whatever the tables of the work name is there: visits, crews, places, faults.
func TestWorkNamesWhatIsThere(t *testing.T) {
	f := build(t)
	w := working(t)
	sources := []string{"GEN"}
	for _, n := range w.Notes {
		v := find(w.Visits, func(v *Visit) bool { return v.ID == n.Visit })
		if v == nil || !slices.Contains(v.Crew, n.Who) {
			t.Errorf("%s: %s is not on visit %s", n.ID, n.Who, n.Visit)
		}
		feeder := slices.ContainsFunc(f.Feeders, func(x Feeder) bool { return x.ID == n.Where })
		if f.Room(n.Where) == nil && f.Panel(n.Where) == nil && !feeder && !slices.Contains(sources, n.Where) {
			t.Errorf("%s: there is no %s", n.ID, n.Where)
		}
		if o := f.Opening(n.Opening); n.Opening != "" && (o == nil || o.Room != n.Where) {
			t.Errorf("%s: no opening %s in %s", n.ID, n.Opening, n.Where)
		}
		if n.Fault != "" && !slices.ContainsFunc(f.Faults, func(x Fault) bool { return x.ID == n.Fault }) {
			t.Errorf("%s: no fault %s", n.ID, n.Fault)
		}
		earlier := slices.ContainsFunc(w.Notes, func(x Note) bool { return x.ID == n.Withdraws && x.ID < n.ID })
		if n.Withdraws != "" && !earlier || n.Text == "" {
			t.Errorf("%s withdraws %q, which is not an earlier note, or says nothing", n.ID, n.Withdraws)
		}
	}
	for _, v := range w.Visits {
		if !slices.ContainsFunc(v.Crew, func(name string) bool { return w.Person(name).Part == "lead" }) || v.Work == "" {
			t.Errorf("%s: crew %v, work %q; want the lead among them, and work", v.ID, v.Crew, v.Work)
		}
	}
	if got := w.Notes[29]; got.Withdraws != "N09" {
		t.Errorf("N30 withdraws %q, want N09", got.Withdraws)
	}
}

// Tomas makes twice as many mistakes on his first two visits, then as many as
// the others.
func TestMistakesOfWhoIsNew(t *testing.T) {
	w := working(t)
	for _, c := range []struct {
		name   string
		before int
		want   float64
	}{{"Tomas", 0, 2}, {"Tomas", 1, 2}, {"Tomas", 2, 1}, {"Marit", 0, 1}, {"Dell", 0, 1}} {
		if got := w.Person(c.name).Rate(c.before); got != c.want {
			t.Errorf("%s after %d visits: %v, want %v", c.name, c.before, got, c.want)
		}
	}
}

// A table that lacks a name, or has one that nobody reads, is refused.
func TestNamedTablesAreWhole(t *testing.T) {
	var x, y float64
	if err := named("movement", "what", "value", map[string]*float64{"indoors": &x}); err == nil {
		t.Error("names that nobody reads were taken")
	}
	all := map[string]*float64{"a name that no table has": &y}
	for _, name := range []string{"indoors", "on snow", "longer than straight", "up a floor", "down a floor", "stepladder over", "stepladder",
		"extension ladder over", "extension ladder", "bare box", "plate off", "plate on", "on site"} {
		all[name] = &x
	}
	if err := named("movement", "what", "value", all); err == nil {
		t.Error("a missing name was not missed")
	}
}
