package web

import (
	"slices"
	"strings"

	"asfound/installation"
	"asfound/observation"
)

type energizePage struct {
	Form    *form
	At      supply
	Spaces  string // of which what follows is told; empty is the whole
	Stop    string
	Unled   bool   // what it feeds is not on record
	Unfed   string // panels of which it is not known what feeds them
	Reached []navItem
	Voids   []testView
	Kept    bool
	Found   bool       // what was kept is power that was found on
	Now     []testView // counts no more since what was kept
	Danger  bool
	Shown   string // the effect that the page tells
}

// showEnergize says what power would do before it is put on, and what counts no
// more afterwards.
func showEnergize(v *visit) error {
	f := v.form()
	if s := v.query("spaces"); s != "" {
		f.set("spaces", s)
	}
	return energizeWith(v, f)
}

func energizeWith(v *visit, f *form) error {
	at, err := v.supply()
	if err != nil {
		return err
	}
	data := energizePage{Form: f, At: at, Spaces: strings.TrimSpace(f.Get("spaces")), Kept: v.query("kept") != ""}
	effect := v.found.Energizing(at.Thing, f.spaces("spaces"))
	data.Stop, data.Unled, data.Unfed, data.Shown = v.stopWords(effect), effect.Unled, panelNames(effect.Unfed), shownFor(effect)
	for _, p := range effect.Reached {
		data.Reached = append(data.Reached, v.placeItem(p.Thing))
	}
	for _, t := range effect.Voided {
		data.Voids = append(data.Voids, testView{entryView: v.entry(t.Test)})
	}
	if data.Kept {
		v.fillVoided(&data, at)
	}
	return v.renderForm("energize", "Put power on, "+at.Low, f, data)
}

// fillVoided says what counts no more since the latest power put on here.
func (v *visit) fillVoided(data *energizePage, at supply) {
	if len(at.safety.Energized) == 0 {
		return
	}
	last := at.safety.Energized[len(at.safety.Energized)-1]
	body := last.Body.(observation.Energized)
	data.Found = body.Found
	effect := v.found.Energizing(at.Thing, body.Spaces)
	data.Danger, data.Stop = effect.Stops(), v.stopWords(effect)
	for _, p := range effect.Reached {
		for _, t := range v.found.Tests(p) {
			if t.By != nil && t.Test.Body.(observation.ProvenDead).Holds() && !t.Test.Follows(last) {
				data.Now = append(data.Now, testView{entryView: v.entry(t.Test), Void: v.voidWords(*t.By)})
			}
		}
	}
}

// addEnergize keeps power put on, once it was seen what it does and nothing
// speaks against it; power that was found on is kept whatever it does.
func addEnergize(v *visit) error {
	f := v.typed()
	at, err := v.supply()
	if err != nil {
		return err
	}
	spaces, found := f.spaces("spaces"), f.Get("found") == "yes"
	effect := v.found.Energizing(at.Thing, spaces)
	switch {
	case len(f.faults) > 0 || found:
	case effect.Stops():
		f.fault("spaces", sayNotOnNow)
	case shownFor(effect) != f.Get("shown"):
		f.fault("spaces", sayLookFirst)
	}
	o := v.when(f)
	o.Body = observation.Energized{Spaces: spaces, Why: strings.TrimSpace(f.Get("why")), Told: strings.TrimSpace(f.Get("told")), Found: found}
	if _, ok := v.record(f, o, map[string]string{"taken": "clock"}); !ok {
		return energizeWith(v, f)
	}
	return v.goTo("energize/" + v.args["at"] + "?kept=yes")
}

// shownFor names what a page says that power would do, as its form sends it back.
func shownFor(e installation.Effect) string {
	var out []string
	for _, p := range e.Reached {
		out = append(out, string(p.Thing))
	}
	for _, t := range e.Voided {
		out = append(out, t.Test.ID.String())
	}
	slices.Sort(out)
	return strings.Join(out, " ")
}

// panelNames names panels: "A1, A2".
func panelNames(panels []*installation.Panel) string {
	var out []string
	for _, p := range panels {
		out = append(out, p.Name)
	}
	return strings.Join(out, ", ")
}
