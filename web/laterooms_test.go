package web

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"asfound/observation"
	"asfound/pattern"
	"asfound/site"
)

var rowHead = regexp.MustCompile(`<th scope="row">(?:<span class="no">(\d+)</span> )?([A-Z]\d\d-\d\d)`)

// numberedRows are the rows of a late entry with their numbers: "1 A02-01".
func numberedRows(page string) []string {
	var out []string
	for _, m := range rowHead.FindAllStringSubmatch(page, -1) {
		out = append(out, strings.TrimSpace(m[1]+" "+m[2]))
	}
	return out
}

// The rows bear the numbers of the copy in somebody's hand: what was added,
// renamed, moved or withdrawn since does not shift them.
func TestLateEntryFollowsThePrintedSheet(t *testing.T) {
	h := built(t).touring()
	printed := h.found().State
	letters, _, _ := strings.Cut(printed, "-")
	h.kept("/opening/"+string(h.opening["A02-02"]), "number", "A02-12", "room", string(h.room), "order", "2")
	h.kept("/opening/"+string(h.opening["A02-03"]), "number", "A02-03", "room", string(h.study), "order", "9")
	h.record(observation.Observation{Body: observation.Opening{Room: h.room, Number: "A02-09", Order: 1}})
	first := h.found().Opening(h.opening["A02-04"]).Story[0]
	h.kept("/entry/"+first.ID.String(), "reason", "Kept twice")

	want := []string{"1 A02-01", "2 A02-12", "3 A02-03", "4 A02-04", "5 A03-01", "6 A03-02", "7 A03-03", "A02-09"}
	for _, sheet := range []string{printed, letters, "k7m2-" + letters, strings.ToUpper(" k7m2-" + letters + " ")} {
		page := h.get("/late/" + h.tour.String() + "?sheet=" + queryEscape(sheet))
		if got := numberedRows(page); !slices.Equal(got, want) {
			t.Errorf("by %q the rows are %q, want %q", sheet, got, want)
		}
		wants(t, page, "A02-02 on this sheet is A02-12 now", "state "+printed, sayGoneRow, "1 row came in since")
	}
	if got := numberedRows(h.get("/late/" + h.tour.String())); slices.Equal(got, want) || got[0] != "1 A02-01" || len(got) != 7 {
		t.Errorf("on a sheet printed now the rows are %q", got)
	}

	// What is entered by the copy's row lands at the opening as it is called now.
	two := string(h.opening["A02-02"]) + "."
	at := h.kept("/late/"+h.tour.String(), "sheet", printed, "ground."+two, "1k", "letters."+two, pattern.Letters("A02-02"))
	wants(t, h.get(at), "Kept 1 row.", "state "+printed, "the letters of A02-02, the number before")
	if o := h.found().Opening(h.opening["A02-02"]); len(o.Stops) != 1 || o.Number != "A02-12" {
		t.Errorf("%d visits at %s", len(o.Stops), o.Number)
	}
	h.refused("/late/"+h.tour.String(), sayNoCopy, "sheet", "zzzzzz-3", "ground."+string(h.opening["A02-01"])+".", "1k")
}

// followingSheets are sheets called after the panel.
type followingSheets struct{ tellingSheets }

func (followingSheets) List(found *site.AsFound) []Sheet {
	return []Sheet{{Name: "directory-" + found.Panels[0].Name, Title: "Circuit directory", Pages: 1, Tour: found.Tours[0].ID.Thing()}}
}

func (followingSheets) Follow(before, after *site.AsFound, name string) (string, bool) {
	return "directory-" + after.Panels[0].Name, name == "directory-"+before.Panels[0].Name
}

func (followingSheets) Find(found *site.AsFound, typed string) (name, state string, err error) {
	_, state, _ = strings.Cut(strings.ToLower(typed), "-")
	if found.Panels[0].Name != "A1" {
		return "", "", observation.Unusable{Field: "code", Typed: typed, Say: "No sheet has that code."}
	}
	return "directory-A1", state, nil
}

// A copy bears the name of before: its address and its code lead to the sheet
// under its name of now, which leads on to the late entry by that copy.
func TestACopyFollowsItsPanel(t *testing.T) {
	h := built(t).touring()
	h.pages.jobs[0].Sheets = followingSheets{}
	printed := h.found().State
	letters, _, _ := strings.Cut(printed, "-")
	h.kept("/panel/"+string(h.panel), "mend_name", "P7", "mend_spaces", "30", "mend_building", string(h.building))
	r := h.send("GET", "/papers?code=k7m2-"+letters, nil)
	if r.Status != statusGoTo || r.Location != "/sheet/directory-A1."+letters {
		t.Fatalf("the code leads to %d %s", r.Status, r.Location)
	}
	r = h.send("GET", r.Location, nil)
	if r.Status != statusGoTo || r.Location != "/sheet/directory-P7."+letters {
		t.Fatalf("the address leads to %d %s", r.Status, r.Location)
	}
	wants(t, h.get(r.Location), "Your copy is of state "+printed, "late/"+h.tour.String()+"?sheet="+printed)
}
