package web

import "testing"

func TestNewTour(t *testing.T) {
	h := built(t)
	wants(t, h.get("/tour?panel="+string(h.panel)), "Tour 1", "checked", sayNotDead)
	at := h.kept("/tour", "name", "Tour 1", "panel", string(h.panel), "tolerance", "1 %", "meter", "0,9", "meter_ohm", "0.2", "neutral_joined", "yes")
	tour := h.found().Tours[0]
	if tour.Tolerance != 0.01 || tour.MeterRelative != 0.009 || tour.MeterOhm != 0.2 {
		t.Errorf("kept as %+v", tour.Tour)
	}
	wants(t, h.get(at), "Resistors to put on", sayTourLive("A1"))
}
