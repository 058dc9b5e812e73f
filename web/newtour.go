package web

import (
	"strconv"
	"strings"

	"asfound/observation"
)

type newTourPage struct {
	Form   *form
	Panels []panelChoice
}

type panelChoice struct {
	Thing      observation.Thing
	Name, Dead string
	On         bool
}

// showNewTour sets up a tour: which panels, which resistors, which meter.
func showNewTour(v *visit) error {
	f := v.form()
	v.fillTour(f)
	f.set("neutral_joined", "yes")
	return newTourWith(v, f)
}

// fillTour prefills what a usual bag and meter have.
func (v *visit) fillTour(f *form) {
	f.set("panel", v.query("panel")).set("name", "Tour "+strconv.Itoa(len(v.found.Tours)+1)).
		set("tolerance", "1").set("meter", "0.9").set("meter_ohm", "0.2")
}

func newTourWith(v *visit, f *form) error {
	return v.renderForm("newtour", titleNewTour, f, newTourPage{Form: f, Panels: v.panelChoices(f)})
}

func (v *visit) panelChoices(f *form) []panelChoice {
	var out []panelChoice
	for _, p := range v.found.Panels {
		out = append(out, panelChoice{Thing: p.Thing, Name: p.Name, Dead: v.deadWords(p), On: f.Has("panel", string(p.Thing))})
	}
	return out
}

// tourOf reads a tour from the form that sets it up.
func (v *visit) tourOf(f *form, means observation.Means) observation.Tour {
	t := observation.Tour{Name: strings.TrimSpace(f.Get("name")), Means: means, Tolerance: f.percent("tolerance"),
		MeterRelative: f.percent("meter"), NeutralJoined: observation.Known(f.Get("neutral_joined"))}
	for _, p := range f.values["panel"] {
		if v.found.Panel(observation.Thing(p)) != nil {
			t.Panels = append(t.Panels, observation.Thing(p))
		}
	}
	if r, ok := f.ohm("meter_ohm"); ok {
		t.MeterOhm = r.Ohm
	}
	return t
}

// addTour records the tour and goes on to its list of resistors.
func addTour(v *visit) error {
	f := v.typed()
	t := v.tourOf(f, observation.ByResistor)
	if len(t.Panels) == 0 {
		f.fault("panel", sayNoPick)
	}
	id, ok := v.record(f, observation.Observation{Body: t}, nil)
	if !ok {
		return newTourWith(v, f)
	}
	return v.goTo("resistors/" + id.String())
}
