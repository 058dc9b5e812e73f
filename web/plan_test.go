package web

import (
	"strings"
	"testing"

	"asfound/observation"
)

// measuredHouse is a traced house with its first room measured, an opening placed, and
// a drawing on record.
func measuredHouse(t *testing.T) *house {
	h := traced(t)
	h.measure()
	return h
}

func (h *house) measure() {
	room, opening := "/room/"+string(h.room), "/opening/"+string(h.opening["A02-01"])
	h.kept(room+"/size", "width", "20", "room_depth", `12' 6"`, "ceiling", "108 in", "right", "-2 ft", "back", "0", "spaced", "yes")
	h.kept(room+"/doorway", "wall", "front", "from", "3 ft", "to", "6'")
	h.kept(room+"/doorway", "wall", "back", "from", "3", "to", "8", "what", "fireplace")
	h.kept(opening+"/spot", "wall", "left", "along", "4' 3\"")
	h.kept("/drawings", "room", string(h.room), "use", "receptacle", "how_many", "6", "marks", "A02-01", "sheet", "E2")
	h.kept("/drawings", "room", string(h.study), "use", "lighting", "what", "desk lamp")
}

func TestMeasures(t *testing.T) {
	h := measuredHouse(t)
	r := h.found().Room(h.room)
	want := observation.RoomSize{Width: 240, Depth: 150, Ceiling: 108, Corner: &observation.Corner{Right: -24}, Spaced: observation.Yes}
	if s := *r.Size; s.Width != want.Width || s.Depth != want.Depth || s.Ceiling != want.Ceiling || *s.Corner != *want.Corner || s.Spaced != want.Spaced {
		t.Errorf("kept %+v", s)
	}
	wants(t, h.get("/room/"+string(h.room)), "20 ft by 12 ft 6 in", `value="12 ft 6 in"`, `value="-2 ft"`, "fireplace from 3 ft to 8 ft")
	wants(t, h.get("/opening/"+string(h.opening["A02-01"])), "Where it is in the room: left wall, 4 ft 3 in from its left end", `value="4 ft 3 in"`)
	h.kept("/opening/"+string(h.opening["A02-01"])+"/spot", "wall", "ceiling", "along", "10", "out", "6")
	if s := h.found().Opening(h.opening["A02-01"]).Spot; s.Along != 120 || s.Out != 72 {
		t.Errorf("kept %+v", s)
	}
}

func TestMeasuresRefused(t *testing.T) {
	h := measuredHouse(t)
	room, opening := "/room/"+string(h.room), "/opening/"+string(h.opening["A02-01"])
	for _, c := range []struct {
		name, path, say string
		pairs           []string
	}{
		{"no size", room + "/size", "Type at least one size.", nil},
		{"a width in words", room + "/size", `Start with a number: "wide" has none at the front.`, []string{"width", "wide"}},
		{"a width below zero", room + "/size", "Type the length without a minus sign.", []string{"width", "-3 ft"}},
		{"half a corner", room + "/size", "Type both: how far right and how far back the corner is. 0 is a measure too.", []string{"width", "12", "right", "3"}},
		{"a doorway without ends", room + "/doorway", "Type where it begins and where it ends, as 3 ft and 6 ft.", []string{"wall", "front", "from", "3"}},
		{"a doorway longer than the wall", room + "/doorway", "Check the measure, or put the room's size right first: the left wall is 12 ft 6 in long on record, and the doorway ends at 13 ft.", []string{"wall", "left", "from", "0", "to", "13"}},
		{"a doorway that ends before it begins", room + "/doorway", "It ends before it begins. Measure both from the left end of the wall, facing it.", []string{"wall", "left", "from", "6", "to", "3"}},
		{"a place beyond the wall's end", opening + "/spot", "Check the measure, or put the room's size right first: the front wall is 20 ft long on record, and the place is 90 ft along it.", []string{"wall", "front", "along", "90"}},
		{"a place without a wall", opening + "/spot", "Choose the wall it is in, or ceiling or floor.", []string{"along", "7"}},
		{"a place without a distance", opening + "/spot", "Type how far it is along the wall, as 7 ft, 7' 6\" or 90 in.", []string{"wall", "front"}},
		{"a drawing without a room", "/drawings", "Say in which room the drawing shows them. Record the room first if it is not listed.", []string{"use", "switch", "how_many", "2"}},
		{"a drawing of none", "/drawings", "Type how many as a number from 1 to 100.", []string{"room", string(h.room), "how_many", "0"}},
		{"a drawing of too many", "/drawings", "Type how many as a number from 1 to 100.", []string{"room", string(h.room), "how_many", "101"}},
		{"more marks than openings", "/drawings", "There are more marks than openings. Check the number, or leave a mark out.", []string{"room", string(h.room), "how_many", "1", "marks", "1, 2"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			h.t = t
			page := h.refused(c.path, c.say, c.pairs...)
			for i := 1; i < len(c.pairs); i += 2 {
				if !strings.Contains(page, `value="`+c.pairs[i]+`"`) {
					t.Errorf("%q is lost", c.pairs[i])
				}
			}
		})
	}
}

