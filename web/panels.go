package web

import (
	"html/template"

	"asfound/drawing"
	"asfound/observation"
	"asfound/paper"
)

type panelsPage struct {
	Panels        []panelRow
	Broad, Narrow template.HTML // the one-line
	Sources       string
}

type panelRow struct {
	Href, Name, Holds, Dead string
	Fed, Feeds, Locks       string
	Tallies                 []tally
}

// showPanels lists the panels of the property, with what feeds what.
func showPanels(v *visit) error {
	var data panelsPage
	for _, p := range v.found.Panels {
		row := panelRow{Href: "panel/" + string(p.Thing), Name: p.Name, Dead: v.deadWords(p),
			Holds: counted(p.Spaces, "space") + ", " + counted(len(p.Seen), "space") + " looked at, in " + v.found.Name(p.Building),
			Fed:   v.fedWords(p), Feeds: v.feedsWords(p.Thing), Locks: lockWords(len(p.Standing()))}
		row.Tallies = tallies(v.linesOn(p.Thing))
		data.Panels = append(data.Panels, row)
	}
	data.Sources = counted(len(v.found.Sources), "source") + " on record"
	data.Broad, data.Narrow = v.oneLine(170), v.oneLine(72)
	return v.render("panels", titlePanels, data)
}

// oneLine draws sources, feeders and panels, so many millimeters wide.
func (v *visit) oneLine(width float64) template.HTML {
	page := drawing.OneLine(v.found.Installation, width, func(t observation.Thing) string { return v.thingHref(t) })
	return template.HTML(paper.SVG(page, paper.SVGOptions{})) // escaped by package paper
}
