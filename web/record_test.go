package web

import (
	"strings"
	"testing"
)

// The kinds with a page of their own: kept as typed, and reached from the page
// of the opening or panel.
func TestMoreToRecord(t *testing.T) {
	h := traced(t)
	opening, panel := string(h.opening["A02-01"]), string(h.panel)
	wants(t, h.get("/opening/"+opening), "More to record", `href="raceway/`+opening, `href="joined/`+opening)
	wants(t, h.get("/panel/"+panel), "More to record", `href="raceway/`+panel, `href="passthrough/`+panel, `href="cabinet/`+panel)

	at := h.kept("/raceway/"+opening, "tag", "R1", "type", "EMT", "size", "3/4", "side", "top", "count", "4")
	wants(t, h.get(at), "Kept R1.", `value="R2"`, "A02-01, raceway R1 EMT")
	h.kept("/raceway/"+opening, "mend", "R1", "tag", "R1", "type", "PVC", "size", "1-1/4")
	wants(t, h.get("/raceway/"+opening), "replaced later")
	h.kept("/raceway/"+panel, "tag", "R1", "type_typed", "flexible, unknown")

	at = h.kept("/passthrough/"+panel, "count", "6", "from", "R1", "to", "R2", "spliced", "no")
	wants(t, h.get(at), "Panel A1: 6 conductors pass through")
	for typed, said := range map[string]string{"-1/4": "1/4 in in front of the finished surface", "0": "flush with the finished surface"} {
		wants(t, h.get(h.kept("/cabinet/"+panel, "set", typed)), said)
	}
	at = h.kept("/cabinet/"+panel, "width", "14-3/8", "depth", "3.75", "wall_height", "31", "set", "1/4")
	wants(t, h.get(at), `value="14-3/8 in"`, `value="3-3/4 in"`, `value="1/4 in"`)
	h.kept("/cabinet/"+panel, "width", "14-1/2")
	if c := h.found().Panel(h.panel).Cabinet; c.Width != 14.5 || c.Depth != 0 {
		t.Errorf("the cabinet stands as %+v", c)
	}
}

func TestMoreToRecordBadInput(t *testing.T) {
	h := traced(t)
	opening, panel := string(h.opening["A02-01"]), string(h.panel)
	h.kept("/raceway/"+panel, "tag", "R9")
	for _, c := range []struct {
		name, path, say string
		typed           []string
		keeps           []string
	}{
		{"raceway without a tag", "/raceway/" + opening, "Give the raceway a tag: R1, R2 as they enter.", []string{"tag", " ", "note", "low"}, []string{`value="low"`}},
		{"raceway of 20 inches", "/raceway/" + panel, "Type the trade size in inches, such as 3/4.", []string{"tag", "R1", "size", "20"}, []string{`value="20"`, `value="R1"`}},
		{"count in words", "/raceway/" + opening, sayConductors, []string{"tag", "R1", "count", "many"}, []string{`value="many"`}},
		{"nothing passes", "/passthrough/" + panel, "Count the conductors that pass through.", []string{"count", "0", "from", "R1"}, []string{`value="R1"`}},
		{"nothing measured", "/cabinet/" + panel, "Type at least one size.", []string{"width", ""}, nil},
		{"raceway on record, other capitals", "/raceway/" + panel, "Raceway R9 is on record already: put it right there.", []string{"tag", "r9", "note", "low"}, []string{`value="low"`, "?mend=R9"}},
		{"raceway of no known type", "/raceway/" + panel, sayRacewayType, []string{"tag", "R2", "type", "pipe"}, []string{`value="R2"`}},
		{"raceway from nowhere", "/raceway/" + panel, saySide, []string{"tag", "R2", "side", "inside"}, []string{`value="R2"`}},
		{"cabinet of no width", "/cabinet/" + panel, sayNotAbove, []string{"width", "0", "height", "30"}, []string{`value="0"`, `value="30"`, `id="f-width-fault"`}},
		{"cabinet below zero", "/cabinet/" + panel, sayNotAbove, []string{"width", "14", "depth", "-3"}, []string{`value="-3"`, `id="f-depth-fault"`}},
		{"cabinet too high", "/cabinet/" + panel, sayTooLong, []string{"height", "300"}, []string{`id="f-height-fault"`}},
		{"number without a figure", "/room/" + string(h.room), sayNoFigure, []string{"number", "--"}, []string{`value="--"`}},
		{"opening mended to no figure", "/opening/" + opening, sayNoFigure, []string{"number", "?"}, []string{`value="?"`}},
		{"size in words", "/cabinet/" + panel, `"wide"`, []string{"width", "14", "height", "wide"}, []string{`value="wide"`, `value="14"`}},
		{"feed joined to itself", "/joined/" + opening, "Feed and leg are the same conductor. Say which one goes to the lamp.",
			[]string{"feed_typed", "1, hot", "leg_typed", "1,hot", "note", "by lamp"}, []string{`value="1, hot"`, `value="1,hot"`, `value="by lamp"`}},
		{"no leg", "/joined/" + opening, sayWhichEnd, []string{"feed_typed", "1, hot"}, []string{`value="1, hot"`}},
		{"room without a name", "/room/" + string(h.room) + "/mend", "Give the room a name or a number.", []string{"mend_name", "", "mend_floor", "2", "mend_building", string(h.building)}, []string{`value="2"`}},
		{"building without a name", "/building/" + string(h.building), "Give the building a name or a letter.", []string{"mend_name", " "}, nil},
		{"odd spaces", "/panel/" + panel, "Count the spaces of both columns: an even number from 2 to 84.", []string{"mend_name", "A9", "mend_spaces", "31", "mend_building", string(h.building)}, []string{`value="31"`, `value="A9"`}},
		{"fewer spaces than are on record", "/panel/" + panel, sayHeldSpaces, []string{"mend_name", "A1", "mend_spaces", "6", "mend_building", string(h.building)}, []string{`value="6"`}},
		{"opening without a number", "/opening/" + opening, "Type the number on the tape.", []string{"number", "", "note", "low"}, []string{`value="low"`}},
		{"order in words", "/opening/" + opening, sayOrder, []string{"number", "A02-01", "order", "first"}, []string{`value="first"`}},
	} {
		t.Run(c.name, func(t *testing.T) {
			h.t = t
			page := h.refused(c.path, c.say, c.typed...)
			for _, k := range c.keeps {
				if !strings.Contains(page, k) {
					t.Errorf("the page has lost %s", k)
				}
			}
		})
	}
}