func TestPlanPage(t *testing.T) {
	h := measuredHouse(t)
	wants(t, h.get("/plan/"+string(h.building)), "Plan of building A", "4 of 7 openings read, 1 not reached, 2 not visited", "A, main floor", "Front of A", "A03 Study", "not measured", "A02-01 receptacle, left wall, 4 ft 3 in")
	wants(t, h.get("/property"), "4 of 7 openings read, 1 not reached", "Plan of A")
	h.record(observation.Observation{Subject: h.study, Body: observation.RoomSize{Width: 120, Depth: 120, Corner: &observation.Corner{Right: 200}}})
	wants(t, h.get("/plan/"+string(h.building)), "A02 Great room and A03 Study overlap by 1 ft 4 in by 10 ft: one of their measures is wrong.")
}

func TestDifferences(t *testing.T) {
	h := measuredHouse(t)
	page := h.get("/differences")
	wants(t, page, "7 drawn: 1 paired with an opening, 1 not found, 5 counted by room and use. 3 found and on no drawing.",
		"lighting, desk lamp in A03 Study : not looked yet", "A02 Great room: 5 receptacles drawn, 3 found: 2 not found, and which is not known.",
		"Not said whether the rule applies here: 1 room", "National Electrical Code (2017, 2020, 2023), 210.52(A)", "the authority having jurisdiction decides",
		"where A02-02 is along the walls was not measured")
	for _, never := range []string{"compliant", "complies", "safe"} {
		if strings.Contains(text([]byte(page)), never) {
			t.Errorf("the page says %q", never)
		}
	}
	var lamp, plug *observation.Thing
	for _, d := range h.found().Drawn {
		switch {
		case d.Room == h.study:
			lamp = &d.Thing
		case d.Mark == "":
			plug = &d.Thing
		}
	}
	at := "/differences/" + string(*lamp)
	h.refused(at, "Say what shows it: what was looked at, and what was seen.", "is", "neverroughed")
	h.refused(at, "Say which opening it is.", "is", "found")
	wants(t, h.refused(at, "No opening has that number. Check the number on the tape, or record the opening first.", "is", "found", "as_number", "Z9"), `value="Z9"`)
	h.kept(at, "is", "neverroughed", "how", "insulation seen, no box")
	wants(t, h.get("/differences?kept=yes"), "never roughed, “insulation seen, no box”")
	h.kept(at, "is", "covered", "how", "tone heard behind the board")
	wants(t, h.get("/differences"), "desk lamp in A03 Study : covered, “tone heard behind the board”")
	h.kept("/differences/"+string(*plug), "is", "found", "as_number", "a02-02")
	wants(t, h.get("/differences?building="+string(h.building)), "4 receptacles drawn, 2 found", "Paired with an opening: 2", "as said")
}

// What a full disk leaves of several records is asked for again, and no mark is
// kept twice.
func TestDrawingsOnAFullDisk(t *testing.T) {
	h := built(t)
	h.store.full = true
	h.refused("/drawings", sayFull, "room", string(h.room), "use", "receptacle", "how_many", "3", "marks", "1,2")
	h.store.full = false
	h.kept("/drawings", "room", string(h.room), "use", "receptacle", "how_many", "3", "marks", "1,2")
	if n := len(h.found().Drawn); n != 3 {
		t.Errorf("%d drawn are kept, want 3", n)
	}
}
