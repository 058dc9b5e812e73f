package web

import (
	"strings"

	"asfound/installation"
	"asfound/observation"
)

type coiledPage struct {
	Form      *form
	Thing     observation.Thing
	Panel     navItem
	Kept      string
	Mend      string
	SameCable *navItem
	Sets      []option
	Tags      []string
	Entries   []entryView
}

// showCoiled takes in a cable that lies coiled in a panel and is landed nowhere.
// A tour of the panel gives its hot a resistor too.
func showCoiled(v *visit) error { return coiledWith(v, v.form()) }

func coiledWith(v *visit, f *form) error {
	p := v.found.Panel(v.arg("panel"))
	if p == nil {
		return notFound{sayNoThing}
	}
	data := coiledPage{Form: f, Thing: p.Thing, Panel: v.placeItem(p.Thing), Kept: v.query("kept"),
		Sets: usualConductors, Entries: v.recorded(p.Thing, observation.CableEnd{}.Kind())}
	for _, c := range p.Cables {
		data.Tags = append(data.Tags, c.Tag)
	}
	data.Mend, data.SameCable = v.mendsCable(f, p.Cables, "coiled/"+string(p.Thing))
	if data.Mend == "" {
		f.set("tag", nextCable(p.Cables)).set("conductors", usualConductors[0].Value)
	}
	return v.renderForm("coiled", "Coiled cables, panel "+p.Name, f, data)
}

// addCoiled keeps it with every conductor coiled.
func addCoiled(v *visit) error {
	f := v.typed()
	p := v.found.Panel(v.arg("panel"))
	if p == nil {
		return notFound{sayNoThing}
	}
	conductors := conductorsOf(f)
	for i := range conductors {
		conductors[i].State = observation.Coiled
	}
	if len(conductors) == 0 {
		f.fault("conductors", sayConductorsCoiled)
	}
	if !v.keepCable(f, p.Thing, p.Cables, conductors) {
		return coiledWith(v, f)
	}
	return v.goTo("coiled/" + string(p.Thing) + "?kept=" + queryEscape(strings.TrimSpace(f.Get("tag"))))
}

// cablesIn are the words of the cables in a panel that land on no space.
func cablesIn(p *installation.Panel) []string {
	var out []string
	for _, c := range p.Cables {
		out = append(out, strings.Join(nonEmpty("Cable "+c.Tag+": "+conductorWords(c), markWords(c.Mark)), ", "))
	}
	return out
}
