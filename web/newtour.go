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
	f.set("panel", v.query("panel")).set("name", "Tour "+strconv.Itoa(len(v.found.Tours)+1)).
		set("tolerance", "1").set("meter", "0.9").set("meter_ohm", "0.2").set("neutral_joined", "yes")
	return newTourWith(v, f)
}

func newTourWith(v *visit, f *form) error {
	data := newTourPage{Form: f}
	for _, p := range v.found.Panels {
		data.Panels = append(data.Panels, panelChoice{Thing: p.Thing, Name: p.Name, Dead: v.deadWords(p), On: f.Has("panel", string(p.Thing))})
	}
	return v.renderForm("newtour", titleNewTour, f, data)
}

// addTour records the tour and goes on to its list of resistors.
func addTour(v *visit) error {
	f := v.typed()
	t := observation.Tour{Name: strings.TrimSpace(f.Get("name")), Means: observation.ByResistor, Tolerance: f.percent("tolerance"),
		MeterRelative: f.percent("meter"), NeutralJoined: observation.Known(f.Get("neutral_joined"))}
	for _, p := range f.values["panel"] {
		if v.found.Panel(observation.Thing(p)) != nil {
			t.Panels = append(t.Panels, observation.Thing(p))
		}
	}
	if len(t.Panels) == 0 {
		f.fault("panel", sayNoPick)
	}
	if r, ok := f.ohm("meter_ohm"); ok {
		t.MeterOhm = r.Ohm
	}
	id, ok := v.record(f, observation.Observation{Body: t}, nil)
	if !ok {
		return newTourWith(v, f)
	}
	return v.goTo("resistors/" + id.String())
}
