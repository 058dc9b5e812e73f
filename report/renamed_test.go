package report_test

import (
	"bytes"
	"encoding/csv"
	"slices"
	"strings"
	"testing"

	"asfound/observation"
	"asfound/report"
)

// rename records a thing again under another name.
func (j *job) rename(name string, body observation.Body) {
	for _, e := range j.fold.Installation().Story(j.at[name]) {
		if e.Body.Kind() == body.Kind() && e.Live() {
			j.seen = append(j.seen, e.ID)
		}
	}
	j.add(j.at[name], body)
	j.seen = nil
}

func shop() *job {
	j := newJob()
	j.building("A")
	j.room("A", "A02 Great room")
	j.panel("A", "A02 Great room", "A1", 30)
	j.openings("A02 Great room", observation.Receptacle, "A02-07", "A02-08", "A02-09")
	return j
}

// A sheet that was printed before a name was changed says what is called how
// now, once, and nothing else where nothing else has changed.
func TestAPrintedSheetFollowsNames(t *testing.T) {
	j := shop()
	before := j.asFound()
	j.rename("A02-07", observation.Opening{Room: j.at["A02 Great room"], Number: "A02-17", Use: observation.Receptacle, Order: 4})
	got, err := report.Changed(before, j.asFound(), "tapes-a")
	if err != nil || !slices.Equal(got, []string{"A02-07 on this sheet is A02-17 now"}) {
		t.Errorf("%q, %v", got, err)
	}
	j.rename("A02 Great room", observation.Room{Building: j.at["A"], Name: "A02 Long room", Order: 2})
	j.rename("A", observation.Building{Name: "Main house"})
	got, err = report.Changed(before, j.asFound(), "tapes-main-house")
	want := []string{"A on this sheet is Main house now", "A02 Great room on this sheet is A02 Long room now", "A02-07 on this sheet is A02-17 now"}
	if err != nil || !slices.Equal(got, want) {
		t.Errorf("%q, %v", got, err)
	}
	if now, found := report.Follow(before, j.asFound(), "tapes-a"); !found || now.Name != "tapes-main-house" {
		t.Errorf("the sheet is %q now", now.Name)
	}
}

// Two openings that exchanged their numbers are both told.
func TestNumbersExchanged(t *testing.T) {
	j := shop()
	before := j.asFound()
	j.rename("A02-07", observation.Opening{Room: j.at["A02 Great room"], Number: "A02-08", Use: observation.Receptacle, Order: 4})
	j.rename("A02-08", observation.Opening{Room: j.at["A02 Great room"], Number: "A02-07", Use: observation.Receptacle, Order: 5})
	got, err := report.Changed(before, j.asFound(), "tapes-a")
	if err != nil || !slices.Equal(got, []string{"A02-07 on this sheet is A02-08 now", "A02-08 on this sheet is A02-07 now"}) {
		t.Errorf("%q, %v", got, err)
	}
}

// A name of before that another panel bears now is not that panel's sheet.
func TestASheetFollowsItsPanel(t *testing.T) {
	j := shop()
	j.panel("A", "", "A2", 12)
	before := j.asFound()
	j.rename("A1", observation.Panel{Building: j.at["A"], Name: "P7", Spaces: 30})
	j.rename("A2", observation.Panel{Building: j.at["A"], Name: "A1", Spaces: 12})
	if now, found := report.Follow(before, j.asFound(), "directory-a1"); !found || now.Of != j.at["A1"] || now.Name != "directory-p7" {
		t.Errorf("it is %+v now", now)
	}
}

// A sheet's CSV read again by another program gives the same texts, whatever
// stands in them (RFC 4180 section 2, rules 5 to 7): a cell that a table program
// would run begins with an apostrophe, and a sign that cannot be printed is a
// blank, as on paper.
func TestCSVReadAgain(t *testing.T) {
	j := newJob()
	name := "A02 \"Great\" room, upper;\tleft\nwing ü"
	j.building("A")
	j.room("A", name)
	j.openings(name, observation.Receptacle, "A02,07", `A02"08`, "=A02+1")
	data, err := report.CSV(j.asFound(), "tapes-a")
	if err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(bytes.NewReader(data)).ReadAll()
	if err != nil || len(rows) != 4 {
		t.Fatalf("%d rows, %v\n%s", len(rows), err, data)
	}
	room := "A02 \"Great\" room, upper; left wing ü"
	for i, number := range []string{"A02,07", `A02"08`, "'=A02+1"} {
		if rows[i+1][0] != number || rows[i+1][2] != room {
			t.Errorf("row %d reads %q", i+1, rows[i+1])
		}
	}
	if strings.Count(string(data), "\r\n") != 4 {
		t.Error("lines do not end with CRLF")
	}
}
