package drawing_test

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"asfound/drawing"
	"asfound/evidence"
	"asfound/installation"
	"asfound/observation"
	"asfound/paper"
	"asfound/quantity"
	"asfound/trace"
)

var plans = flag.String("plans", "", "folder to write plans to as SVG, to be looked at")

// planned is a floor with measured rooms, two of which overlap, a room without a
// place, one without a size, and a floor above.
func planned() *house {
	h := newHouse(8)
	main := h.fold.Installation().Buildings[1].Thing
	ft := func(f float64) quantity.Inches { return quantity.Inches(12 * f) }
	room := func(name string, floor int, size *observation.RoomSize) observation.Thing {
		t := h.add("", observation.Room{Building: main, Name: name, Floor: floor, Order: int(h.seq)})
		h.rooms[name] = t
		if size != nil {
			h.add(t, *size)
		}
		return t
	}
	corner := func(right, back float64) *observation.Corner {
		return &observation.Corner{Right: ft(right), Back: ft(back)}
	}
	living := room("Living room", 0, &observation.RoomSize{Width: ft(24), Depth: ft(16), Ceiling: ft(9), Corner: corner(0, 0), Spaced: observation.Yes})
	room("Bath", 0, &observation.RoomSize{Width: ft(5), Depth: ft(8), Corner: corner(24.5, 0)})
	pantry := room("Pantry", 0, &observation.RoomSize{Width: ft(6), Depth: ft(5), Corner: corner(22, 15)})
	room("Study", 0, &observation.RoomSize{Width: ft(11), Depth: ft(9)})
	room("Mud room", 0, nil)
	room("Attic", 1, nil)
	h.add(living, observation.Doorway{Wall: observation.FrontWall, From: ft(9), To: ft(12)})
	h.add(living, observation.Doorway{Wall: observation.BackWall, From: ft(4), To: ft(9), What: "fireplace"})
	h.add(pantry, observation.Doorway{Wall: observation.LeftWall, From: 12, To: 42})
	at := func(room, number string, use observation.OpeningUse, s evidence.Standing, spot *observation.Spot) observation.Thing {
		l := h.line(room, number, use, s, 1)
		if spot != nil {
			h.add(l.End.At, *spot)
		}
		return l.End.At
	}
	spot := func(w observation.Wall, along float64) *observation.Spot {
		return &observation.Spot{Wall: w, Along: ft(along)}
	}
	at("Living room", "A04-01", observation.Receptacle, evidence.Settled, spot(observation.FrontWall, 2))
	at("Living room", "A04-02", observation.Switch, evidence.Likely, spot(observation.FrontWall, 8.5))
	at("Living room", "A04-03", observation.Receptacle, evidence.Clash, spot(observation.LeftWall, 6))
	at("Living room", "A04-04", observation.Receptacle, evidence.Undecided, spot(observation.BackWall, 2))
	at("Living room", "A04-05", observation.Lighting, evidence.Settled, &observation.Spot{Wall: observation.Overhead, Along: ft(12), Out: ft(5)})
	reach := at("Living room", "A04-06", observation.Receptacle, evidence.Untested, spot(observation.RightWall, 3))
	h.add(reach, observation.NotReached{Why: "behind the range"})
	at("Living room", "A04-07", observation.Equipment, evidence.Settled, nil)
	at("Living room", "A04-08", observation.Junction, evidence.Settled, nil)
	at("Bath", "A05-01", observation.Receptacle, evidence.Settled, spot(observation.LeftWall, 3))
	at("Bath", "A05-02", observation.Switch, evidence.Settled, spot(observation.LeftWall, 3.4))
	for i := range 5 {
		at("Pantry", fmt.Sprintf("A06-%02d", i+1), observation.NoUse, evidence.Settled, nil)
	}
	for i := range 4 {
		at("Study", fmt.Sprintf("A07-%02d", i+1), observation.Receptacle, evidence.Settled, spot(observation.BackWall, 2.5*float64(i)))
	}
	for i := range 4 {
		at("Mud room", fmt.Sprintf("A08-%02d", i+1), observation.Lighting, evidence.Likely, nil)
	}
	at("Attic", "A09-01", observation.Lighting, evidence.Likely, nil)
	return h
}

func (h *house) mainFloor() (*installation.Installation, *paper.Page) {
	in := h.fold.Installation()
	b := in.Building(in.Room(h.rooms["Living room"]).Building)
	return in, drawing.FloorPlan(in, &h.tr, b.Thing, 0, 200, thingLink)
}

func thingLink(t observation.Thing) string { return "opening/" + string(t) }

