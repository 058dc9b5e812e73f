package drawing

import (
	"cmp"
	"slices"
	"strings"

	"asfound/installation"
	"asfound/observation"
	"asfound/paper"
	"asfound/quantity"
)

// side is a wall of a room on the drawing: its left end as one faces it from
// inside, the way along it, and the way into the room.
type side struct {
	from        paper.Point
	along, into paper.Point
}

func sideOf(w observation.Wall, a paper.Area) side {
	switch w {
	case observation.FrontWall:
		return side{paper.Point{X: a.X + a.W, Y: a.Y + a.H}, paper.Point{X: -1}, paper.Point{Y: -1}}
	case observation.LeftWall:
		return side{paper.Point{X: a.X, Y: a.Y + a.H}, paper.Point{Y: -1}, paper.Point{X: 1}}
	case observation.RightWall:
		return side{paper.Point{X: a.X + a.W, Y: a.Y}, paper.Point{Y: 1}, paper.Point{X: -1}}
	}
	return side{paper.Point{X: a.X, Y: a.Y}, paper.Point{X: 1}, paper.Point{Y: 1}}
}

// at is so far along the wall and so far into the room, in millimeters.
func (s side) at(along, into float64) paper.Point {
	return paper.Point{X: s.from.X + along*s.along.X + into*s.into.X, Y: s.from.Y + along*s.along.Y + into*s.into.Y}
}

// room draws a room that was measured, on the area of its floor.
func (p *plan) room(g *paper.Group, r *installation.Room, a paper.Area) {
	for _, w := range observation.Walls {
		p.wall(g, r, w, a)
	}
	var placed, rest []*installation.Opening
	var spots []spot
	var bare []string
	for _, o := range p.in.In(r.Thing) {
		if o.Spot == nil {
			rest = append(rest, o)
		} else if s, ok := p.spot(o, r, a); ok {
			placed, spots = append(placed, o), append(spots, s)
			p.taken = append(p.taken, s.box())
		} else {
			bare = append(bare, o.Number)
		}
	}
	p.name(g, r, a, len(rest) > 0)
	for i, o := range placed {
		if !p.opening(g, o, spots[i], a) {
			bare = append(bare, o.Number)
		}
	}
	if len(bare) > 0 {
		p.listed = append(p.listed, r.Name+": no room in the drawing to name "+strings.Join(bare, ", ")+".")
	}
	if len(rest) > 0 && !p.within(g, rest, a) {
		p.listed = append(p.listed, r.Name+": place in the room not known "+strings.Join(numbersOf(rest), ", ")+".")
	}
}

func numbersOf(openings []*installation.Opening) []string {
	var out []string
	for _, o := range openings {
		out = append(out, o.Number)
	}
	return out
}

// wall draws one wall, open where a doorway is, thin and double where something
// else breaks it.
func (p *plan) wall(g *paper.Group, r *installation.Room, w observation.Wall, a paper.Area) {
	s, long := sideOf(w, a), p.mm(r.Wall(w))
	var doors []*observation.Doorway
	for _, e := range r.Doorways {
		if d := e.Body.(observation.Doorway); d.Wall == w {
			doors = append(doors, &d)
		}
	}
	slices.SortFunc(doors, func(a, b *observation.Doorway) int {
		return cmp.Or(cmp.Compare(a.From, b.From), cmp.Compare(a.To, b.To))
	})
	line := func(from, to, into float64, pen paper.Pen) {
		if to > from {
			b, e := s.at(from, into), s.at(to, into)
			g.Line(b.X, b.Y, e.X, e.Y, pen)
		}
	}
	end := 0.0
	for _, d := range doors {
		from, to := min(p.mm(d.From), long), min(p.mm(d.To), long)
		line(end, from, 0, paper.Firm)
		if d.What != "" {
			p.broken = true
			line(max(end, from), to, 0, paper.Thin)
			line(max(end, from), to, 0.9, paper.Thin)
		}
		end = max(end, to)
	}
	line(end, long, 0, paper.Firm)
}

// name writes the name and size of a room near its middle, or high up to leave
// room beneath.
func (p *plan) name(g *paper.Group, r *installation.Room, a paper.Area, high bool) {
	st := paper.Style{Size: 9, Face: paper.Bold, Anchor: paper.Middle}
	small := paper.Style{Size: 7.5, Ink: paper.Faint, Anchor: paper.Middle}
	lines := st.Wrap(r.Name, a.W-3)
	size := small.Wrap(sizeName(r.Size), a.W-3)
	const least = 8.0 // millimeters of a name that still says something
	for _, with := range []bool{true, false} {
		if a.W < least {
			break
		}
		if !with {
			size = nil
			lines = []string{st.Fit(r.Name, a.W-3)}
		}
		wide := 0.0
		for _, l := range lines {
			wide = max(wide, st.Width(l))
		}
		for _, l := range size {
			wide = max(wide, small.Width(l))
		}
		box := paper.Area{W: wide + 2, H: float64(len(lines))*st.Leading() + float64(len(size))*small.Leading() + 0.6}
		heights := []float64{0.32 * a.H, 0.45 * a.H, 0.2 * a.H, 0.6 * a.H, 0.75 * a.H}
		if high {
			heights = append([]float64{box.H/2 + 1, box.H/2 + 10}, heights...)
		}
		for _, down := range heights {
			box.X, box.Y = a.X+a.W/2-box.W/2, a.Y+down-box.H/2
			if box.Y < a.Y+0.6 || box.Y+box.H > a.Y+a.H-0.6 || !p.free(box) {
				continue
			}
			p.taken = append(p.taken, box)
			sub := g.Link(box, p.link(r.Thing), "Room "+r.Name+", "+sizeName(r.Size))
			y := box.Y + 0.85*st.MM()
			for _, l := range lines {
				sub.Text(a.X+a.W/2, y, l, st)
				y += st.Leading()
			}
			for _, l := range size {
				sub.Text(a.X+a.W/2, y-0.5, l, small)
				y += small.Leading()
			}
			return
		}
	}
	p.listed = append(p.listed, "A room too small to be named in the drawing: "+r.Name+", "+sizeName(r.Size)+".")
}

