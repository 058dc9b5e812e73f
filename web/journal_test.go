package web

import (
	"strings"
	"testing"

	"asfound/observation"
)

// The newest entry first, a hundred on a page, withdrawn ones struck through.
func TestJournal(t *testing.T) {
	h := traced(t)
	for range 90 {
		h.record(observation.Observation{Who: "Tomas Veil", Subject: h.opening["A03-03"], Body: observation.NotReached{Why: "locked"}})
	}
	page := h.get("/journal")
	wants(t, page, "1 to 100 of", "Older")
	if n := strings.Count(page, `href="entry/`); n != 100 {
		t.Errorf("%d entries on the page", n)
	}
	older := between(page, `href="journal?`, `"`)
	wants(t, h.get("/journal?"+strings.ReplaceAll(older, "&amp;", "&")), "101 to ", "Newer")
	wants(t, h.get("/journal?by=Tomas+Veil"), "1 to 90 of 90")
	wants(t, h.get("/journal?kind=tour.1"), "1 to 1 of 1", "Tour set up: Tour 1")
	wants(t, h.get("/journal?place=great"), "A02-01")
	wants(t, h.get("/journal?place=nowhere"), "No entry of this sort.")
}
