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
