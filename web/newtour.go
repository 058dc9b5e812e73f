package web

import (
	"slices"
	"strings"

	"asfound/installation"
	"asfound/observation"
	"asfound/quantity"
)

type newTourPage struct {
	Form   *form
	Panels []panelChoice
}

type panelChoice struct {
	Thing      observation.Thing
	Name, Dead string
	On         bool
	Busy       []string // other tours' resistors are on here
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
	f.set("panel", v.query("panel")).set("name", v.freeTourName()).
		set("tolerance", "1").set("meter", "0.9").set("meter_ohm", "0.2")
}

func newTourWith(v *visit, f *form) error {
	return v.renderForm("newtour", titleNewTour, f, newTourPage{Form: f, Panels: v.panelChoices(f)})
}

func (v *visit) panelChoices(f *form) []panelChoice {
	var out []panelChoice
	for _, p := range v.found.Panels {
		out = append(out, panelChoice{Thing: p.Thing, Name: p.Name, Dead: v.deadWords(p), On: f.Has("panel", string(p.Thing)),
			Busy: v.busyWords(p.Thing, observation.ID{})})
	}
	return out
}

// busyWords say which other tours have resistors on at a panel.
func (v *visit) busyWords(panel observation.Thing, but observation.ID) []string {
	var out []string
	for _, t := range v.found.Tours {
		on := func(e observation.Event) bool { return e.Body.(observation.Resistor).On.At == panel }
		if t.ID != but && !t.Removed && slices.ContainsFunc(t.Resistors, on) {
			out = append(out, sayBusy(t.Name, v.found.Name(panel)))
		}
	}
	return out
}

// freeTourName is the first of Tour 1, Tour 2 that no tour bears.
func (v *visit) freeTourName() string {
	return "Tour " + firstFree(func(n string) bool { return v.tourNamed("Tour " + n) })
}

// tourNamed reports whether a tour of this name is on record.
func (v *visit) tourNamed(name string) bool {
	return slices.ContainsFunc(v.found.Tours, func(t *installation.Tour) bool { return sameName(t.Name, name) })
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
	r, err := quantity.ParseResistance(f.Get("meter_ohm"))
	if err != nil || r.Open || r.Ohm > 10 {
		f.fault("meter_ohm", sayMeter)
	}
	t.MeterOhm = r.Ohm
	if v.tourNamed(t.Name) {
		f.fault("name", sayTourUsed(t.Name, v.freeTourName()))
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
