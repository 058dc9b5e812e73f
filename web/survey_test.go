package web

import (
	"strings"
	"testing"

	"asfound/observation"
)

// A survey sheet goes in line by line: good lines are kept, bad ones come back
// with a sentence each, and what is on record is not asked for again.
func TestSurveyLateEntry(t *testing.T) {
	h := built(t)
	path := "/survey/" + string(h.study)
	wants(t, h.get(path), "A03-01", "Survey sheet, late entry")
	first := string(h.opening["A03-01"])
	r := h.send("POST", path, []string{"taker", "Tomas Veil", "date", "2031-05-28", "time", "8:10",
		"depth." + first, "1/4", "cables." + first, "14/2, 12/3",
		"number.new1", "A03-04", "use.new1", "sw", "gangs.new1", "2", "height.new1", "48", "cables.new1", "3", "note.new1", "marked “den?”, 4 in. free",
		"number.new2", "A03-O5", "use.new2", "lamp",
		"number.new3", "A03-04",
		"number.new4", "A03-06", "cables.new4", "many",
		"number.new5", "A03-07", "cables.new5", "nr", "height.new5", "tall"})
	if r.Status != statusUnusable {
		t.Fatalf("status %d: %s", r.Status, text(r.Body))
	}
	body := string(r.Body)
	wants(t, body, "Kept 2 rows.", "A03-O5 has a letter where a figure belongs. Type A03-05.", sayUse, sayCables, sayLineTwice("A03-04", 4))
	for _, still := range []string{`value="A03-O5"`, `value="lamp"`, `value="many"`, `value="tall"`} {
		if !strings.Contains(body, still) {
			t.Errorf("%s is lost", still)
		}
	}
	if i, j := strings.Index(body, `value="A03-04"`), strings.Index(body, `value="A03-06"`); !strings.Contains(body, `name="number.new1" value="A03-O5"`) || i > j {
		t.Error("the lines that are left do not stand first, in their order")
	}
	found := h.found()
	made := found.Numbered("A03-04")
	if len(made) != 1 {
		t.Fatalf("%d openings A03-04", len(made))
	}
	o := made[0]
	if o.Use != observation.Switch || o.Gangs != 2 || o.Height != 48 || len(o.Cables) != 3 || o.Note != "marked “den?”, 4 in. free" || o.Order != 4 {
		t.Errorf("kept as %+v with %d cables", o.Opening, len(o.Cables))
	}
	if e := o.Story[0]; e.Who != "Tomas Veil" || e.Taken.Format("15:04") != "08:10" || e.Stop == "" {
		t.Errorf("kept by %s at %s, stop %q", e.Who, e.Taken, e.Stop)
	}
	if before := found.Opening(h.opening["A03-01"]); before.Depth != 0.25 || len(before.Cables) != 2 || before.Cables[1].Jacket != "12/3" || len(before.Cables[1].Conductors) != 0 || before.Gangs != 1 {
		t.Errorf("A03-01 stands as %+v, %+v", before.Opening, before.Cables)
	}
	to := h.kept(path, "taker", "Tomas Veil", "number.new1", "A03-05", "use.new1", "l", "number.new2", "A03-07", "cables.new2", "not reached")
	wants(t, h.get(to), "Kept 2 rows.", "not reached")
	if away := h.found().Numbered("A03-07")[0]; away.NotReached == nil || away.Order != 6 {
		t.Errorf("A03-07: not reached %v, order %d", away.NotReached, away.Order)
	}
	h.refused(path, sayNoRow, "taker", "Tomas Veil")
	h.refused(path, sayLineTwice("A03-08", 7), "number.new1", "A03-08", "cables.new1", "x/", "number.new2", "A03-08")
	if r := h.send("GET", "/survey/nothing-9", nil); r.Status != statusNotFound {
		t.Errorf("the sheet of no room: status %d", r.Status)
	}
}
