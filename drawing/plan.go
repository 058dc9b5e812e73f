package drawing

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"asfound/installation"
	"asfound/observation"
	"asfound/paper"
	"asfound/quantity"
	"asfound/trace"
)

// FloorPlan draws one floor of a building, width millimeters wide, seen from
// above with the front of the building at the bottom. Rooms stand to scale where
// they were measured; a room whose place or size was not measured stands beneath,
// in walking order. Openings are linked to what link gives for them, and so are
// the names of rooms; link may be nil. It returns nil for a floor without rooms.
func FloorPlan(in *installation.Installation, tr *trace.Trace, building observation.Thing, floor int, width float64, link func(observation.Thing) string) *paper.Page {
	const tallest = 150.0 // millimeters of what stands to scale together, so that a floor prints on one page
	rooms := in.Floor(building, floor)
	if len(rooms) == 0 {
		return nil
	}
	p := newPlan(in, tr, link)
	page := paper.NewPage(paper.Size{Width: width}, FloorName(in, building, floor)+", plan")
	y := p.placed(&page.Group, building, rooms, width, tallest)
	y = p.beside(&page.Group, rooms, y, width)
	y = p.notes(&page.Group, in.Misfits(building, floor), y+2, width)
	page.Height = p.legend(&page.Group, y+3, width) + 2
	return page
}

// RoomPlan draws one room by itself, 72 mm wide, for a phone. PlanKey explains
// its symbols and lines.
func RoomPlan(in *installation.Installation, tr *trace.Trace, room observation.Thing, link func(observation.Thing) string) *paper.Page {
	const tallest = 90.0
	const width = narrowPlan
	r := in.Room(room)
	if r == nil {
		return nil
	}
	p := newPlan(in, tr, link)
	page := paper.NewPage(paper.Size{Width: width}, r.Name+", plan")
	y := planEdge + 1
	if r.Sized() {
		p.scale = min(most, (width-2*planEdge)/float64(r.Size.Width), tallest/float64(r.Size.Depth))
		wide, deep := p.mm(r.Size.Width), p.mm(r.Size.Depth)
		p.room(&page.Group, r, paper.Area{X: (width - wide) / 2, Y: y, W: wide, H: deep})
		y = p.ruler(&page.Group, y+deep+5, width, "Front")
	} else {
		y += p.unsized(&page.Group, r, paper.Area{X: 1, Y: y, W: width - 2})
	}
	page.Height = p.notes(&page.Group, in.MisfitsIn(r), y, width) + 1
	return page
}

const narrowPlan = 72.0 // millimeters

// PlanKey explains the symbols and lines of plans, 72 mm wide, for a phone.
func PlanKey() *paper.Page {
	page := paper.NewPage(paper.Size{Width: narrowPlan}, "What the signs on the plans mean")
	p := &plan{used: map[observation.OpeningUse]bool{}, hatch: true, broken: true}
	for _, use := range observation.OpeningUses {
		p.used[use] = true
	}
	page.Height = p.legend(&page.Group, 5, narrowPlan) + 2
	return page
}

// FloorName names a floor of a building: "Main house, main floor".
func FloorName(in *installation.Installation, building observation.Thing, floor int) string {
	name := in.Name(building)
	switch {
	case floor == 0:
		return name + ", main floor"
	case floor < 0:
		return name + ", floor " + strconv.Itoa(floor) + " (below)"
	}
	return name + ", floor " + strconv.Itoa(floor)
}

const (
	planEdge = 3.0 // millimeters around what is drawn to scale
	most     = 0.8 // millimeters an inch is drawn at most
)

// plan is a plan being drawn.
type plan struct {
	in     *installation.Installation
	lines  map[observation.Thing][]*trace.Line // by opening
	link   func(observation.Thing) string
	scale  float64      // millimeters of one inch
	taken  []paper.Area // where something is written or drawn
	listed []string     // what found no room in the drawing
	used   map[observation.OpeningUse]bool
	hatch  bool // somewhere a place is hatched
	broken bool // somewhere a wall is broken by what is no doorway
}

func newPlan(in *installation.Installation, tr *trace.Trace, link func(observation.Thing) string) *plan {
	if link == nil {
		link = func(observation.Thing) string { return "" }
	}
	p := &plan{in: in, lines: map[observation.Thing][]*trace.Line{}, link: link, used: map[observation.OpeningUse]bool{}}
	for _, l := range tr.Lines {
		p.lines[l.End.At] = append(p.lines[l.End.At], l)
	}
	return p
}

func (p *plan) mm(size quantity.Inches) float64 { return float64(size) * p.scale }

// placed draws the rooms whose place was measured, with the front named and a
// ruler; it returns where it ends, which is the top when there is none.
func (p *plan) placed(g *paper.Group, building observation.Thing, rooms []*installation.Room, width, tallest float64) float64 {
	left, front, right, back := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, r := range rooms {
		if s := r.Size; r.Placed() {
			left, right = min(left, float64(s.Corner.Right)), max(right, float64(s.Corner.Right+s.Width))
			front, back = min(front, float64(s.Corner.Back)), max(back, float64(s.Corner.Back+s.Depth))
		}
	}
	p.scale = fitting(rooms, width, tallest)
	if right < left {
		return 0
	}
	p.scale = min(p.scale, (width-2*planEdge)/(right-left), tallest/(back-front))
	x0 := (width - (right-left)*p.scale) / 2
	y0 := planEdge + 1 + (back-front)*p.scale
	for _, r := range rooms {
		if s := r.Size; r.Placed() {
			p.room(g, r, paper.Area{X: x0 + (float64(s.Corner.Right)-left)*p.scale, Y: y0 - (float64(s.Corner.Back+s.Depth)-front)*p.scale, W: p.mm(s.Width), H: p.mm(s.Depth)})
		}
	}
	return p.ruler(g, y0+5, width, "Front of "+p.in.Name(building))
}

