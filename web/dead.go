package web

import (
	"asfound/drawing"
	"asfound/installation"
	"asfound/observation"
)

type deadPage struct {
	Form    *form
	Panel   navItem
	Thing   observation.Thing
	State   string
	IsDead  bool
	Locks   []entryView
	Tests   []testView
	Kept    bool
	Found   bool   // the latest test found voltage
	Passing string // conductors that may stay live with the panel dead
}

// showDead takes in an absence-of-voltage test by its three answers.
func showDead(v *visit) error { return deadWith(v, v.form()) }

func deadWith(v *visit, f *form) error {
	if o := v.found.Opening(v.arg("panel")); o != nil {
		return deadHereWith(v, f, o)
	}
	p := v.found.Panel(v.arg("panel"))
	if p == nil {
		return notFound{sayNoThing}
	}
	data := deadPage{Form: f, Panel: navItem{Href: "panel/" + string(p.Thing), Name: p.Name}, Passing: drawing.Passing(p), Thing: p.Thing,
		State: v.deadWords(p), Kept: v.query("kept") != ""}
	_, data.IsDead = v.found.DeadSince(p)
	for _, e := range p.Standing() {
		data.Locks = append(data.Locks, v.entry(e))
	}
	for _, e := range p.Dead {
		data.Found = e.Body.(observation.ProvenDead).Absent == observation.No
	}
	data.Tests = v.tests(p)
	return v.renderForm("dead", "Absence-of-voltage test, panel "+p.Name, f, data)
}

type deadHerePage struct {
	Form    *form
	Opening navItem
	Thing   observation.Thing
	Number  string
	Tests   []entryView
	Kept    bool
	Found   bool // the latest test found voltage
}

// deadHereWith takes in an absence-of-voltage test at an opening.
func deadHereWith(v *visit, f *form, o *installation.Opening) error {
	data := deadHerePage{Form: f, Opening: v.placeItem(o.Thing), Thing: o.Thing, Number: o.Number, Kept: v.query("kept") != "",
		Tests: v.recorded(o.Thing, observation.ProvenDead{}.Kind())}
	for _, e := range o.Story {
		if b, ok := e.Body.(observation.ProvenDead); ok && e.Live() {
			data.Found = b.Absent == observation.No
		}
	}
	return v.renderForm("deadhere", "Absence-of-voltage test, "+o.Number, f, data)
}

// addDead keeps the test, whatever it showed.
func addDead(v *visit) error {
	f := v.typed()
	body := observation.ProvenDead{Before: observation.Known(f.Get("before")), Absent: observation.Known(f.Get("absent")),
		After: observation.Known(f.Get("after")), Tester: f.Get("tester"), Spaces: f.spaces("spaces")}
	if body.Before == "" && body.Absent == "" && body.After == "" {
		f.fault("absent", sayNothingShown)
	}
	taken := f.moment("date", "clock", v.ask.Now)
	if _, ok := v.record(f, observation.Observation{Taken: taken, Subject: v.arg("panel"), Body: body}, map[string]string{"taken": "clock"}); !ok {
		return deadWith(v, f)
	}
	return v.goTo("dead/" + v.args["panel"] + "?kept=1")
}
