package web

import "testing"

func TestProperty(t *testing.T) {
	h := newHouse(t)
	wants(t, h.get("/property"), "Nothing is on record yet.")
	at := h.kept("/property", "building_name", "B")
	wants(t, h.get(at), "Building B", "No room is on record yet.")
	wants(t, h.get("/property"), "no rooms, no openings, no panels")
}
