package scenario

import (
	"strings"
	"testing"
	"time"

	"asfound/evidence"
	"asfound/pellam"
)

// Two jobs made by hand: counts add up, hours and seconds are a job's.
func TestPropertyTables(t *testing.T) {
	job := func(seed uint64, told Tells, hours time.Duration) propertyJob {
		return propertyJob{seed: seed, reach: reach{200, 30, 2}, readings: 1000, took: 4 * time.Second,
			score: Score{Standing: map[evidence.Standing]int{evidence.Settled: 300, evidence.Likely: 20}, WrongLikely: make([]Wrong, 1)},
			spent: Spent{Survey: 6 * hours * time.Hour, Tour: 8 * hours * time.Hour}, practices: [2]Practiced{{Elapsed: 40 * time.Hour, People: 1, Wrong: 3}, {Elapsed: 16 * time.Hour, People: 2, NoName: 5}},
			told:   map[string]Tell{"X01": {told, "line"}, "X02": {Untold, ""}},
			faults: []pellam.Fault{{ID: "X01", Where: "here", LeadHours: 1.5, ApprenticeHours: 1, Material: 20}, {ID: "X02", Where: "there", Needs: "switch states"}}}
	}
	jobs := []propertyJob{job(3, Told, 1), job(4, OnRecord, 2)}
	all := propertyJob{score: Score{Standing: map[evidence.Standing]int{}}}
	for _, j := range jobs {
		all.add(j)
	}
	var rows, faults strings.Builder
	all.row(&rows, "all", len(jobs))
	faultRows(&faults, jobs)
	want := "all 400 60 4 600 40 0 0 0 0 2 9.0 12.0 0.0 0.0 21.0 2000 4 40.0 6 0 32.0 0 10"
	if got := strings.Join(strings.Fields(rows.String()), " "); got != want {
		t.Errorf("the row is\n%s\nwant\n%s", got, want)
	}
	for _, want := range []string{"told in 1 of 2. on record in 1 of 2. By: line.", "untold in 2 of 2. Would show it: switch states.", "Told in every job: 0 of 2 faults"} {
		if !strings.Contains(faults.String(), want) {
			t.Errorf("the faults lack %q:\n%s", want, faults.String())
		}
	}
	faults.Reset()
	faultRows(&faults, jobs[:1])
	if want := "1 of 2 faults; to put those right takes 1.5 lead hours, 1.0 apprentice hours and $20 of material"; !strings.Contains(faults.String(), want) {
		t.Errorf("the faults lack %q:\n%s", want, faults.String())
	}
}
