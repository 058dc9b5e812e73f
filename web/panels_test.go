package web

import "testing"

func TestPanels(t *testing.T) {
	h := newHouse(t)
	wants(t, h.get("/panels"), "No panel is on record yet.")
	h = traced(t)
	wants(t, h.get("/panels"), "Panel A1", "30 spaces, 8 spaces looked at, in A", "Proven dead today", "3 likely")
}
