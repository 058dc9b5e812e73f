package web

type panelsPage struct{ Panels []panelRow }

type panelRow struct {
	Href, Name, Holds, Dead string
	Tallies                 []tally
}

// showPanels lists the panels of the property.
func showPanels(v *visit) error {
	var data panelsPage
	for _, p := range v.found.Panels {
		row := panelRow{Href: "panel/" + string(p.Thing), Name: p.Name, Dead: v.deadWords(p),
			Holds: counted(p.Spaces, "space") + ", " + counted(len(p.Seen), "space") + " looked at, in " + v.found.Name(p.Building)}
		row.Tallies = tallies(v.linesOn(p.Thing))
		data.Panels = append(data.Panels, row)
	}
	return v.render("panels", titlePanels, data)
}
