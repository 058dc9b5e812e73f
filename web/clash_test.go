package web

import (
	"strings"
	"testing"
)

// A clash names the readings, every least set of doubts and the one reading
// that decides; nothing on the page hides it.
func TestClash(t *testing.T) {
	h := traced(t)
	c := h.found().Trace.Clashes[0]
	page := h.get("/clash?key=" + queryEscape(c.Key))
	wants(t, page, "A02-03, hot to ground: 3.0005 kΩ", "A02-03, hot to neutral: 5.0005 kΩ", "Any one of these would explain them", "was misread",
		"One reading decides", "Skip for now")
	if n := strings.Count(page, "<li>"); n < len(c.Sets)+len(c.Readings) {
		t.Errorf("%d items for %d sets and %d readings", n, len(c.Sets), len(c.Readings))
	}
	if strings.Contains(page, "<form") {
		t.Error("the clash page has a form: there is nothing to enter or hide here")
	}
}

// A clash that is cleared is no trouble: its page says so and shows what was
// read there, whoever comes by an address of before.
func TestClashCleared(t *testing.T) {
	h := traced(t)
	at := h.opening["A02-03"]
	path := "/clash?key=" + queryEscape(h.found().Trace.Clashes[0].Key)
	h.kept("/entry/"+h.found().Opening(at).Stops[0].Ohms[1].ID.String(), "reason", "Misread")
	page := h.get(path)
	wants(t, page, sayAgree, "A02-03, hot to ground: 3.0005 kΩ", "the hot at A02-03 is on A1-3")
	if strings.Contains(text([]byte(page)), "hot to neutral: 5.0005") {
		t.Error("the reading that was withdrawn is listed as one that agrees")
	}
	h.kept("/entry/"+h.found().Opening(at).Stops[0].Ohms[0].ID.String(), "reason", "Misread")
	wants(t, h.get(path), "No reading is left here")
	if r := h.send("GET", "/clash?key=nobody", nil); r.Status != statusNotFound {
		t.Errorf("a clash of no opening: status %d", r.Status)
	}
}
