package web

import (
	"html/template"
	"strings"

	"asfound/drawing"
	"asfound/installation"
	"asfound/observation"
	"asfound/paper"
	"asfound/quantity"
)

// measures is what a room's page shows of its measures.
type measures struct {
	Plan, Key template.HTML
	Said      []string // on record, in words
	Doorways  []entryView
	Misfits   []string
}

// measuresOf draws a room of which something was measured.
func (v *visit) measuresOf(r *installation.Room) measures {
	out := measures{Doorways: v.recorded(r.Thing, observation.Doorway{}.Kind()), Misfits: v.found.MisfitsIn(r)}
	if r.Size != nil {
		out.Said = append(out.Said, sizeWords(*r.Size))
	}
	if r.Sized() {
		out.Plan, out.Key = svg(drawing.RoomPlan(v.found.Installation, v.found.Trace, r.Thing, v.thingHref)), svg(drawing.PlanKey())
	}
	return out
}

// svg is a drawing as it stands in a page; package paper has escaped it.
func svg(p *paper.Page) template.HTML {
	if p == nil {
		return ""
	}
	return template.HTML(paper.SVG(p, paper.SVGOptions{}))
}

// fillMeasures prefills what was measured of a room.
func fillMeasures(f *form, r *installation.Room) {
	s := r.Size
	if s == nil {
		return
	}
	f.setSpan("width", s.Width)
	f.setSpan("room_depth", s.Depth)
	f.setSpan("ceiling", s.Ceiling)
	f.set("spaced", string(s.Spaced))
	if c := s.Corner; c != nil {
		f.set("right", c.Right.Span()).set("back", c.Back.Span())
	}
}

// addSize keeps the measures of a room in place of those before.
func addSize(v *visit) error {
	f := v.typed()
	r := v.found.Room(v.arg("room"))
	if r == nil {
		return notFound{sayNoThing}
	}
	body := observation.RoomSize{Width: f.span("width"), Depth: f.span("room_depth"), Ceiling: f.span("ceiling"),
		Corner: f.corner(), Spaced: observation.Known(f.Get("spaced"))}
	o := observation.Observation{Subject: r.Thing, Seen: replaces(r.Story, every[observation.RoomSize]), Body: body}
	if _, ok := v.record(f, o, map[string]string{"depth": "room_depth", "corner": "right"}); !ok {
		return roomWith(v, f)
	}
	return v.goTo("room/" + v.args["room"] + "?mended=yes#measure")
}

// addDoorway keeps a doorway, or what else breaks a wall.
func addDoorway(v *visit) error {
	f := v.typed()
	r := v.found.Room(v.arg("room"))
	if r == nil {
		return notFound{sayNoThing}
	}
	if strings.TrimSpace(f.Get("from")) == "" || strings.TrimSpace(f.Get("to")) == "" {
		f.fault("from", sayFromTo)
	}
	body := observation.Doorway{Wall: observation.Wall(f.Get("wall")), From: f.span("from"), To: f.span("to"), What: strings.TrimSpace(f.Get("what"))}
	if _, ok := v.record(f, observation.Observation{Subject: r.Thing, Body: body}, nil); !ok {
		return roomWith(v, f)
	}
	return v.goTo("room/" + v.args["room"] + "?mended=yes#measure")
}

// addSpot keeps where in its room an opening is, in place of what was said
// before.
func addSpot(v *visit) error {
	f := v.typed()
	o := v.found.Opening(v.arg("opening"))
	if o == nil {
		return notFound{sayNoThing}
	}
	if f.Get("wall") == "" {
		f.fault("wall", sayOnWall)
	}
	if strings.TrimSpace(f.Get("along")) == "" {
		f.fault("along", sayAlong)
	}
	body := observation.Spot{Wall: observation.Wall(f.Get("wall")), Along: f.span("along")}
	if body.Wall == observation.Overhead || body.Wall == observation.Underfoot {
		body.Out = f.span("out")
	}
	seen := replaces(o.Story, every[observation.Spot])
	if _, ok := v.record(f, observation.Observation{Subject: o.Thing, Seen: seen, Body: body}, nil); !ok {
		return openingWith(v, f)
	}
	return v.goTo("opening/" + v.args["opening"] + "?kept=1")
}

// fillSpot prefills where an opening is.
func fillSpot(f *form, o *installation.Opening) {
	if s := o.Spot; s != nil {
		f.set("wall", string(s.Wall)).set("along", s.Along.Span())
		f.setSpan("out", s.Out)
	}
}

// span reads a length along a floor or wall; an empty field is zero, which is
// not measured.
func (f *form) span(name string) quantity.Inches {
	if strings.TrimSpace(f.Get(name)) == "" {
		return 0
	}
	size, err := quantity.ParseSpan(f.Get(name))
	if err != nil {
		f.unread(name, err)
	}
	return size
}

// corner reads how far right and back a corner is; a minus sign is left of the
// building's own corner, or before its front.
func (f *form) corner() *observation.Corner {
	read := func(name string) quantity.Inches {
		text := strings.TrimSpace(f.Get(name))
		bare := strings.TrimLeft(text, "-−–")
		size, err := quantity.ParseSpan(bare)
		if err != nil {
			f.unread(name, err)
		}
		if bare != text {
			return -size
		}
		return size
	}
	right, back := strings.TrimSpace(f.Get("right")) != "", strings.TrimSpace(f.Get("back")) != ""
	switch {
	case !right && !back:
		return nil
	case !right:
		f.fault("right", sayNoCorner)
	case !back:
		f.fault("back", sayNoCorner)
	default:
		return &observation.Corner{Right: read("right"), Back: read("back")}
	}
	return nil
}

// setSpan prefills a length, unless it was not measured.
func (f *form) setSpan(name string, size quantity.Inches) {
	if size > 0 {
		f.set(name, size.Span())
	}
}
