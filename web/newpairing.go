package web

import "asfound/observation"

// showNewPairing sets up a tour that pairs cables: which resistors and meter.
func showNewPairing(v *visit) error {
	f := v.form()
	v.fillTour(f)
	return newPairingWith(v, f)
}

func newPairingWith(v *visit, f *form) error {
	return v.renderForm("newpairing", titleNewPairing, f, newTourPage{Form: f, Panels: v.panelChoices(f)})
}

// addPairing records the tour and goes on to its page.
func addPairing(v *visit) error {
	f := v.typed()
	id, ok := v.record(f, observation.Observation{Body: v.tourOf(f, observation.ByPairing)}, nil)
	if !ok {
		return newPairingWith(v, f)
	}
	return v.goTo("tour/" + id.String())
}
