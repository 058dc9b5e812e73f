package drawing

import (
	"fmt"
	"math"
	"strconv"

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

// beside draws the rooms whose place or size was not measured: those with a size
// in rows, then the others in columns, each in walking order.
func (p *plan) beside(g *paper.Group, rooms []*installation.Room, y, width float64) float64 {
	var sized, bare []*installation.Room
	for _, r := range rooms {
		switch {
		case r.Placed():
		case r.Sized():
			sized = append(sized, r)
		default:
			bare = append(bare, r)
		}
	}
	faint := paper.Style{Size: 9, Ink: paper.Faint}
	if len(sized) > 0 {
		y = g.Wrapped(1, y+6, width-2, "Where these rooms lie was not measured. In walking order:", faint) - 1
		y = p.rows(g, sized, y, width)
	}
	if len(bare) > 0 {
		y = g.Wrapped(1, y+6, width-2, "The size of these rooms was not measured. In walking order, column by column:", faint) - 1
		y = p.columns(g, bare, y, width)
	}
	return y
}

const besideGap = 3.0 // millimeters between rooms that have no place

func (p *plan) rows(g *paper.Group, rooms []*installation.Room, y, width float64) float64 {
	x, deepest := planEdge, 0.0
	for _, r := range rooms {
		wide, deep := p.mm(r.Size.Width), p.mm(r.Size.Depth)
		if x > planEdge && x+wide > width-1 {
			x, y, deepest = planEdge, y+deepest+besideGap, 0
		}
		p.room(g, r, paper.Area{X: x, Y: y, W: wide, H: deep})
		x += wide + besideGap
		deepest = max(deepest, deep)
	}
	return y + deepest + 2
}

// columns fills columns from the first on, as short as they may be.
func (p *plan) columns(g *paper.Group, rooms []*installation.Room, y, width float64) float64 {
	const least = 57.0 // millimeters of a column
	n := max(1, math.Floor((width-2*planEdge+besideGap)/(least+besideGap)))
	wide := (width - 2*planEdge - besideGap*(n-1)) / n
	tall := make([]float64, len(rooms))
	for i, r := range rooms {
		tall[i] = p.unsized(&paper.Group{}, r, paper.Area{W: wide}) + besideGap
	}
	most := shortest(tall, int(n))
	x, top, bottom := planEdge, y, y
	for i, r := range rooms {
		if y > top && y+tall[i] > top+most+0.01 {
			x, y = x+wide+besideGap, top
		}
		p.unsized(g, r, paper.Area{X: x, Y: y, W: wide})
		y += tall[i]
		bottom = max(bottom, y)
	}
	return bottom
}

// shortest is how tall n columns must be to hold all, one after another.
func shortest(tall []float64, n int) float64 {
	fits := func(most float64) bool {
		columns, y := 1, 0.0
		for _, t := range tall {
			if y > 0 && y+t > most+0.01 {
				columns, y = columns+1, 0
			}
			y += t
		}
		return columns <= n
	}
	most := 0.0
	for _, t := range tall {
		most = max(most, t)
	}
	for !fits(most) {
		most++
	}
	return most
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
	if p.broken {
		y = g.Wrapped(1, y, width-2, "thin double line in a wall: what breaks it and is no doorway", st) + 1
	}
	if p.hatch {
		g.Hatch(paper.Area{X: 1, Y: y - 2.8, W: 14, H: 3.6})
		y = g.Wrapped(21, y, width-21, "not reached", st) + 1.2
	}
	if width < 2*narrowPlan {
		return pencils(g, 1, y, width-2)
	}
	x = 1.0
	for _, standing := range Standings {
		word, means := standing.String(), ": "+Meaning(standing)
		if x > 1 && x+st.Width(word+means) > width-1 {
			x, y = 1, y+6
		}
		w := g.Text(x, y, word, st)
		g.Underline(x, y, w, Stroke(standing))
		x += w + 0.2
		x += 5 + g.Text(x, y, means, st)
	}
	return y + 3
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
