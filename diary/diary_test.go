package diary

import (
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	"asfound/installation"
	"asfound/observation"
)

var place = time.FixedZone("place", -6*3600)

// entry is one of a day at a place six hours behind Greenwich.
func entry(seq uint64, at time.Time, o observation.Observation) installation.Entry {
	return installation.Entry{Event: observation.Event{ID: observation.ID{Device: "k7m3", Seq: seq}, Observation: o, HLC: seq, Wall: at, Kind: o.Body.Kind()}}
}

// A day is that of the place: half past eleven at night there is the next morning
// in Greenwich.
func TestDayIsThatOfThePlace(t *testing.T) {
	night := time.Date(2027, 1, 20, 23, 30, 0, 0, place)
	entries := []installation.Entry{entry(1, night.UTC(), observation.Observation{Who: "Marit Sandvei", Body: observation.Note{Text: "late"}})}
	days := Days(entries, place)
	if len(days) != 1 || Name(days[0]) != "2027-01-20" {
		t.Fatalf("days %v", days)
	}
	d := Of(&installation.Installation{}, entries, days[0])
	if len(d.Entries) != 1 || len(d.Notes) != 1 || len(d.People) != 1 || !d.People[0].First.Equal(night) {
		t.Errorf("the day holds %+v", d)
	}
}

// An entry typed in a day later belongs to the day it was taken on.
func TestLateEntryBelongsToItsDay(t *testing.T) {
	next := time.Date(2027, 1, 21, 9, 0, 0, 0, place)
	taken := time.Date(2027, 1, 20, 14, 5, 0, 0, place)
	entries := []installation.Entry{entry(1, next, observation.Observation{Who: "Dell Amoah", Taken: taken, Body: observation.Note{Text: "from paper"}})}
	if days := Days(entries, place); len(days) != 1 || Name(days[0]) != "2027-01-20" {
		t.Errorf("days %v", days)
	}
}

// Clocks go forward and back: a day of 23 or 25 hours is one day (in New York
// 2027 on March 14 and November 7, by the rule of 15 U.S.C. 260a).
func TestDaysOfClockChange(t *testing.T) {
	york, err := time.LoadLocation("America/New_York")
	if err != nil {
		t.Fatal(err)
	}
	for name, hours := range map[string]float64{"2027-03-14": 23, "2027-11-07": 25, "2027-03-15": 24} {
		day, ok := Parse(name, york)
		if !ok || Next(day).Sub(day).Hours() != hours || Name(Next(day)) == name {
			t.Errorf("%s runs from %s to %s", name, day, Next(day))
		}
	}
}

// Each entry belongs to one day, and every day listed has entries.
func TestDaysDivideTheEntries(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		var entries []installation.Entry
		start := time.Date(2027, 3, 10, 0, 0, 0, 0, place)
		for i := range rapid.IntRange(0, 40).Draw(r, "entries") {
			at := start.Add(time.Duration(rapid.IntRange(0, 10*24*60).Draw(r, "minute")) * time.Minute)
			entries = append(entries, entry(uint64(i+1), at, observation.Observation{Who: "Marit Sandvei", Body: observation.Note{Text: "x"}}))
		}
		total := 0
		days := Days(entries, place)
		for _, day := range days {
			d := Of(&installation.Installation{}, entries, day)
			if len(d.Entries) == 0 {
				r.Fatalf("%s is listed and has no entries", Name(day))
			}
			if !slices.IsSortedFunc(d.Entries, func(a, b installation.Entry) int { return a.When().Compare(b.When()) }) {
				r.Fatal("the entries are not in order")
			}
			total += len(d.Entries)
		}
		if total != len(entries) {
			r.Fatalf("%d of %d entries are on some day", total, len(entries))
		}
		if !slices.IsSortedFunc(days, func(a, b time.Time) int { return b.Compare(a) }) {
			r.Fatal("the newest day does not come first")
		}
	})
}
