package web

import (
	"bytes"
	"encoding/csv"
	"strings"
	"testing"
)

const aList = "building;room;number;use\nA;A02 Great room;A02-05;switch\nA;A02 Great room;A02-01;receptacle\nA;A02 Great room;A02-06;lamp\nA;Attic;A09-01;\n"

// bring sends a list as a file and returns the page that looks at it.
func (h *house) bring(kind, name, text string) string {
	h.t.Helper()
	r := h.pages.Answer(Request{Method: "POST", Path: "/lists", Form: map[string][]string{"kind": {kind}}, Who: h.who, Now: h.now,
		Files: map[string][]File{ListField: {{Name: name, Text: []byte(text)}}}})
	if r.Status != statusGoTo {
		h.t.Fatalf("status %d\n%s", r.Status, text)
	}
	return r.Location
}

// Look, keep, mend, bring again, take back.
func TestAListIsTakenIn(t *testing.T) {
	h := built(t)
	before := h.length()
	at := h.bring("openings", "list.csv", aList)
	page := h.get(at)
	wants(t, page, "Keep 2 lines", "room Attic in A", "Already there", "Write receptacle, switch", "lamp", "semicolon")
	if h.length() != before {
		t.Fatal("looking kept something")
	}
	kept := h.kept(at)
	if h.length() != before+3 {
		t.Errorf("%d entries kept, want 2 openings and a room", h.length()-before)
	}
	page = h.get(kept)
	wants(t, page, "Kept 2 lines.", "Write receptacle, switch")
	r := h.send("GET", at+"/bad-lines.csv", nil)
	rows, err := csv.NewReader(bytes.NewReader(r.Body)).ReadAll()
	if err != nil || r.Type != "text/csv; charset=utf-8" || len(rows) != 2 || rows[1][0] != "4" || !strings.Contains(rows[1][1], "use: Write receptacle") || rows[1][5] != "lamp" {
		t.Fatalf("%v as %s, %v", rows, r.Type, err)
	}
	mended := strings.Replace(string(r.Body), "lamp", "lighting", 1)
	h.kept(h.bring("openings", "bad-lines.csv", mended))
	if len(h.found().Numbered("A02-06")) != 1 {
		t.Error("the mended line is not on record")
	}
	wants(t, h.get("/lists"), "list.csv: 3 entries, Marit Sandvei", "bad-lines.csv: 1 entry")

	_, file, _ := strings.Cut(kept, "&file=")
	wants(t, h.get("/entry/"+file), "list.csv, line 2", `href="file/`+file)
	wants(t, h.get("/file/"+file), "3, of which 3 count", "The wrong file")
	h.refused("/file/"+file, "Write why it is withdrawn", "other", "")
	back := h.kept("/file/"+file, "reason", "The wrong file")
	wants(t, h.get(back), "None of its entries counts any more.")
	if len(h.found().Numbered("A02-05")) != 0 || len(h.found().Numbered("A02-06")) != 1 {
		t.Error("the wrong entries were withdrawn")
	}
}

// A table may be pasted, and comes back as typed when it cannot be used.
func TestAPastedList(t *testing.T) {
	h := built(t)
	page := h.refused("/lists", "names no column room, number", "kind", "openings", "pasted", "building\tcolor\nA\tblue\n")
	if !strings.Contains(page, "building\tcolor\nA\tblue") {
		t.Error("what was pasted is lost")
	}
	h.refused("/lists", sayNoList, "kind", "openings")
	h.refused("/lists", sayNoKind, "pasted", aList)
	at := h.kept("/lists", "kind", "circuits", "pasted", "panel\tspace\tlabel\nA1\t9\tpump <b>\n")
	wants(t, h.get(h.kept(at)), "Kept 1 line.")
	if h.found().Panel(h.panel).Seen[9].Label != "pump <b>" {
		t.Error("the label is not on record")
	}
	h.who = ""
	h.refused("/lists", sayWho, "kind", "circuits", "pasted", "panel,space\nA1,9\n")
}

// A list that the program no longer holds is asked for once more, and a disk
// that is full keeps nothing of it.
func TestAListThatIsGone(t *testing.T) {
	h := built(t)
	if r := h.send("GET", "/lists/0123", nil); r.Status != statusUnusable || !strings.Contains(text(r.Body), sayListGone) {
		t.Errorf("status %d\n%s", r.Status, text(r.Body))
	}
	at := h.bring("openings", "list.csv", aList)
	h.store.full = true
	before := h.length()
	if r := h.send("POST", at, nil); r.Status != statusFull || h.length() != before {
		t.Errorf("status %d, %d entries", r.Status, h.length()-before)
	}
	h.store.full = false
	h.kept(at)
	for range listsHeld {
		h.bring("openings", h.now.String(), aList)
		h.now = h.now.Add(1)
	}
	h.refused(at, sayListGone, "once", "another")
	if r := h.send("GET", "/file/"+h.tour.String()+"x-1", nil); r.Status != statusNotFound {
		t.Errorf("a file that never was: status %d", r.Status)
	}
}
