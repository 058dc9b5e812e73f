package web

import "asfound/observation"

type passThroughPage struct {
	Form    *form
	Thing   observation.Thing
	Panel   navItem
	Kept    bool
	Entries []entryView
}

// showPassThrough takes in conductors that enter and leave a panel's cabinet
// without landing.
func showPassThrough(v *visit) error { return passThroughWith(v, v.form()) }

func passThroughWith(v *visit, f *form) error {
	p := v.found.Panel(v.arg("panel"))
	if p == nil {
		return notFound{sayNoThing}
	}
	data := passThroughPage{Form: f, Thing: p.Thing, Panel: v.placeItem(p.Thing), Kept: v.query("kept") != "",
		Entries: v.recorded(p.Thing, observation.PassThrough{}.Kind())}
	return v.renderForm("passthrough", "Pass-through, panel "+p.Name, f, data)
}

// addPassThrough keeps one set of them.
func addPassThrough(v *visit) error {
	f := v.typed()
	body := observation.PassThrough{From: f.Get("from"), To: f.Get("to"), Count: f.count("count", sayPassing),
		Spliced: observation.Known(f.Get("spliced")), Note: f.Get("note")}
	if _, ok := v.record(f, observation.Observation{Subject: v.arg("panel"), Body: body}, nil); !ok {
		return passThroughWith(v, f)
	}
	return v.goTo("passthrough/" + v.args["panel"] + "?kept=yes")
}