// free reports whether nothing stands in an area yet.
func (p *plan) free(a paper.Area) bool { return p.freeBut(a, paper.Area{}) }

// freeBut is free but for one area that is taken.
func (p *plan) freeBut(a, but paper.Area) bool {
	return !slices.ContainsFunc(p.taken, func(b paper.Area) bool {
		return b != but && a.X < b.X+b.W && b.X < a.X+a.W && a.Y < b.Y+b.H && b.Y < a.Y+a.H
	})
}

const (
	rowTall  = 5.8 // of a row of numbers
	flowHead = "place not known:"
)

// within writes openings whose place is not known in a block of their own inside
// the room's outline; false when there is no room for all of them.
func (p *plan) within(g *paper.Group, rest []*installation.Opening, a paper.Area) bool {
	head := paper.Style{Size: 7.5, Ink: paper.Faint}
	wide := 0.0
	for _, o := range rest {
		wide = max(wide, rowWidth(o))
	}
	for columns := min(len(rest), int((a.W-2)/wide)); columns > 0; columns-- {
		rows := (len(rest) + columns - 1) / columns
		block := paper.Area{W: max(float64(columns)*wide, head.Width(flowHead)+1), H: 4 + float64(rows)*rowTall}
		if !p.clear(&block, a.Inset(0.8)) {
			continue
		}
		p.taken = append(p.taken, block)
		g.Text(block.X+0.5, block.Y+3, flowHead, head)
		for i, o := range rest {
			p.inRow(g, o, paper.Area{X: block.X + float64(i%columns)*wide, Y: block.Y + 4 + float64(i/columns)*rowTall, W: wide, H: rowTall})
		}
		return true
	}
	return false
}

// clear moves a block to where nothing stands within an area, as near to its
// middle as may be.
func (p *plan) clear(block *paper.Area, in paper.Area) bool {
	const step = 2.0
	middle := in.X + (in.W-block.W)/2
	for _, top := range []float64{in.Y + in.H/4, in.Y} {
		for y := top; y+block.H <= in.Y+in.H; y += step {
			for off := 0.0; off <= middle-in.X; off += step {
				for _, x := range []float64{middle - off, middle + off} {
					if block.X, block.Y = x, y; p.free(*block) {
						return true
					}
				}
			}
		}
	}
	return false
}

var rowStyle = paper.Style{Size: 8.5}

func rowWidth(o *installation.Opening) float64 {
	return 6.6 + rowStyle.Width(paper.Clean(o.Number)) + 2
}

// inRow writes an opening in a row: its symbol and its number.
func (p *plan) inRow(g *paper.Group, o *installation.Opening, box paper.Area) {
	sub := g.Link(box, p.link(o.Thing), p.aloud(o))
	p.mark(sub, o, box.X+3, box.Y+2.4)
	y := box.Y + 3.4
	for _, line := range rowLines(o, box.W) {
		w := sub.Text(box.X+6.2, y, line, rowStyle)
		sub.Underline(box.X+6.2, y, w, p.stroke(o))
		y += rowTall
	}
}

// rowLines are the lines of a number in a row of some width.
func rowLines(o *installation.Opening, width float64) []string {
	return rowStyle.Wrap(o.Number, width-8)
}

// unsized draws a room whose size was not measured, in a dashed outline as tall
// as what is in it; it returns how tall that is.
func (p *plan) unsized(g *paper.Group, r *installation.Room, a paper.Area) float64 {
	dashed := paper.Pen{Ink: paper.Graphite, Width: 0.35, Dash: []float64{1.6, 1.2}}
	st := paper.Style{Size: 9, Face: paper.Bold}
	sub := g.Link(paper.Area{X: a.X, Y: a.Y, W: a.W, H: 9}, p.link(r.Thing), "Room "+r.Name+", not measured")
	y := sub.Wrapped(a.X+1.6, a.Y+4.2, a.W-3, r.Name, st)
	y = sub.Wrapped(a.X+1.6, y, a.W-3, unsizedWord(r), paper.Style{Size: 7.5, Ink: paper.Faint})
	y -= 2
	rest := p.in.In(r.Thing)
	x, tall := a.X+0.6, 0.0
	for _, o := range rest {
		wide := min(rowWidth(o), a.W-1.2)
		if x > a.X+1 && x+wide > a.X+a.W-0.6 {
			x, y, tall = a.X+0.6, y+tall, 0
		}
		high := float64(len(rowLines(o, wide))) * rowTall
		p.inRow(g, o, paper.Area{X: x, Y: y, W: wide, H: high})
		x, tall = x+wide, max(tall, high)
	}
	y += tall
	a.H = y + 1 - a.Y
	g.Rect(a, dashed, paper.NoInk)
	return a.H
}

func unsizedWord(r *installation.Room) string {
	if r.Size == nil {
		return "not measured"
	}
	for _, s := range []struct {
		size quantity.Inches
		say  string
	}{{r.Size.Width, " wide, depth not measured"}, {r.Size.Depth, " deep, width not measured"}} {
		if s.size > 0 {
			return s.size.Span() + s.say
		}
	}
	return "not measured"
}