// A join made for a tour is offered at the visit; a reading that is ticked rests
// on it, one that is not does not.
func TestJoinedFeedAndLeg(t *testing.T) {
	h := built(t)
	opening := string(h.opening["A02-04"])
	h.refused("/joined/"+opening, sayJoinTour, "feed_typed", "1, hot", "leg_typed", "2, red")
	h.touring()
	h.kept("/opening/"+opening+"/cable", "tag", "1", "conductors", "hot,neutral,egc")
	h.kept("/opening/"+opening+"/cable", "tag", "2", "conductors", "hot,red,neutral,egc")
	wants(t, h.get("/joined/"+opening), `value="1, hot"`, `value="2, red"`, "dead only.")
	at := h.kept("/joined/"+opening, "feed", "1, hot", "leg", "2, red")
	wants(t, h.get(at), "hot of cable 1 joined to red of cable 2 on purpose", "until the tour is taken down")
	join := h.found().Opening(h.opening["A02-04"]).Joints[0].ID
	stop := "/tour/" + h.tour.String() + "/" + opening
	wants(t, h.get(stop), "Feed and leg are joined here", `name="joined" value="`+join.String()+`" checked="checked"`)
	h.kept(stop, "ohm", "1k", "reading", "1.hot.egc", "stop", "j1", "joined", join.String())
	h.kept(stop, "ohm", "1k", "reading", "1.hot.neutral", "stop", "j1")
	ohms := h.found().Opening(h.opening["A02-04"]).Stops[0].Ohms
	if len(ohms) != 2 || len(ohms[0].Under) != 2 || ohms[0].Under[1] != join || len(ohms[1].Under) != 1 {
		t.Errorf("kept under %v and %v", ohms[0].Under, ohms[1].Under)
	}
	wants(t, h.get("/joined/"+opening), "Another feed and leg in this box")
	h.kept("/joined/"+opening, "feed", "1, hot", "leg_typed", "2, hot")
	wants(t, h.get(stop), "hot of cable 1 to red of cable 2", "hot of cable 1 to hot of cable 2")
	wants(t, h.get("/takeoff/"+h.tour.String()), "Take apart", "A02-04")
	h.kept("/takeoff/"+h.tour.String(), "note", "")
	if strings.Contains(h.get(stop), "Feed and leg are joined here") {
		t.Error("the join is offered after the tour was taken down")
	}
	if page := h.get("/joined/" + opening); strings.Contains(page, "They are joined") || !strings.Contains(page, "A join belongs to a tour.") {
		t.Error("a join is taken in though no tour stands")
	}
}

// Put right: the name follows everywhere, the old one stays in the story.
func TestPutRight(t *testing.T) {
	h := traced(t)
	building, room, panel, opening := string(h.building), string(h.room), string(h.panel), string(h.opening["A02-01"])
	h.kept("/building/"+building, "mend_name", "Annex")
	h.kept("/room/"+room+"/mend", "mend_name", "A02 Long room", "mend_floor", "1", "mend_order", "4", "mend_building", building)
	h.kept("/panel/"+panel, "mend_name", "P7", "mend_spaces", "42", "mend_building", building, "mend_room", room, "mend_fed_from", "the cellar")
	h.kept("/opening/"+opening, "number", "A03-77", "use", "switch", "room", string(h.study), "order", "9", "height", "48", "depth", "1/4")
	wants(t, h.get("/property"), "Annex")
	wants(t, h.get("/building/"+building), "A02 Long room", "3 openings, floor 1", "Panel P7")
	wants(t, h.get("/room/"+string(h.study)), "A03-77")
	wants(t, h.get("/panel/"+panel), "the cellar", "Panel P7", "A03-77")
	wants(t, h.get("/trace"), "the hot at A03-77 is on P7-1")
	found := h.found()
	if p := found.Panel(h.panel); p.Spaces != 42 || p.Room != h.room || len(p.Seen) != 8 {
		t.Errorf("the panel stands as %+v with %d spaces looked at", p.Panel, len(p.Seen))
	}
	if o := found.Opening(h.opening["A02-01"]); o.Height != 48 || o.Depth != 0.25 || o.Order != 9 || len(o.Story) < 4 || o.Story[0].Live() {
		t.Errorf("the opening stands as %+v", o.Opening)
	}
	last := found.Building(h.building).Story
	h.kept("/entry/"+last[len(last)-1].ID.String(), "reason", "Mistyped")
	if name := h.found().Name(h.building); name != "A" {
		t.Errorf("after the change was withdrawn the building is %q, want A", name)
	}
}
