package web

import (
	"strings"
	"testing"

	"asfound/installation"
	"asfound/observation"
)

// Two touches: opening the entry lists what leans on it, a reason withdraws it,
// and the page then shows what fell.
func TestWithdrawInTwoTouches(t *testing.T) {
	h := traced(t)
	stop := h.found().Opening(h.opening["A02-01"]).Stops[0]
	path := "/entry/" + stop.Ohms[0].ID.String()
	wants(t, h.get(path), "the hot at A02-01 is on A1-1", "Misread", "may fall back")
	before := h.length()
	at := h.kept(path, "reason", "Misread")
	page := h.get(at)
	wants(t, page, "withdrawn", "What fell with it", "Withdrawn: Misread")
	if h.length() != before+1 {
		t.Errorf("%d entries were kept", h.length()-before)
	}
	h.kept(path, "reason", "Misread", "once", "another press")
	if h.length() != before+1 {
		t.Error("withdrawn twice")
	}
	wants(t, h.get("/journal"), "<del>A02-01, hot to ground: 1.0005 kΩ</del>")
}

// What fell is said line by line: without the resistor nothing is left of the
// lines on its space.
func TestFallenLines(t *testing.T) {
	h := traced(t)
	resistor := h.found().Tours[0].Resistors[0]
	page := h.get(h.kept("/entry/"+resistor.ID.String(), "reason", "Wrong space"))
	wants(t, page, "the hot at A02-01 is on A1-1", "Before: the hot at A02-01 is on A1-1 likely Now:")
}

func TestEveryKindHasItsWords(t *testing.T) {
	h := traced(t)
	for _, kind := range observation.Kinds() {
		if kindWord(kind) == kind {
			t.Errorf("kind %s has no words", kind)
		}
	}
	e := observation.Event{Kind: "later.9"}
	if got := entryWords(h.found().Installation, e); got != "An entry of a kind this program does not know: later.9" {
		t.Errorf("an unknown kind is said as %q", got)
	}
}

// entry is an event with what became of it by now.
func (h *house) entry(id observation.ID) (installation.Entry, bool) {
	h.found()
	return h.site.Event(id)
}

// One touch withdraws, so one touch takes it back: on the page that follows the
// withdrawal, and in the journal. Both entries stay, and the lines stand as before.
func TestWithdrawalIsTakenBack(t *testing.T) {
	h := traced(t)
	ohm := h.found().Opening(h.opening["A02-01"]).Stops[0].Ohms[0].ID
	path := "/entry/" + ohm.String()
	standing := func() string { return standingWord(h.found().Trace.At(h.opening["A02-01"])[0].Verdict) }
	before := standing()
	for _, from := range []string{"after it", "journal"} {
		t.Run(from, func(t *testing.T) {
			at := h.kept(path, "reason", "Misread", "once", from)
			if e, _ := h.entry(ohm); e.Live() {
				t.Fatal("the reading is not withdrawn")
			}
			page := h.get(at)
			if from == "journal" {
				page = h.get("/journal")
			}
			wants(t, page, "It stands: take the withdrawal back", `action="`+path[1:]+`"`, `name="stands"`)
			length := h.length()
			page = h.get(h.kept(path, "stands", "yes", "once", from))
			wants(t, page, "The withdrawal is taken back: this entry counts again.", "Withdraw it: why?")
			if e, _ := h.entry(ohm); !e.Live() || standing() != before {
				t.Errorf("after taking it back the reading is live: %v, its line %s, want %s", e.Live(), standing(), before)
			}
			h.kept(path, "stands", "yes", "once", from+" pressed twice")
			if h.length() != length+1 {
				t.Errorf("%d entries were kept, want one", h.length()-length)
			}
		})
	}
	page := h.get("/journal")
	wants(t, page, "Withdrawal taken back: it stands", "<del>Withdrawn: Misread</del>")
	if strings.Contains(between(page, "A02-01, hot to ground", "</li>"), "withdrawn") {
		t.Error("the reading is still struck through in the journal")
	}
}

// What is taken back by taking back counts as nothing: the withdrawal holds again.
func TestTakingBackIsTakenBack(t *testing.T) {
	h := traced(t)
	ohm := h.found().Opening(h.opening["A02-01"]).Stops[0].Ohms[0].ID
	path := "/entry/" + ohm.String()
	h.kept(path, "reason", "Misread")
	e, _ := h.entry(ohm)
	withdrawal := "/entry/" + e.WithdrawnBy[0].String()
	h.kept(path, "stands", "yes")
	h.kept(withdrawal, "stands", "yes", "once", "again")
	if e, _ = h.entry(ohm); e.Live() {
		t.Error("the withdrawal was said to stand, and the reading counts")
	}
	wants(t, h.get(path), "It stands: take the withdrawal back")
}

func TestTakingBackOnAFullDisk(t *testing.T) {
	h := traced(t)
	path := "/entry/" + h.found().Opening(h.opening["A02-01"]).Stops[0].Ohms[0].ID.String()
	h.kept(path, "reason", "Misread")
	h.store.full = true
	wants(t, h.refused(path, sayFull, "stands", "yes"), "It stands: take the withdrawal back")
}
