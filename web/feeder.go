package web

import (
	"strconv"
	"strings"

	"asfound/installation"
	"asfound/observation"
)

type feederPage struct {
	Form     *form
	Panel    navItem
	Thing    observation.Thing
	Kept     bool
	Mend     observation.Thing
	To, From []feederRow
	Places   []option
	Basis    []option
	Sources  bool
}

// feederRow is a feeder with the entry that says so, where it is withdrawn.
type feederRow struct {
	Entry      entryView
	Mend, From string
}

// showFeeder takes in what feeds a panel, and lists what it feeds.
func showFeeder(v *visit) error { return feederWith(v, v.form()) }

func feederWith(v *visit, f *form) error {
	p := v.found.Panel(v.arg("panel"))
	if p == nil {
		return notFound{sayNoThing}
	}
	data := feederPage{Form: f, Panel: v.placeItem(p.Thing), Thing: p.Thing, Kept: v.query("kept") != "", Places: v.fromOptions(p.Thing),
		Basis: basisOptions(), Sources: len(v.found.Sources) > 0, Mend: observation.Thing(f.Get("mend"))}
	for _, x := range v.found.Feeders {
		row := feederRow{From: v.found.FromName(x.Feeder), Mend: "feeder/" + string(x.To) + "?mend=" + string(x.Thing)}
		for _, e := range x.Story {
			if _, ok := e.Body.(observation.Feeder); ok && e.Live() {
				row.Entry = v.entry(e.Event)
			}
		}
		if x.To == p.Thing {
			data.To = append(data.To, row)
		}
		if x.From == p.Thing {
			data.From = append(data.From, row)
		}
	}
	if x := v.found.Feeder(observation.Thing(v.query("mend"))); x != nil && x.To == p.Thing {
		data.Mend = x.Thing
		fillFeeder(f, x)
	}
	return v.renderForm("feeder", "Feeders, panel "+p.Name, f, data)
}

func fillFeeder(f *form, x *installation.Feeder) {
	f.set("from", string(x.From)).set("how", string(x.How)).set("way", x.Way).set("wires", x.Wires)
	if x.Space > 0 {
		f.set("space", strconv.Itoa(x.Space))
	}
}

// fromOptions are where a feeder to a panel may come from.
func (v *visit) fromOptions(to observation.Thing) []option {
	out := []option{{Say: sayNotKnown}}
	for _, s := range v.found.Sources {
		out = append(out, option{Value: string(s.Thing), Say: "Source " + s.Name})
	}
	for _, p := range v.found.Panels {
		if p.Thing != to {
			out = append(out, option{Value: string(p.Thing), Say: "Panel " + p.Name + ", " + v.found.Name(p.Building)})
		}
	}
	return out
}

// addFeeder keeps a feeder, or one put right.
func addFeeder(v *visit) error {
	f := v.typed()
	o := observation.Observation{Body: observation.Feeder{From: observation.Thing(f.Get("from")), Space: f.count("space", sayFeederSpace), To: v.arg("panel"),
		How: observation.Basis(f.Get("how")), Way: strings.TrimSpace(f.Get("way")), Wires: strings.TrimSpace(f.Get("wires"))}}
	if x := v.found.Feeder(observation.Thing(f.Get("mend"))); x != nil {
		o.Subject, o.Seen = x.Thing, replaces(x.Story, every[observation.Feeder])
	}
	if _, ok := v.record(f, o, nil); !ok {
		return feederWith(v, f)
	}
	return v.goTo("feeder/" + v.args["panel"] + "?kept=yes")
}
