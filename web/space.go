package web

import (
	"strconv"
	"strings"

	"asfound/installation"
	"asfound/observation"
	"asfound/quantity"
)

type spacePage struct {
	Form          *form
	Panel         navItem
	Thing         observation.Thing
	Number        int
	Before, After int
	Left          int
	Lines         []statement
	Entries       []entryView
	Kept          string
	State         string // whether the panel is on record as proven dead
	Upper         string // the space of the 2-pole breaker that takes this one too
}

// showSpace takes in what is seen at one space, in the order of the columns.
func showSpace(v *visit) error { return spaceWith(v, v.form()) }

func spaceWith(v *visit, f *form) error {
	p := v.found.Panel(v.arg("panel"))
	if p == nil {
		return notFound{sayNoThing}
	}
	n := atoi(v.args["space"])
	data := spacePage{Form: f, Panel: navItem{Href: "panel/" + string(p.Thing), Name: p.Name}, Thing: p.Thing, Number: n,
		After: v.nextSpace(p, n), Left: p.Spaces - len(p.Seen), Kept: v.query("kept"), State: v.deadWords(p)}
	if upper := p.UpperHalf(n); upper > 0 && p.Seen[n].Poles != 1 {
		data.Upper = strconv.Itoa(upper)
	}
	for i, s := range columnOrder(p.Spaces) {
		if s == n && i > 0 {
			data.Before = columnOrder(p.Spaces)[i-1]
		}
	}
	for _, l := range v.found.Trace.On(p.Thing, n) {
		data.Lines = append(data.Lines, v.statement(l))
	}
	for _, e := range p.Story {
		if s, ok := e.Body.(observation.Space); ok && s.Number == n {
			data.Entries = append(data.Entries, v.entry(e.Event))
		}
	}
	if s, seen := p.Seen[n]; seen {
		fillSpace(f, s)
	}
	return v.renderForm("space", "Panel "+p.Name+", space "+strconv.Itoa(n), f, data)
}

func fillSpace(f *form, s observation.Space) {
	if s.Poles > 0 {
		f.set("poles", strconv.Itoa(s.Poles))
	}
	if s.Amps > 0 {
		f.set("amps", strconv.FormatFloat(float64(s.Amps), 'g', -1, 64))
	}
	f.set("lands", string(s.Lands)).set("label", s.Label).set("cable", s.Cable).set("conductor", s.Wire).set("tied", string(s.Tied))
}

// addSpace keeps one space and goes on to the next that nobody looked at.
func addSpace(v *visit) error {
	f := v.typed()
	p := v.found.Panel(v.arg("panel"))
	if p == nil {
		return notFound{sayNoThing}
	}
	n := atoi(v.args["space"])
	seen := observation.Space{Number: n, Lands: observation.LandsNothing}
	if f.Get("empty") == "" {
		seen = spaceOf(f, n)
	}
	if _, ok := v.record(f, observation.Observation{Subject: p.Thing, Body: seen}, map[string]string{"wire": "conductor"}); !ok {
		return spaceWith(v, f)
	}
	return v.goTo(v.afterSpace(p, n))
}

func (v *visit) afterSpace(p *installation.Panel, n int) string {
	if next := v.nextSpace(p, n); next > 0 {
		return spaceHref(p.Thing, next) + "?kept=" + strconv.Itoa(n)
	}
	return "panel/" + string(p.Thing) + "?kept=1"
}

func spaceOf(f *form, n int) observation.Space {
	s := observation.Space{Number: n, Poles: atoi(f.Get("poles")), Lands: observation.Lands(f.Get("lands")), Label: strings.TrimSpace(f.Get("label")),
		Cable: strings.TrimSpace(f.Get("cable")), Wire: f.Get("conductor"), Tied: observation.Known(f.Get("tied"))}
	text := f.Get("amps")
	if typed := strings.TrimSpace(f.Get("amps_typed")); typed != "" {
		text = typed
	}
	if text != "" {
		amps, err := strconv.ParseFloat(strings.TrimRight(strings.ReplaceAll(text, ",", "."), " Aa"), 64)
		if err != nil {
			f.fault("amps_typed", sayAmps)
		}
		s.Amps = quantity.Amperes(amps)
	}
	return s
}
