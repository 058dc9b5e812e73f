package web

import (
	"testing"

	"asfound/observation"
)

func TestBuilding(t *testing.T) {
	h := built(t)
	page := h.get("/building/" + string(h.building))
	wants(t, page, "A02 Great room", "4 openings, floor 0", "Panel A1")
	at := h.kept("/building/"+string(h.building)+"/panel", "panel_name", "A2", "spaces", "42")
	wants(t, h.get(at), "Space 1", "42 spaces nobody looked at yet.")
}

func TestNextNumber(t *testing.T) {
	h := built(t)
	hall := h.addRoom("Main hall", 12)
	numbered := h.addRoom("A20 Deck", 20)
	odd := h.addRoom("Shed", 3)
	h.addOpening(odd, "S-9", 1)
	taken := h.addRoom("Cellar", 4)
	h.addOpening(taken, "A02-03", 1)
	for name, c := range map[string]struct {
		room observation.Thing
		want string
	}{
		"after the last one":                 {h.room, "A02-05"},
		"first of a room without a number":   {hall, "A12-01"},
		"first of a room named by number":    {numbered, "A20-01"},
		"figures grow":                       {odd, "S-10"},
		"numbers used elsewhere are skipped": {taken, "A02-05"},
	} {
		in := h.found().Installation
		if got := nextNumber(in, in.Room(c.room)); got != c.want {
			t.Errorf("%s: %q, want %q", name, got, c.want)
		}
	}
}
