package web

import (
	"strings"
	"testing"

	"asfound/observation"
)

func TestResistors(t *testing.T) {
	h := built(t).dead()
	at := h.kept("/tour", "name", "Tour 1", "panel", string(h.panel), "tolerance", "1", "meter", "0.9", "meter_ohm", "0.2", "neutral_joined", "yes")
	page := h.get(at)
	wants(t, page, "A1-1", "A1-6", "0 of 7 on", "Stop if", `<label class="why" for="f-ohm.1">Other ohms used<span class="away"> on A1-3</span></label>`)
	page = h.refused(at, "treat it as live", "on", "1", "ohm.1", "3 V")
	if n := strings.Count(page, "autofocus="); n != 1 || !strings.Contains(between(page, `id="f-ohm.1"`, "/>"), "autofocus") {
		t.Errorf("the cursor starts in %d places", n)
	}
	h.kept(at, "on", "0", "on", "1", "ohm.1", "3.01k")
	tour := h.found().Tours[0]
	if len(tour.Resistors) != 2 || tour.Resistors[1].Body.(observation.Resistor).Ohm != 3010 {
		t.Fatalf("%d resistors kept", len(tour.Resistors))
	}
	h.kept(at, "on", "0", "on", "1", "once", "again")
	if n := len(h.found().Tours[0].Resistors); n != 2 {
		t.Errorf("ticked again: %d on record, want 2", n)
	}
	if strings.Count(h.get(at), "2 of 7 on") != 1 {
		t.Error("the page does not count what is on")
	}
}
