package report_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"asfound/journal"
	"asfound/observation"
	"asfound/pattern"
	"asfound/quantity"
	"asfound/report"
	"asfound/site"
	"asfound/trace"
)

// recorder records through the one door, as a page does.
type recorder struct {
	t    *testing.T
	site *site.Site
}

func (r recorder) record(o observation.Observation, b observation.Body) observation.ID {
	r.t.Helper()
	o.Who, o.Body = "Tomas Veil", b
	id, err := r.site.Record(o)
	if err != nil {
		r.t.Fatalf("%s: %v", b.Kind(), err)
	}
	return id
}

// A tour from the first record to the directory: the values come from the
// resistor list, so that sheet and readings are of one plan.
func TestSheetsOfARecordedTour(t *testing.T) {
	now := time.Date(2025, 2, 18, 9, 0, 0, 0, time.UTC)
	clock := func() time.Time { now = now.Add(time.Minute); return now }
	s, err := site.Open(journal.NewMemory([32]byte{1}, clock), clock)
	if err != nil {
		t.Fatal(err)
	}
	r := recorder{t, s}
	none := observation.Observation{}
	main := r.record(none, observation.Building{Name: "Main house"}).Thing()
	room := r.record(none, observation.Room{Building: main, Name: "Great room"}).Thing()
	panel := r.record(none, observation.Panel{Building: main, Name: "A1", Spaces: 4}).Thing()
	for n := 1; n <= 3; n++ {
		r.record(observation.Observation{Subject: panel}, observation.Space{Number: n, Poles: 1, Amps: 20, Lands: observation.LandsBranch})
	}
	var openings []observation.Thing
	for i := range 4 {
		openings = append(openings, r.record(none, observation.Opening{Room: room, Number: fmt.Sprintf("A02-%02d", i+1), Use: observation.Receptacle, Order: i}).Thing())
	}
	tour := r.record(none, observation.Tour{Name: "Tour 1", Means: observation.ByResistor, Panels: []observation.Thing{panel}, Tolerance: 0.01, MeterRelative: 0.009, MeterOhm: 0.3, NeutralJoined: observation.Yes})
	r.walk(tour, panel, openings)
	a, err := s.AsFound()
	if err != nil {
		t.Fatal(err)
	}
	for _, k := range report.Sheets(a) {
		noOverlap(t, made(t, a, k.Name))
	}
	text := textOf(made(t, a, "directory-a1"))
	for _, want := range []string{"of 4 lines settled", "Journal state " + a.State, fmt.Sprintf("%d events", a.Events), "Tomas Veil"} {
		if !strings.Contains(text, want) {
			t.Errorf("the directory does not say %q:\n%s", want, text)
		}
	}
	told := 0
	for _, l := range a.Trace.Lines {
		if l.Source.Kind == trace.FromSpace && strings.Contains(text, a.Name(l.End.At)) {
			told++
		}
	}
	if told == 0 {
		t.Errorf("the directory tells of no opening that was read:\n%s", text)
	}
}

// walk puts the listed resistors on, reads every opening twice, and reads back.
func (r recorder) walk(tour observation.ID, panel observation.Thing, openings []observation.Thing) {
	a, err := r.site.AsFound()
	if err != nil {
		r.t.Fatal(err)
	}
	rows, err := report.CSV(a, "resistors-tour-1")
	if err != nil {
		r.t.Fatal(err)
	}
	ohms := map[int]quantity.Ohms{}
	under := []observation.ID{tour}
	for _, row := range rowsOf(r.t, rows)[1:] {
		var space int
		var ohm float64
		fmt.Sscan(row[1], &space)
		fmt.Sscan(row[2], &ohm)
		ohms[space] = quantity.Ohms(ohm)
		r.record(observation.Observation{Under: under}, observation.Resistor{On: trace.SpacePoint(panel, space), Ohm: ohms[space]})
	}
	if len(ohms) != 3 {
		r.t.Fatalf("the resistor list has %d values, want 3", len(ohms))
	}
	for i, t := range openings {
		stop := fmt.Sprint("stop ", i)
		at := observation.Observation{Stop: stop, Under: under, Subject: t}
		r.record(observation.Observation{Stop: stop, Subject: t}, observation.Letters{Letters: pattern.Letters(a.Name(t))})
		for _, other := range []observation.Wire{observation.EGC, observation.Neutral} {
			r.record(at, observation.Ohm{A: observation.Point{At: t, Cable: "1", Wire: observation.Hot}, B: observation.Point{At: t, Cable: "1", Wire: other},
				Ohm: quantity.Resistance{Ohm: ohms[i%3+1] + 1}, Reprobed: observation.Yes})
		}
	}
	for _, after := range []bool{false, true} {
		for _, space := range []int{2, 3, 1} {
			r.record(observation.Observation{Under: under}, observation.ReadBack{At: trace.SpacePoint(panel, space), Ohm: quantity.Resistance{Ohm: ohms[space]}, Blind: true, After: after})
		}
	}
}
