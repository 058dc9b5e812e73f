package web

import (
	"asfound/installation"
	"asfound/observation"
)

type propertyPage struct {
	Form      *form
	Buildings []buildingRow
	Same      *navItem // the building that bears the name typed
	Covered   string
	Tallies   []tally
	Doors     []navItem
}

type buildingRow struct {
	Href, Name, Holds, Covered, Plan string
	Tallies                          []tally
}

// showProperty lists the buildings, with how much is known of each.
func showProperty(v *visit) error { return propertyWith(v, v.form()) }

func propertyWith(v *visit, f *form) error {
	data := propertyPage{Form: f, Same: v.sameBuilding(f.Get("building_name"), "")}
	data.Covered, data.Tallies = v.covered(""), tallies(v.found.Trace.Lines)
	data.Doors = []navItem{{Href: "differences", Name: doorDifferences}, {Href: "drawings", Name: doorDrawings}}
	for _, b := range v.found.Buildings {
		data.Buildings = append(data.Buildings, v.buildingRow(b))
	}
	return v.renderForm("property", titleProperty, f, data)
}

func (v *visit) buildingRow(b *installation.Building) buildingRow {
	rooms, openings, panels := 0, 0, 0
	row := buildingRow{Href: "building/" + string(b.Thing), Name: b.Name}
	for _, r := range v.found.Rooms {
		if r.Building == b.Thing {
			rooms++
			openings += len(v.found.In(r.Thing))
		}
	}
	for _, p := range v.found.Panels {
		if p.Building == b.Thing {
			panels++
		}
	}
	row.Holds = counted(rooms, "room") + ", " + counted(openings, "opening") + ", " + counted(panels, "panel")
	row.Covered, row.Plan = v.covered(b.Thing), "plan/"+string(b.Thing)
	row.Tallies = tallies(v.linesIn(b.Thing))
	return row
}

// addBuilding records a building.
func addBuilding(v *visit) error {
	f := v.typed()
	if same := v.sameBuilding(f.Get("building_name"), ""); same != nil {
		f.fault("building_name", sayNameUsed("building", same.Name))
	}
	id, ok := v.record(f, observation.Observation{Body: observation.Building{Name: f.Get("building_name")}},
		map[string]string{"name": "building_name"})
	if !ok {
		return propertyWith(v, f)
	}
	return v.goTo("building/" + id.String())
}
