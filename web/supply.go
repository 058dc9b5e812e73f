package web

import (
	"slices"

	"asfound/drawing"
	"asfound/installation"
	"asfound/observation"
)

// supply is the panel or source that a page of locks and power is about.
type supply struct {
	Thing    observation.Thing
	Title    string // "Panel A1"
	Low      string // the same inside a sentence
	Href     string
	Panel    *installation.Panel // nil for a source
	Passing  string              // conductors that may stay live with the panel dead
	State    string              // what is on record of a panel being dead
	IsDead   bool
	Standing []entryView // locks
	Tests    []testView  // newest first
	Told     []entryView // newest first
	safety   *installation.Safety
}

// testView is an absence-of-voltage test, struck where it counts no more.
type testView struct {
	entryView
	Void string // what voids it
}

// supply finds the panel or source that the address names.
func (v *visit) supply() (supply, error) {
	t := v.arg("at")
	safety := v.found.SafetyOf(t)
	if safety == nil {
		return supply{}, notFound{sayNoThing}
	}
	out := supply{Thing: t, Title: placeTitle(v.found.Installation, t), Low: v.lowTitle(t), Href: v.thingHref(t), Panel: v.found.Panel(t), safety: safety}
	for _, e := range safety.Standing() {
		out.Standing = append(out.Standing, v.entry(e))
	}
	for _, e := range slices.Backward(safety.Told) {
		out.Told = append(out.Told, v.entry(e))
	}
	if p := out.Panel; p != nil {
		out.Passing, out.State, out.Tests = drawing.Passing(p), v.deadWords(p), v.tests(p)
		_, out.IsDead = v.found.DeadSince(p)
	}
	return out, nil
}

// tests are the absence-of-voltage tests of a panel, newest first.
func (v *visit) tests(p *installation.Panel) []testView {
	var out []testView
	for _, t := range slices.Backward(v.found.Tests(p)) {
		view := testView{entryView: v.entry(t.Test)}
		if t.By != nil {
			view.Void = v.voidWords(*t.By)
		}
		out = append(out, view)
	}
	return out
}

// when is when something was done, typed as a time of day; an empty field is
// now.
func (v *visit) when(f *form) observation.Observation {
	return observation.Observation{Taken: f.moment("date", "clock", v.ask.Now), Subject: v.arg("at")}
}
