package web

import (
	"net/url"
	"strconv"
	"strings"

	"asfound/count"
	"asfound/installation"
	"asfound/observation"
)

type drawingsPage struct {
	Form  *form
	Kept  string
	Rooms []option
	Drawn []drawnRoom
	Doors []navItem
}

// drawnRoom is what the drawings show in one room.
type drawnRoom struct {
	Name, Holds string
	Entries     []entryView
}

// showDrawings takes in what a drawing shows, several openings at once.
func showDrawings(v *visit) error { return drawingsWith(v, v.form()) }

func drawingsWith(v *visit, f *form) error {
	data := drawingsPage{Form: f, Rooms: append([]option{{Say: "Choose a room"}}, v.roomOptions("")...),
		Doors: []navItem{{Href: "differences", Name: doorDifferences}, {Href: "property", Name: titleProperty}}}
	if n := atoi(v.query("kept")); n > 0 {
		data.Kept = sayDrawnKept(n, v.found.Name(observation.Thing(v.query("room"))))
	}
	f.set("room", v.query("room")).set("sheet", v.query("sheet"))
	for _, r := range v.found.Rooms {
		if room := v.drawnRoom(r); len(room.Entries) > 0 {
			data.Drawn = append(data.Drawn, room)
		}
	}
	return v.renderForm("drawings", titleDrawings, f, data)
}

func (v *visit) drawnRoom(r *installation.Room) drawnRoom {
	out := drawnRoom{Name: v.found.Name(r.Building) + ", " + r.Name}
	byUse := map[observation.OpeningUse]int{}
	for _, d := range v.found.Drawn {
		if d.Room == r.Thing {
			byUse[d.Use]++
			out.Entries = append(out.Entries, v.entry(drawnEntry(d)))
		}
	}
	var parts []string
	for _, use := range observation.OpeningUses {
		if byUse[use] > 0 {
			parts = append(parts, count.UseName(use, byUse[use]))
		}
	}
	out.Holds = strings.Join(parts, ", ")
	return out
}

// drawnEntry is the entry that says what is drawn, as it counts now.
func drawnEntry(d *installation.Drawn) observation.Event {
	var out observation.Event
	for _, e := range d.Story {
		if _, ok := e.Body.(observation.Drawn); ok && e.Live() {
			out = e.Event
		}
	}
	return out
}

// addDrawings records as many drawn openings as the form says.
func addDrawings(v *visit) error {
	f := v.typed()
	room := observation.Thing(f.Get("room"))
	if room == "" {
		f.fault("room", sayRoomFirst)
	}
	marks := strings.FieldsFunc(f.Get("marks"), func(r rune) bool { return strings.ContainsRune(",; \t\n", r) })
	many := f.howMany(len(marks))
	for i := range many {
		body := observation.Drawn{Room: room, Use: observation.OpeningUse(f.Get("use")), What: strings.TrimSpace(f.Get("what")), Sheet: strings.TrimSpace(f.Get("sheet"))}
		if i < len(marks) {
			body.Mark = marks[i]
		}
		if _, ok := v.record(f, observation.Observation{Body: body}, nil); !ok {
			f.keptSome(i, many, marks)
			return drawingsWith(v, f)
		}
	}
	if f.Bad() {
		return drawingsWith(v, f)
	}
	return v.goTo("drawings?kept=" + strconv.Itoa(many) + "&room=" + string(room) + "&sheet=" + url.QueryEscape(f.Get("sheet")))
}

// howMany is the number of openings: as typed, else one for each mark, else one.
func (f *form) howMany(marks int) int {
	const most = 100
	many := f.count("how_many", sayHowMany)
	if many == 0 && strings.TrimSpace(f.Get("how_many")) == "" {
		many = max(1, marks)
	}
	switch {
	case many < 1 || many > most:
		f.fault("how_many", sayHowMany)
	case marks > many:
		f.fault("marks", sayMoreMarks)
	}
	return many
}

// keptSome makes the form ask for the rest of what could not be kept whole.
func (f *form) keptSome(kept, of int, marks []string) {
	if kept == 0 {
		return
	}
	f.values["how_many"] = []string{strconv.Itoa(of - kept)}
	f.values["marks"] = []string{strings.Join(marks[min(kept, len(marks)):], ", ")}
	f.Failed += " " + sayKeptSome(kept, of)
}