// fitting is the scale at which each room by itself takes at most half of what
// there is.
func fitting(rooms []*installation.Room, width, tallest float64) float64 {
	out := most
	for _, r := range rooms {
		if r.Sized() && !r.Placed() {
			out = min(out, (width/2-planEdge)/float64(r.Size.Width), tallest/2/float64(r.Size.Depth))
		}
	}
	return out
}

// ruler draws a length to scale, and names the front at the middle.
func (p *plan) ruler(g *paper.Group, y, width float64, front string) float64 {
	long := 1.0
	for _, feet := range []float64{2, 5, 10, 20, 50, 100} {
		if feet*12*p.scale <= width/5 {
			long = feet
		}
	}
	end := planEdge + long*12*p.scale
	g.Polyline(paper.Firm, paper.Point{X: planEdge, Y: y - 1.4}, paper.Point{X: planEdge, Y: y}, paper.Point{X: end, Y: y}, paper.Point{X: end, Y: y - 1.4})
	small := paper.Style{Size: 8}
	used := g.Text(end+1.5, y, quantity.Inches(long*12).Span(), small)
	bold := paper.Style{Size: 9, Face: paper.Bold, Anchor: paper.Middle}
	name := bold.Fit(front, width-2*(end+used+4))
	if name == front {
		g.Text(width/2, y, name, bold)
		return y + 2
	}
	g.Fitted(planEdge, y+5, width-2*planEdge, front, paper.Style{Size: 9, Face: paper.Bold})
	return y + 7
}

// beside draws the rooms whose place or size was not measured, in rows.
func (p *plan) beside(g *paper.Group, rooms []*installation.Room, y, width float64) float64 {
	const gap, least = 3.0, 57.0
	beside := max(1, math.Floor((width-2*planEdge+gap)/(least+gap)))
	var rest []*installation.Room
	for _, r := range rooms {
		if !r.Placed() {
			rest = append(rest, r)
		}
	}
	if len(rest) == 0 {
		return y
	}
	y += 6
	y = g.Wrapped(1, y, width-2, "Where these rooms lie was not measured. In walking order:", paper.Style{Size: 9, Ink: paper.Faint}) - 1
	x, deepest := planEdge, 0.0
	for _, r := range rest {
		wide := (width - 2*planEdge - gap*(beside-1)) / beside
		if r.Sized() {
			wide = p.mm(r.Size.Width)
		}
		if x > planEdge && x+wide > width-1 {
			x, y, deepest = planEdge, y+deepest+gap, 0
		}
		deep := 0.0
		if r.Sized() {
			deep = p.mm(r.Size.Depth)
			p.room(g, r, paper.Area{X: x, Y: y, W: wide, H: deep})
		} else {
			deep = p.unsized(g, r, paper.Area{X: x, Y: y, W: wide})
		}
		x += wide + gap
		deepest = max(deepest, deep)
	}
	return y + deepest + 2
}

// notes writes what the drawing cannot show: measures that cannot be right, and
// what found no room.
func (p *plan) notes(g *paper.Group, misfits []string, y, width float64) float64 {
	y += 3
	for _, say := range misfits {
		y = g.Wrapped(1, y, width-2, say, paper.Style{Size: 9, Face: paper.Bold}) + 1
	}
	for _, say := range p.listed {
		y = g.Wrapped(1, y, width-2, say, paper.Style{Size: 9}) + 1
	}
	return y
}

// legend explains the symbols that were used, then the pencil lines.
func (p *plan) legend(g *paper.Group, y, width float64) float64 {
	st := paper.Style{Size: 9}
	x := 3.5
	for _, use := range observation.OpeningUses {
		if !p.used[use] {
			continue
		}
		word := useName(use)
		if x > 4 && x+5+st.Width(word) > width {
			x, y = 3.5, y+6
		}
		symbol(g, x, y-1.2, use)
		x += 3.5
		x += g.Text(x, y, word, st) + 6
	}
	y += 6
	var more []string
	if p.broken {
		more = append(more, "thin double line in a wall: what breaks it and is no doorway")
	}
	if len(more) > 0 {
		y = g.Wrapped(1, y, width-2, strings.Join(more, "; "), st) + 1
	}
	if p.hatch {
		g.Hatch(paper.Area{X: 1, Y: y - 2.8, W: 14, H: 3.6})
		y = g.Wrapped(21, y, width-21, "not reached", st) + 1.2
	}
	return pencils(g, 1, y, width-2)
}

func useName(use observation.OpeningUse) string {
	if use == observation.NoUse {
		return "use not known"
	}
	return noun(use, 1)
}

// sizeName is a size as people say it: "12 ft by 10 ft".
func sizeName(s *observation.RoomSize) string {
	return fmt.Sprintf("%s by %s", s.Width.Span(), s.Depth.Span())
}
