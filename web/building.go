package web

import (
	"strconv"
	"strings"

	"asfound/installation"
	"asfound/observation"
	"asfound/trace"
)

type buildingPage struct {
	Form   *form
	Thing  observation.Thing
	Name   string
	Rooms  []roomRow
	Panels []navItem
	Kept   bool
	Same   *navItem // the room that bears the name typed
	Doors  []navItem
}

type roomRow struct {
	Href, Name, Holds, Floor, Covered string
	Tallies                           []tally
}

// showBuilding lists a building's rooms in walking order and its panels.
func showBuilding(v *visit) error { return buildingWith(v, v.form()) }

func buildingWith(v *visit, f *form) error {
	b := v.found.Building(v.arg("building"))
	if b == nil {
		return notFound{sayNoThing}
	}
	data := buildingPage{Form: f, Thing: b.Thing, Name: b.Name, Kept: v.query("kept") != "",
		Same: v.sameRoom(f.Get("room_name"), b.Thing, "")}
	data.Doors = []navItem{{Href: "plan/" + string(b.Thing), Name: doorPlan}, {Href: "differences?building=" + string(b.Thing), Name: doorDifferences}}
	last := "0"
	for _, r := range v.found.Rooms {
		if r.Building != b.Thing {
			continue
		}
		last = strconv.Itoa(r.Floor)
		data.Rooms = append(data.Rooms, roomRow{Href: "room/" + string(r.Thing), Name: r.Name, Floor: last,
			Holds: counted(len(v.found.In(r.Thing)), "opening"), Covered: v.covered(r.Thing), Tallies: tallies(v.linesInRoom(r.Thing))})
	}
	for _, p := range v.found.Panels {
		if p.Building == b.Thing {
			data.Panels = append(data.Panels, navItem{Href: "panel/" + string(p.Thing), Name: p.Name})
		}
	}
	f.set("floor", last).set("mend_name", b.Name)
	return v.renderForm("building", b.Name, f, data)
}

// linesIn are the lines of the openings of a building.
func (v *visit) linesIn(building observation.Thing) []*trace.Line {
	var out []*trace.Line
	for _, l := range v.found.Trace.Lines {
		if b := v.found.BuildingOf(l.End.At); b != nil && b.Thing == building {
			out = append(out, l)
		}
	}
	return out
}

func (v *visit) linesInRoom(room observation.Thing) []*trace.Line {
	var out []*trace.Line
	for _, l := range v.found.Trace.Lines {
		if o := v.found.Opening(l.End.At); o != nil && o.Room == room {
			out = append(out, l)
		}
	}
	return out
}

// addRoom records a room at the end of the walk through the building.
func addRoom(v *visit) error {
	f := v.typed()
	building := v.arg("building")
	order := 1
	for _, r := range v.found.Rooms {
		if r.Building == building {
			order = max(order, r.Order+1)
		}
	}
	room := observation.Room{Building: building, Name: strings.TrimSpace(f.Get("room_name")), Floor: f.count("floor", sayFloor), Order: order}
	if same := v.sameRoom(room.Name, building, ""); same != nil {
		f.fault("room_name", sayNameUsed("room", same.Name))
	}
	id, ok := v.record(f, observation.Observation{Body: room}, map[string]string{"name": "room_name"})
	if !ok {
		return buildingWith(v, f)
	}
	return v.goTo("room/" + id.String())
}

// addPanel records a panel of the building.
func addPanel(v *visit) error {
	f := v.typed()
	panel := observation.Panel{Building: v.arg("building"), Name: strings.TrimSpace(f.Get("panel_name")),
		Spaces: f.count("spaces", saySpaces), FedFrom: f.Get("fed_from"), Room: observation.Thing(f.Get("panel_room"))}
	id, ok := v.record(f, observation.Observation{Body: panel}, map[string]string{"name": "panel_name"})
	if !ok {
		return buildingWith(v, f)
	}
	return v.goTo("panel/" + id.String() + "/space/1")
}

// nextNumber is the next free opening number of a room: the last one of the
// room counted up, or its building's letter, the room's place and 01.
func nextNumber(in *installation.Installation, room *installation.Room) string {
	openings := in.In(room.Thing)
	stem, figures := roomStem(in, room)+"-", "00"
	if len(openings) > 0 {
		stem, figures = cutFigures(openings[len(openings)-1].Number)
	}
	n, _ := strconv.Atoi(figures)
	for {
		n++
		number := stem + strings.Repeat("0", max(0, len(figures)-len(strconv.Itoa(n)))) + strconv.Itoa(n)
		if len(in.Numbered(number)) == 0 {
			return number
		}
	}
}

// roomStem is how the numbers of a room begin: "A02", from the room's own name
// when it starts so.
func roomStem(in *installation.Installation, room *installation.Room) string {
	first, _, _ := strings.Cut(room.Name, " ")
	if stem, figures := cutFigures(first); figures != "" && len(stem) <= 2 {
		return first
	}
	letter := []rune(strings.ToUpper(in.Name(room.Building)))
	order := strconv.Itoa(room.Order)
	return string(letter[:min(1, len(letter))]) + strings.Repeat("0", max(0, 2-len(order))) + order
}

// cutFigures splits a number into its front and its last figures.
func cutFigures(number string) (stem, figures string) {
	end := len(strings.TrimRight(number, "0123456789"))
	return number[:end], number[end:]
}
