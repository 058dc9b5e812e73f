package web

import (
	"slices"
	"strings"
	"testing"

	"asfound/observation"
	"asfound/trace"
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

// The cursor would draw the page past its caution: it waits until the panel is on
// record as locked out and proven dead.
func TestIsolationStartsOnlyWhenDead(t *testing.T) {
	h := built(t)
	path := "/isolation/" + string(h.panel)
	if page := h.get(path); strings.Contains(page, "autofocus") {
		t.Error("the cursor starts in a row, and nothing is proven dead")
	}
	page := h.refused(path, sayNoValue)
	if strings.Contains(page, "autofocus") {
		t.Error("the cursor starts in a row of a form that came back, and nothing is proven dead")
	}
	h.record(observation.Observation{Subject: h.panel, Body: observation.ProvenDead{Before: observation.Yes, Absent: observation.Yes, After: observation.Yes, Tester: "tester 2"}})
	if page := h.get(path); strings.Contains(page, "autofocus") {
		t.Error("the cursor starts in a row, and the supply is not locked out")
	}
	h.record(observation.Observation{Subject: h.panel, Body: observation.LockOut{Device: "lock 4", Key: "Marit Sandvei"}})
	if page := h.get(path); strings.Count(page, "autofocus=") != 1 {
		t.Error("the cursor does not start in the first row")
	}
}

// isolated answers every row of the test from a wiring in which some spaces are
// joined, until the plan asks for nothing more.
func (h *house) isolated(joined ...int) string {
	h.t.Helper()
	path := "/isolation/" + string(h.panel)
	for range 40 {
		open := trace.PlanIsolation(h.found().Installation, h.panel).Open()
		if len(open) == 0 {
			return h.get(path)
		}
		l, ohm := open[0], "OL" // one by one: an answer may change what is asked next
		in := func(s int) bool { return slices.Contains(joined, s) }
		if l.Against == observation.AgainstSpaces && slices.ContainsFunc(l.A, in) && slices.ContainsFunc(l.B, in) {
			ohm = "0.4"
		}
		h.kept(path, "ohm."+isolationKey(l), ohm, "switches_on", "yes", "loads_off", "yes")
	}
	h.t.Fatal("the plan has no end")
	return ""
}

// At its end the page says in words which spaces are joined, and shows every
// reading that says so, those that narrowed it too.
func TestIsolationSaysWhatItShows(t *testing.T) {
	h := built(t).dead()
	if page := h.get("/isolation/" + string(h.panel)); strings.Contains(page, "What it shows") {
		t.Error("the page says what it shows before anything was read")
	}
	page := h.isolated(3, 6)
	wants(t, page, "0 readings left", "What it shows", "A1-3 is joined with A1-6, on opposite legs", "Opposite legs: do not energize until this join is found.", "space 3 to all other spaces joined: 0.4 Ω", "space 3 to space 6: 0.4 Ω; space 3 to space 6: 0.4 Ω")
	said := between(page, "A1-3 is joined with A1-6", "</section>")
	for _, l := range trace.PlanIsolation(h.found().Installation, h.panel).Lines {
		narrowed := isolationWords(l.A, l.Against, l.B, false) + ": " + l.Ohm.String()
		if l.Why != "" && !l.Ohm.Open && !strings.Contains(said, narrowed) {
			t.Errorf("the result leaves out %q", narrowed)
		}
	}
	if strings.Contains(page, "no pair singled out") {
		t.Error("a reading is left unexplained")
	}
}

func TestIsolationSaysThatNothingIsJoined(t *testing.T) {
	h := built(t).dead()
	page := h.isolated()
	wants(t, page, "No branch conductor was found joined with another or with a bar: every reading was open.", "Every reading asked for is kept.")
	if strings.Contains(page, ">Keep<") {
		t.Error("a button asks to keep what is kept")
	}
}
