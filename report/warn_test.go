package report_test

import (
	"strings"
	"testing"

	"asfound/observation"
	"asfound/report"
	"asfound/site"
)

// both checks the sheet and the file of one kind against golden files.
func both(t *testing.T, a *site.AsFound, name, file string) (page, rows string) {
	t.Helper()
	page = textOf(made(t, a, name))
	golden(t, file+".txt", page)
	got, err := report.CSV(a, name)
	if err != nil {
		t.Fatal(err)
	}
	rows = strings.ReplaceAll(string(got), "\r\n", "\n")
	golden(t, file+".csv", rows)
	return strings.Join(strings.Fields(page), " "), rows
}

// A line that reads closed carries its remark wherever the directory has it: at
// its space, settled or likely, and in its note. What passes through the cabinet
// is said above the spaces.
func TestDirectoryWarns(t *testing.T) {
	j := smallJob()
	closed := map[string]bool{"A02-06": true, "A02-12": true, "A02-10": true, "C01-02": true}
	for _, l := range j.tr.Lines {
		l.Closed = closed[j.asFound().Name(l.End.At)]
	}
	j.add(j.at["A1"], observation.PassThrough{Count: 4, From: "R1", To: "R2"})
	j.add(j.at["A1"], observation.PassThrough{Count: 2})
	a := j.asFound()
	page, rows := both(t, a, "directory-a1", "directory-a1-closed")
	means := ": a load is still connected there, or a fault; do not energize"
	for _, want := range []string{"Reads closed: A02-06" + means, "Reads closed: A02-12" + means, ". Reads closed" + means,
		"6 conductors pass through this cabinet and may be live with the panel dead: another source feeds them: test each."} {
		if !strings.Contains(page, want) || !strings.Contains(rows, want) {
			t.Errorf("sheet or file does not say %q", want)
		}
	}
	if n := strings.Count(rows, "Reads closed"); n != 3 {
		t.Errorf("%d lines of panel A1 read closed, want 3", n)
	}
	page, _ = both(t, a, "directory-c1", "directory-c1-closed")
	if !strings.Contains(page, "Reads closed"+means) || strings.Contains(page, "pass through") {
		t.Error("panel C1 has one note that reads closed, and nothing that passes through")
	}
}

// A cable that lies coiled in a panel stands on the sheets under its own tag.
func TestCoiledCableOnTheSheets(t *testing.T) {
	j := smallJob()
	coil := func(wires ...observation.Wire) (out []observation.Conductor) {
		for _, w := range wires {
			out = append(out, observation.Conductor{Wire: w, State: observation.Coiled})
		}
		return out
	}
	j.add(j.at["C1"], observation.CableEnd{Tag: "7", Mark: "pump?", Conductors: coil(observation.Hot, "red", observation.Neutral, observation.EGC)})
	a := j.withTour().asFound()
	for _, name := range []string{"resistors-tour-1", "readback-tour-1"} {
		page, rows := both(t, a, name, name+"-coiled")
		for _, want := range []string{"cable 7", "red of cable 7"} {
			if !strings.Contains(page, want) || !strings.Contains(rows, want) {
				t.Errorf("%s does not name %q", name, want)
			}
		}
		if strings.Contains(page, "space 0") || strings.Contains(rows, ",0,") {
			t.Errorf("%s names a space 0", name)
		}
	}
}
