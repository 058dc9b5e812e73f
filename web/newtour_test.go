package web

import (
	"strings"
	"testing"

	"asfound/observation"
)

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

// The error of the meter is no reading: the sentence at its field speaks of the
// booklet. A name that a tour bears is refused and another offered.
func TestNewTourRefuses(t *testing.T) {
	h := built(t).touring()
	tour := func(name, meter string) []string {
		return []string{"name", name, "panel", string(h.panel), "tolerance", "1", "meter", "0.9", "meter_ohm", meter}
	}
	for _, meter := range []string{"-3", "open", "11", "2 V", ""} {
		page := h.refused("/tour", sayMeter, tour("Tour 2", meter)...)
		if !strings.Contains(between(page, `id="f-meter_ohm"`, "/>"), `aria-invalid="true"`) {
			t.Errorf("%q is not refused at its own field", meter)
		}
	}
	h.kept("/takeoff/" + h.tour.String()) // a name stays used
	for _, path := range []string{"/tour", "/pairing"} {
		wants(t, h.refused(path, sayTourUsed("tour 1", "Tour 2"), tour("tour 1", "0.2")...), `value="tour 1"`)
	}
	wants(t, h.get("/tour"), `value="Tour 2"`)
}

// Resistors of a tour that stands are said where a second one is set up on the
// same panel, and on its list.
func TestSecondTourOnAPanel(t *testing.T) {
	h := built(t).touring()
	busy := sayBusy("Tour 1", "A1")
	wants(t, h.get("/tour"), busy)
	at := h.kept("/tour", "name", "Tour 2", "panel", string(h.panel), "tolerance", "1", "meter", "0.9", "meter_ohm", "0.2", "neutral_joined", "no")
	page := h.get(at)
	wants(t, page, busy)
	if strings.Contains(page, "Join the neutral bar") {
		t.Error("it asks for a join that the tour goes without")
	}
	page = h.get("/resistors/" + h.tour.String())
	wants(t, page, "Join the neutral bar to the ground bar for the tour.")
	if strings.Contains(page, "are still on at") {
		t.Error("a tour is warned of itself, or of one with nothing on")
	}
	h.record(observation.Observation{Under: []observation.ID{h.tour}, Body: observation.Removed{}})
	for _, path := range []string{at, "/tour"} {
		if strings.Contains(h.get(path), "are still on at") {
			t.Errorf("%s warns of resistors that are off", path)
		}
	}
}