func TestFloorPlan(t *testing.T) {
	h := planned()
	in, page := h.mainFloor()
	noOverlap(t, page)
	show(t, "floor", page)
	text := planText(page)
	for _, want := range []string{"Front of Main house", "Living room and Pantry overlap by 2 ft by 1 ft: one of their measures is wrong.",
		"Where these rooms lie was not measured. In walking order:", "The size of these rooms was not measured.", "24 ft by 16 ft", "not measured", "not reached"} {
		if !strings.Contains(text, want) {
			t.Errorf("the plan does not say %q:\n%s", want, text)
		}
	}
	for _, o := range in.Openings {
		r := in.Room(o.Room)
		if r.Floor != 0 || in.Name(r.Building) != "Main house" {
			continue
		}
		if !strings.Contains(text, o.Number) {
			t.Errorf("%s is not on the plan:\n%s", o.Number, text)
		}
	}
	if strings.Contains(text, "A09-01") {
		t.Error("an opening of the floor above is on the plan")
	}
	aloud := labels(t, page)
	for _, want := range []string{"A04-01 receptacle, front wall, 2 ft from its left end, settled: false only if two mistakes were made",
		"A04-07 equipment, place in the room not known, settled", "A04-06 receptacle, right wall, 3 ft from its left end, not reached, untested"} {
		if !strings.Contains(aloud, want) {
			t.Errorf("nobody hears %q:\n%s", want, aloud)
		}
	}
	if drawing.FloorPlan(in, &h.tr, "k-99", 0, 200, nil) != nil {
		t.Error("a building that is not there has a plan")
	}
}

func TestRoomPlans(t *testing.T) {
	h := planned()
	in := h.fold.Installation()
	for name, room := range h.rooms {
		page := drawing.RoomPlan(in, &h.tr, room, thingLink)
		noOverlap(t, page)
		show(t, "room-"+strings.ReplaceAll(name, " ", "-"), page)
		for _, o := range in.In(room) {
			if text := planText(page); !strings.Contains(text, o.Number) {
				t.Errorf("%s is not on the plan of %s:\n%s", o.Number, name, text)
			}
		}
	}
	noOverlap(t, drawing.PlanKey())
	show(t, "key", drawing.PlanKey())
	if drawing.RoomPlan(in, &h.tr, "k-99", nil) != nil {
		t.Error("a room that is not there has a plan")
	}
}

// planText is what is written on a page, in the order drawn.
func planText(p *paper.Page) string {
	var out []string
	eachText(p.Marks, func(x paper.Text) { out = append(out, x.S) })
	return strings.Join(out, " ")
}

func show(t *testing.T, name string, p *paper.Page) {
	t.Helper()
	if *plans == "" {
		return
	}
	if err := os.WriteFile(filepath.Join(*plans, name+".svg"), paper.SVG(p, paper.SVGOptions{Standalone: true}), 0o644); err != nil {
		t.Fatal(err)
	}
}

// Whatever was measured, no number is lost and none lies over another.
func TestPlansOfAnything(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := newHouse(2)
		main := h.fold.Installation().Buildings[1].Thing
		size := func(least, most int) quantity.Inches {
			return quantity.Inches(rapid.IntRange(least, most).Draw(t, "inches"))
		}
		for r := range rapid.IntRange(1, 4).Draw(t, "rooms") {
			room := h.add("", observation.Room{Building: main, Name: rapid.SampledFrom([]string{"Bath", "A long name for such a room", "x"}).Draw(t, "name"), Floor: 3, Order: r})
			s := observation.RoomSize{Width: size(0, 600), Depth: size(0, 600), Ceiling: 96}
			if rapid.Bool().Draw(t, "placed") {
				s.Corner = &observation.Corner{Right: size(-300, 300), Back: size(-300, 300)}
			}
			h.add(room, s)
			h.add(room, observation.Doorway{Wall: rapid.SampledFrom(observation.Walls).Draw(t, "wall"), From: size(0, 300), To: size(301, 700)})
			for n := range rapid.IntRange(0, 12).Draw(t, "openings") {
				o := h.add("", observation.Opening{Room: room, Number: fmt.Sprintf("A%d-%02d", r, n), Use: rapid.SampledFrom(observation.OpeningUses).Draw(t, "use")})
				if rapid.Bool().Draw(t, "has a spot") {
					h.add(o, observation.Spot{Wall: rapid.SampledFrom(append([]observation.Wall{observation.Overhead, observation.Underfoot}, observation.Walls...)).Draw(t, "at"), Along: size(0, 700), Out: size(0, 700)})
				}
			}
		}
		in := h.fold.Installation()
		pages := []*paper.Page{drawing.FloorPlan(in, &trace.Trace{}, main, 3, 186, nil)}
		for _, r := range in.Floor(main, 3) {
			pages = append(pages, drawing.RoomPlan(in, &trace.Trace{}, r.Thing, nil))
		}
		for _, p := range pages {
			noOverlap(t, p)
		}
		for _, o := range in.Openings {
			if text := planText(pages[0]); !strings.Contains(text, o.Number) {
				t.Fatalf("%s is lost:\n%s", o.Number, text)
			}
		}
	})
}
