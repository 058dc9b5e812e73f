package web

import (
	"testing"

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
