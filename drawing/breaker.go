package drawing

import (
	"asfound/observation"
	"asfound/paper"
)

// interior is what lies behind the opening of a dead front: two columns of
// spaces with a strip between them that bears their numbers, and a gutter on
// either side. All sizes are millimeters of the drawing.
type interior struct {
	x, y   float64 // top left corner, gutter included
	gutter float64
	body   float64 // length of a breaker, terminal to handle
	strip  float64
	pitch  float64 // height of a space
	rows   int
}

func (in interior) width() float64  { return 2*(in.gutter+in.body) + in.strip }
func (in interior) height() float64 { return in.pitch * float64(in.rows) }

// column is a half of the interior as seen by its own breakers: out is the
// direction from the handles to the gutter.
type column struct {
	hand, end, edge float64 // x of the handle end, the terminal end, the gutter's far side
	out             float64
	number          float64 // x of the middle of the numbers
}

func (in interior) column(space int) column {
	left, mid := in.x+in.gutter, in.x+in.width()/2
	if space%2 == 1 {
		return column{hand: left + in.body, end: left, edge: in.x, out: -1, number: mid - in.strip/4}
	}
	return column{hand: left + in.body + in.strip, end: left + 2*in.body + in.strip, edge: in.x + in.width(), out: 1, number: mid + in.strip/4}
}

// row returns top and middle of a space.
func (in interior) row(space int) (top, mid float64) {
	top = in.y + float64((space-1)/2)*in.pitch
	return top, top + in.pitch/2
}

// area is the place of a space from its number to the far side of the gutter.
func (in interior) area(space int) paper.Area {
	c := in.column(space)
	top, _ := in.row(space)
	w := in.gutter + in.body + in.strip/2
	if c.out < 0 {
		return paper.Area{X: c.edge, Y: top, W: w, H: in.pitch}
	}
	return paper.Area{X: c.edge - w, Y: top, W: w, H: in.pitch}
}

const gap = 0.4 // between two breakers

// span is a rectangle of a column from one distance to another, counted from
// the handle end outward, over a run of spaces.
func (c column) span(from, to, top, height float64) paper.Area {
	a, b := c.hand+c.out*from, c.hand+c.out*to
	return paper.Area{X: min(a, b), Y: top, W: max(a, b) - min(a, b), H: height}
}

// draw draws what is in a space: an open rectangle, a hatch, or a breaker with
// its handle and terminal and what lands there. Of a 2-pole breaker the body is
// drawn with its upper space, the terminal with each.
func (in interior) draw(g *paper.Group, s Space) {
	c := in.column(s.Number)
	top, mid := in.row(s.Number)
	cell := c.span(0, in.body, top+gap/2, in.pitch-gap)
	switch s.State {
	case NotLooked:
		g.Hatch(cell)
		g.Rect(cell, paper.Hair, paper.NoInk)
		return
	case Vacant:
		g.Rect(cell, paper.Pen{Ink: paper.Graphite, Width: 0.3, Dash: []float64{1.4, 0.9}}, paper.NoInk)
		return
	case Covered:
		g.Hatch(cell)
		g.Rect(cell, paper.Thin, paper.NoInk)
	case Breaker:
		if s.Upper == 0 {
			in.breaker(g, c, s, top)
		}
		in.handle(g, c, s, mid)
	}
	in.terminal(g, c, s, mid)
}

// breaker draws the body of a breaker.
func (in interior) breaker(g *paper.Group, c column, s Space, top float64) {
	height := in.pitch - gap
	if s.Poles == 2 && (s.Number+1)/2 < in.rows {
		height += in.pitch
	}
	body := c.span(0, in.body, top+gap/2, height)
	g.Rect(body, paper.Firm, paper.Ground)
	shoulder := c.hand + c.out*(in.body-4.6)
	g.Line(shoulder, body.Y, shoulder, body.Y+body.H, paper.Hair)
}

// tie draws the tie between the handles of a space and the next in its column.
func (in interior) tie(g *paper.Group, space int) {
	_, mid := in.row(space)
	g.Rect(in.column(space).span(handleFrom-1.2, handleFrom, mid-1.2, in.pitch+2.4), paper.Thin, paper.Graphite)
}

// The handle's place on the body, from its inner end. Whether it was found on
// or off is not on record, so it is drawn lying in the middle.
const (
	handleFrom   = 2.4
	handleTo     = 9.6
	handleHeight = 4.8
)

func (in interior) handle(g *paper.Group, c column, s Space, mid float64) {
	a := c.span(handleFrom, handleTo, mid-handleHeight/2, handleHeight)
	g.Rect(a, paper.Thin, paper.Ground)
	if s.Amps == 0 {
		g.Hatch(a)
		return
	}
	st := paper.Style{Size: 9.5, Face: paper.Bold, Anchor: paper.Middle}
	text := paper.Clean(s.Amps.String())
	text = text[:len(text)-len(" A")]
	for st.Size > 5 && st.Width(text) > a.W-0.6 {
		st.Size -= 0.5
	}
	g.Text(a.X+a.W/2, mid+0.36*st.MM(), text, st)
}

// terminal draws the screw and what lands on it.
func (in interior) terminal(g *paper.Group, c column, s Space, mid float64) {
	x := c.hand + c.out*(in.body-2.3)
	from, to := c.hand+c.out*in.body, c.edge
	switch s.Lands {
	case observation.LandsBranch:
		g.Line(x, mid, to, mid, paper.Pen{Ink: paper.Graphite, Width: 0.75})
	case observation.LandsFeeder:
		g.Line(x, mid, to, mid, paper.Pen{Ink: paper.Graphite, Width: 1.7})
	case observation.LandsNotLooked:
		g.Hatch(paper.Area{X: min(from, to), Y: mid - 1.4, W: in.gutter, H: 2.8})
	}
	const screw = 1.35
	g.Circle(x, mid, screw, paper.Thin, paper.Ground)
	g.Line(x-screw*0.65, mid-screw*0.65, x+screw*0.65, mid+screw*0.65, paper.Thin)
}
