package web

import (
	"html/template"

	"asfound/count"
	"asfound/drawing"
	"asfound/installation"
	"asfound/observation"
)

type planPage struct {
	Building navItem
	Covered  string
	Floors   []planFloor
	Key      template.HTML
	Doors    []navItem
}

// planFloor is one floor: its plan for a laptop, each room's for a phone, and
// the openings as a list.
type planFloor struct {
	Name     string
	Broad    template.HTML
	Overlaps []string
	Rooms    []planRoom
}

type planRoom struct {
	Href, Name string
	Narrow     template.HTML
	Openings   []planOpening
}

type planOpening struct {
	openingRow
	Where string
}

// showPlan draws a building floor by floor.
func showPlan(v *visit) error {
	b := v.found.Building(v.arg("building"))
	if b == nil {
		return notFound{sayNoThing}
	}
	in := v.found.Installation
	data := planPage{Building: navItem{Href: "building/" + string(b.Thing), Name: b.Name}, Key: svg(drawing.PlanKey()),
		Covered: v.covered(b.Thing),
		Doors:   []navItem{{Href: "differences", Name: doorDifferences}, {Href: "drawings", Name: doorDrawings}}}
	for _, n := range in.Floors(b.Thing) {
		floor := planFloor{Name: drawing.FloorName(in, b.Thing, n), Broad: svg(drawing.FloorPlan(in, v.found.Trace, b.Thing, n, 200, v.thingHref)),
			Overlaps: in.Overlaps(b.Thing, n)}
		for _, r := range in.Floor(b.Thing, n) {
			floor.Rooms = append(floor.Rooms, v.planRoom(r))
		}
		data.Floors = append(data.Floors, floor)
	}
	return v.render("plan", "Plan of building "+b.Name, data)
}

func (v *visit) planRoom(r *installation.Room) planRoom {
	out := planRoom{Href: "room/" + string(r.Thing), Name: r.Name, Narrow: svg(drawing.RoomPlan(v.found.Installation, v.found.Trace, r.Thing, v.thingHref))}
	for _, o := range v.found.In(r.Thing) {
		out.Openings = append(out.Openings, planOpening{v.openingRow(o), drawing.SpotName(o.Spot)})
	}
	return out
}

func (v *visit) openingRow(o *installation.Opening) openingRow {
	return openingRow{Href: "opening/" + string(o.Thing), Number: o.Number, Use: useWord(o.Use),
		Lines: v.statements(v.found.Trace.At(o.Thing)), State: v.openingState(o)}
}

// covered says how far a place was read.
func (v *visit) covered(of observation.Thing) string {
	return count.CoverageOf(v.found.Installation, v.found.Trace, of).Say()
}
