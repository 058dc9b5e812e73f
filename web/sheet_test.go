package web

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"asfound/observation"
	"asfound/site"
)

func TestSheet(t *testing.T) {
	h := built(t)
	wants(t, h.get("/sheet/directory-A1"), "PDF to print", `src="sheet/directory-A1/page-1.svg"`)
	for file, kind := range map[string]string{"page-1.svg": "image/svg+xml", "sheet.pdf": "application/pdf", "sheet.csv": "text/csv; charset=utf-8"} {
		if r := h.send("GET", "/sheet/directory-A1/"+file, nil); r.Status != statusOK || r.Type != kind {
			t.Errorf("%s: status %d, type %s", file, r.Status, r.Type)
		}
	}
	if r := h.send("GET", "/sheet/directory-A1/sheet.exe", nil); r.Status != statusNotFound {
		t.Errorf("an unknown form: status %d", r.Status)
	}
}

// tellingSheets are sheets that can be found by code and tell what has changed.
type tellingSheets struct{ oneSheet }

func (tellingSheets) Changed(before, after *site.AsFound, name string) ([]string, error) {
	if before.State == after.State {
		return nil, errors.New("the same state twice")
	}
	if len(before.Openings) == len(after.Openings) {
		return nil, nil
	}
	return []string{fmt.Sprintf("%s: %d openings more", name, len(after.Openings)-len(before.Openings))}, nil
}

func (tellingSheets) Find(_ *site.AsFound, typed string) (name, state string, err error) {
	tag, state, _ := strings.Cut(strings.ToLower(typed), "-")
	if tag != "k7m2" {
		return "", "", observation.Unusable{Field: "code", Typed: typed, Say: "No sheet has that code."}
	}
	return "directory-A1", state, nil
}

// The address on a printed sheet says what has changed on it since.
func TestPrintedSheet(t *testing.T) {
	h := built(t)
	h.pages.jobs[0].Sheets = tellingSheets{}
	printed := h.found().State
	path := "/sheet/directory-A1." + printed
	wants(t, h.get(path), "Your copy is of this state", "PDF to print")
	h.kept("/property", "building_name", "B")
	wants(t, h.get(path), "Your copy is of state "+printed, "nothing on this sheet has changed", "Journal state "+h.found().State)
	h.kept("/room/"+string(h.room), "number", "A02-09")
	wants(t, h.get(path), "directory-A1: 1 openings more", "today 09:")
	wants(t, h.get("/sheet/directory-A1.zzzzzz-3"), sayOtherJournal, "PDF to print")
	if r := h.send("GET", "/sheet/directory-A9."+printed, nil); r.Status != statusNotFound || !strings.Contains(string(r.Body), sayGoneSheet) {
		t.Errorf("a sheet that is no longer made: status %d", r.Status)
	}
	h.pages.jobs[0].Sheets = oneSheet{}
	wants(t, h.get(path), sayNotTold)
}

// The short code under the square code finds the sheet, by the letters of its
// state alone too.
func TestSheetIsFoundByItsCode(t *testing.T) {
	h := built(t)
	if strings.Contains(h.get("/papers"), `name="code"`) {
		t.Error("a code is asked for where none can be found")
	}
	h.pages.jobs[0].Sheets = tellingSheets{}
	letters, _, _ := strings.Cut(h.found().State, "-")
	h.kept("/room/"+string(h.room), "number", "A02-09")
	r := h.send("GET", "/papers?code=K7M2-"+letters, nil)
	if r.Status != statusGoTo || r.Location != "/sheet/directory-A1."+letters {
		t.Fatalf("status %d to %s", r.Status, r.Location)
	}
	wants(t, h.get(r.Location), "Your copy is of state "+letters+"-", "1 openings more")
	r = h.send("GET", "/papers?code=q-q", nil)
	if r.Status != statusUnusable {
		t.Errorf("a code of no sheet: status %d", r.Status)
	}
	wants(t, string(r.Body), "No sheet has that code.", `value="q-q"`)
}
