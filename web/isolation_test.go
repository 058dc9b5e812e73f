package web

import (
	"testing"
)

// The sheet's order, one value a row: good rows are kept, bad ones come back,
// and a kept row is not asked again.
func TestIsolation(t *testing.T) {
	h := built(t).dead()
	path := "/isolation/" + string(h.panel)
	page := h.get(path)
	wants(t, page, "space 1 to all other spaces joined", "9 readings left", "Stop if")
	row := "ohm.1.spaces.3-5-7-2-4-6.0"
	bad := "ohm.3.spaces.1-5-7-2-4-6.0"
	r := h.send("POST", path, []string{row, "OL", bad, "-2", "loads_off", "yes"})
	if r.Status != statusUnusable {
		t.Fatalf("status %d, want the bad row back", r.Status)
	}
	wants(t, string(r.Body), `value="-2"`, "An ohmmeter below zero", "8 readings left", `value="yes" checked`)
	if n := len(h.found().Panel(h.panel).Isolations); n != 1 {
		t.Errorf("%d readings kept, want 1", n)
	}
	h.kept(path, "open", "3.spaces.1-5-7-2-4-6.0")
	wants(t, h.get(path), "7 readings left")
	h.refused(path, sayNoValue)
	h.refused(path, sayFuture, "ohm.5.spaces.1-3-7-2-4-6.0", "OL", "date", "2031-05-30", "time", "8:00")
	h.kept(path, "ohm.5.spaces.1-3-7-2-4-6.0", "OL", "date", "2031-05-27", "time", "16:40")
	readings := h.found().Panel(h.panel).Isolations
	if got := readings[2].When().Format("2006-01-02 15:04"); got != "2031-05-27 16:40" {
		t.Errorf("taken at %s", got)
	}
}

// A hit adds the rows that narrow it.
func TestIsolationGrows(t *testing.T) {
	h := built(t).dead()
	path := "/isolation/" + string(h.panel)
	h.kept(path, "ohm.1.spaces.3-5-7-2-4-6.0", "0.4")
	wants(t, h.get(path), "a join is among these: half of them")
}
