package report_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"asfound/observation"
	"asfound/report"
)

// powerJob is the small job with what is on record of its power.
func powerJob() *job {
	j := smallJob()
	utility := j.add("", observation.Source{Name: "utility", Of: observation.Utility, Disconnect: "the service disconnect on the north wall"}).Thing()
	generator := j.add("", observation.Source{Name: "G1", Of: observation.Generator, Starts: observation.Yes}).Thing()
	j.add("", observation.Feeder{From: utility, To: j.at["A1"], How: observation.BasisTested, Wires: "4/0 aluminum"})
	j.add("", observation.Feeder{From: j.at["A1"], Space: 9, To: j.at["C1"], How: observation.BasisLabel, Way: "1-1/2 in PVC underground"})
	j.add("", observation.Feeder{From: generator, To: j.at["C1"]})
	j.add(j.at["A1"], observation.PassThrough{Count: 4, From: "R1", To: "R2"})
	j.add(j.at["A1"], observation.CableEnd{Tag: "7", Mark: "pump?", Conductors: []observation.Conductor{{Wire: observation.Hot, State: observation.Coiled}}})
	j.add(utility, observation.LockOut{Device: "lock 1", Key: "Marit Sandvei", Told: "everybody at eight"})
	j.add(j.at["A1"], observation.LockOut{Device: "lock 4", Spaces: []int{5, 7}})
	j.add(j.at["A1"], observation.ProvenDead{Before: observation.Yes, Absent: observation.Yes, After: observation.Yes})
	return j
}

func TestPowerSheets(t *testing.T) {
	a := powerJob().asFound()
	door, _ := both(t, a, "door-a1", "door-a1-power")
	for _, want := range []string{"utility feeds panel A1, 4/0 aluminum.", "both ends tested", "G1 feeds panel C1: power can come back from there into panel A1.", "not known how", "4 conductors pass through this cabinet, in by R1, out by R2",
		"Source G1 (generator), what opens it is not on record, it can start by itself.", "Cable 7 (marked “pump?”) lies loose in this cabinet"} {
		if !strings.Contains(door, want) {
			t.Errorf("the door sheet does not say %q:\n%s", want, door)
		}
	}
	if strings.Index(door, "Not on record") > strings.Index(door, "utility feeds") {
		t.Error("what is not known does not stand first")
	}
	locks, rows := both(t, a, "lockout", "lockout-power")
	for _, want := range []string{"Source utility", "lock 1", "Panel A1, space 5, 7", "lock 4"} {
		if !strings.Contains(locks, want) || !strings.Contains(rows, want) {
			t.Errorf("the lock-out sheet does not say %q", want)
		}
	}
	line, _ := both(t, a, "oneline", "oneline-power")
	if !strings.Contains(line, "from A1-9 · as a label says") || !strings.Contains(line, "drawn above") {
		t.Errorf("the one-line: %s", line)
	}
	for _, name := range []string{"door-a1", "door-c1", "lockout", "oneline", "directories"} {
		s := made(t, a, name)
		noOverlap(t, s)
		if text := strings.ToLower(textOf(s)); strings.Contains(text, "proven dead") {
			t.Errorf("%s says proven dead: paper hangs longer than a test counts", name)
		}
	}
}

// All directories in one print are the pages of each, one after another.
func TestAllDirectoriesInOnePrint(t *testing.T) {
	a := sample(t)
	want := textOf(made(t, a, "directory-c1")) + textOf(made(t, a, "directory-a1")) // in the order of their buildings
	count := func(text string) int { return strings.Count(text, "== page") }
	all := textOf(made(t, a, "directories"))
	if count(all) != count(want) {
		t.Errorf("%d pages, want %d", count(all), count(want))
	}
	bare := func(text string) string {
		var out []string
		for _, l := range strings.Split(text, "\n") {
			if !strings.HasPrefix(l, "== page") {
				out = append(out, l)
			}
		}
		return strings.Join(out, "\n")
	}
	if bare(all) != bare(want) {
		t.Error("the print says something else than the directories:\n" + cmp.Diff(bare(want), bare(all)))
	}
	rows, err := report.CSV(a, "directories")
	if err != nil || !strings.Contains(string(rows), "\nA1,1,") || !strings.Contains(string(rows), "\nC1,2,") {
		t.Errorf("the file does not name panel and space: %v\n%s", err, rows)
	}
}
