package web

import (
	"strconv"
	"strings"

	"asfound/installation"
	"asfound/observation"
	"asfound/quantity"
)

// Putting right what is on record of a building, room, opening or panel: a later
// record of the same thing that names those it replaces as seen. They stay in
// the story, and the name follows wherever it is printed.

// replaces lists the live records of one kind in a story that a new one stands
// in the place of.
func replaces[B observation.Body](story installation.Story, same func(B) bool) []observation.ID {
	var out []observation.ID
	for _, e := range story {
		if b, ok := e.Body.(B); ok && e.Live() && same(b) {
			out = append(out, e.ID)
		}
	}
	return out
}

// every is that all records of a kind are replaced.
func every[B observation.Body](B) bool { return true }

// mended renames fields of an observation to those of a form that puts right.
func mended(names ...string) map[string]string {
	out := map[string]string{}
	for _, n := range names {
		out[n] = "mend_" + n
	}
	return out
}

// mendBuilding records the building again under its right name.
func mendBuilding(v *visit) error {
	f := v.typed()
	b := v.found.Building(v.arg("building"))
	if b == nil {
		return notFound{sayNoThing}
	}
	body := observation.Building{Name: strings.TrimSpace(f.Get("mend_name"))}
	if same := v.sameBuilding(body.Name, b.Thing); same != nil {
		f.fault("mend_name", sayNameUsed("building", same.Name))
	}
	o := observation.Observation{Subject: b.Thing, Seen: replaces(b.Story, every[observation.Building]), Body: body}
	if _, ok := v.record(f, o, mended("name")); !ok {
		return buildingWith(v, f)
	}
	return v.goTo("building/" + v.args["building"] + "?kept=yes")
}

// mendRoom records the room again: name, floor, place on the walk, building.
func mendRoom(v *visit) error {
	f := v.typed()
	r := v.found.Room(v.arg("room"))
	if r == nil {
		return notFound{sayNoThing}
	}
	body := observation.Room{Building: observation.Thing(f.Get("mend_building")), Name: strings.TrimSpace(f.Get("mend_name")),
		Floor: f.count("mend_floor", sayFloor), Order: f.count("mend_order", sayOrder)}
	if same := v.sameRoom(body.Name, body.Building, r.Thing); same != nil {
		f.fault("mend_name", sayNameUsed("room", same.Name))
	}
	o := observation.Observation{Subject: r.Thing, Seen: replaces(r.Story, every[observation.Room]), Body: body}
	if _, ok := v.record(f, o, mended("name", "floor", "order", "building")); !ok {
		return roomWith(v, f)
	}
	return v.goTo("room/" + v.args["room"] + "?mended=yes")
}

// fillRoom prefills what puts a room right.
func fillRoom(f *form, r *installation.Room) {
	f.set("mend_name", r.Name).set("mend_floor", strconv.Itoa(r.Floor)).set("mend_order", strconv.Itoa(r.Order)).
		set("mend_building", string(r.Building))
}

// mendPanel records the panel again. It keeps at least the spaces that somebody
// looked at.
func mendPanel(v *visit) error {
	f := v.typed()
	p := v.found.Panel(v.arg("panel"))
	if p == nil {
		return notFound{sayNoThing}
	}
	body := observation.Panel{Building: observation.Thing(f.Get("mend_building")), Room: observation.Thing(f.Get("mend_room")),
		Name: strings.TrimSpace(f.Get("mend_name")), Spaces: f.count("mend_spaces", saySpaces), FedFrom: f.Get("mend_fed_from"), Note: f.Get("mend_note")}
	for n := range p.Seen {
		if n > body.Spaces && body.Spaces > 0 {
			f.fault("mend_spaces", sayHeldSpaces)
		}
	}
	o := observation.Observation{Subject: p.Thing, Seen: replaces(p.Story, every[observation.Panel]), Body: body}
	if _, ok := v.record(f, o, mended("name", "spaces", "building", "room", "fed_from", "note")); !ok {
		return panelWith(v, f)
	}
	return v.goTo("panel/" + v.args["panel"] + "?kept=yes")
}

// fillPanel prefills what puts a panel right.
func fillPanel(f *form, p *installation.Panel) {
	f.set("mend_name", p.Name).set("mend_spaces", strconv.Itoa(p.Spaces)).set("mend_fed_from", p.FedFrom).
		set("mend_note", p.Note).set("mend_building", string(p.Building)).set("mend_room", string(p.Room))
}

// mendOpening records the opening again, in place of what was on record.
func mendOpening(v *visit) error {
	f := v.typed()
	o := v.found.Opening(v.arg("opening"))
	if o == nil {
		return notFound{sayNoThing}
	}
	next := openingOf(f)
	next.Room, next.Order, next.Height, next.Depth = o.Room, o.Order, o.Height, o.Depth
	if room := f.Get("room"); room != "" {
		next.Room = observation.Thing(room)
	}
	for name, size := range map[string]*quantity.Inches{"height": &next.Height, "depth": &next.Depth} {
		if _, shown := f.values[name]; shown {
			*size = f.inches(name)
		}
	}
	if strings.TrimSpace(f.Get("order")) != "" {
		next.Order = f.count("order", sayOrder)
	}
	if !strings.EqualFold(next.Number, o.Number) {
		v.freeNumber(f, next.Number)
	}
	seen := replaces(o.Story, every[observation.Opening])
	if _, ok := v.record(f, observation.Observation{Subject: o.Thing, Seen: seen, Body: next}, nil); !ok {
		return openingWith(v, f)
	}
	return v.goTo("opening/" + v.args["opening"] + "?kept=1")
}

// buildingOptions are the buildings to choose from.
func (v *visit) buildingOptions() []option {
	var out []option
	for _, b := range v.found.Buildings {
		out = append(out, option{Value: string(b.Thing), Say: b.Name})
	}
	return out
}

// roomOptions are the rooms to choose from, in walking order; with a building,
// those of it alone.
func (v *visit) roomOptions(building observation.Thing) []option {
	var out []option
	for _, r := range v.found.Rooms {
		if building == "" {
			out = append(out, option{Value: string(r.Thing), Say: v.found.Name(r.Building) + ", " + r.Name})
		} else if r.Building == building {
			out = append(out, option{Value: string(r.Thing), Say: r.Name})
		}
	}
	return out
}

// firstFree counts from 1 up to the first number that is not taken.
func firstFree(taken func(string) bool) string {
	for n := 1; ; n++ {
		if text := strconv.Itoa(n); !taken(text) {
			return text
		}
	}
}

// sameBuilding is the building, other than this one, that bears a name.
func (v *visit) sameBuilding(name string, but observation.Thing) *navItem {
	for _, b := range v.found.Buildings {
		if b.Thing != but && sameName(b.Name, name) {
			return &navItem{Href: "building/" + string(b.Thing), Name: b.Name}
		}
	}
	return nil
}

// sameRoom is the room of a building, other than this one, that bears a name.
func (v *visit) sameRoom(name string, building, but observation.Thing) *navItem {
	for _, r := range v.found.Rooms {
		if r.Building == building && r.Thing != but && sameName(r.Name, name) {
			return &navItem{Href: "room/" + string(r.Thing), Name: r.Name}
		}
	}
	return nil
}

// sameName reports whether people would call two things alike.
func sameName(a, b string) bool {
	return strings.EqualFold(strings.Join(strings.Fields(a), " "), strings.Join(strings.Fields(b), " "))
}
