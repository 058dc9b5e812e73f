package report_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"asfound/observation"
	"asfound/report"
	"asfound/site"
)

// ready is the sample job with both panels locked and tested dead, their spaces
// looked at and isolation read, and all resistors of the tour put on.
func ready(t *testing.T) *site.AsFound {
	t.Helper()
	j := smallJob().withTour()
	for _, panel := range []string{"A1", "C1"} {
		j.add(j.at[panel], observation.LockOut{Device: "lock " + panel})
		j.add(j.at[panel], observation.ProvenDead{Before: observation.Yes, Absent: observation.Yes, After: observation.Yes})
	}
	j.add(j.at["A01-01"], observation.Plate{On: observation.Yes})
	return j.asFound()
}

// A row of the helper's sheet bears the number that the same opening has on the
// tour sheet, so that late entry finds it.
func TestHelperRowsAreThoseOfTheTour(t *testing.T) {
	a := ready(t)
	numbers := map[string]string{}
	tour, err := report.CSV(a, "tour-tour-1")
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range rowsOf(t, tour)[1:] {
		numbers[row[0]] = row[2]
	}
	sheet, err := report.CSV(a, "helper-marit-sandvei")
	if err != nil {
		t.Fatal(err)
	}
	read := 0
	for _, row := range rowsOf(t, sheet)[1:] {
		if no := row[7]; no != "" {
			read++
			if numbers[no] != row[8] {
				t.Errorf("row %s is %s here and %s on the tour sheet", no, row[8], numbers[no])
			}
		}
	}
	if read == 0 {
		t.Fatalf("no opening is to be read:\n%s", sheet)
	}
}

// What must be off stands before the first step, with the record it rests on;
// when to stop, the times and the cautions too.
func TestHelperSheetBeginsWithWhatMustBeOff(t *testing.T) {
	a := ready(t)
	s := made(t, a, "helper-marit-sandvei")
	noOverlap(t, s)
	text := textOf(s)
	before, steps, found := strings.Cut(text, "Step 1:")
	if !found || len(s.Pages) > 2 {
		t.Fatalf("%d pages, want one or two with steps:\n%s", len(s.Pages), text)
	}
	for _, want := range []string{"Panel A1: lock A1", "Panel C1: lock C1", "Tested dead, on record", "Feb 18, ", "Stop if ", "Back by", "Next contact at", "test again for absence of voltage", "Late entry"} {
		if !strings.Contains(strings.ReplaceAll(before, "\n", " "), want) {
			t.Errorf("%q does not stand before the first step:\n%s", want, before)
		}
	}
	if !strings.Contains(steps, "Take the plate off") {
		t.Errorf("nothing says that a plate is on:\n%s", steps)
	}
}

// Each panel that must be off stands with its own lock and test, however another
// is called.
func TestHelperSheetTellsPanelsApart(t *testing.T) {
	j := smallJob()
	j.building("Garage")
	j.panel("Garage", "", "A1: garage", 4)
	for _, panel := range []string{"A1", "A1: garage"} {
		j.add(j.at[panel], observation.LockOut{Device: "lock of " + panel})
	}
	j.add(j.at["A1"], observation.ProvenDead{Before: observation.Yes, Absent: observation.Yes, After: observation.Yes})
	j.now = j.now.Add(24 * time.Hour)
	j.add(j.at["A1: garage"], observation.ProvenDead{Before: observation.Yes, Absent: observation.Yes, After: observation.Yes})
	text := textOf(made(t, j.asFound(), "helper-marit-sandvei"))
	// both panels have work on this sheet
	for row, tested := range map[string]string{"Panel A1: lock of A1": "Feb 18, ", "Panel A1: garage: lock of A1: garage": "Feb 19, "} {
		if strings.Count(text, row+"\n") != 1 || !strings.Contains(text, row+"\n"+tested) {
			t.Errorf("%q does not stand once, with its test of %s:\n%s", row, tested, text)
		}
	}
}

// With no panel tested dead the sheet has no reading on it, only what comes
// before one.
func TestHelperSheetOfALivePanel(t *testing.T) {
	text := textOf(made(t, sample(t), "helper-dell-amoah"))
	for _, never := range []string{"Hot to ground", "At each opening", "read-back"} {
		if strings.Contains(text, never) {
			t.Errorf("%q stands on the sheet with no panel dead:\n%s", never, text)
		}
	}
	if !strings.Contains(text, "Try the tester on a known source") {
		t.Errorf("the test that comes first is not on it:\n%s", text)
	}
}

// Everybody who recorded something has a sheet, and one is for anybody else.
func TestWhoGetsAHelperSheet(t *testing.T) {
	var names []string
	for _, k := range report.Sheets(sample(t)) {
		if k.Sort == report.Helper {
			names = append(names, k.Name)
		}
	}
	if want := []string{"helper-dell-amoah", "helper-marit-sandvei", "helper-anybody-else"}; !slices.Equal(names, want) {
		t.Errorf("there are %v, want %v", names, want)
	}
}
