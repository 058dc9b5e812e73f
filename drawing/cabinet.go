package drawing

import (
	"strconv"

	"asfound/evidence"
	"asfound/paper"
)

const (
	trimEdge = 2.6  // metal of the trim around the interior
	nameRoom = 13.0 // at the top of the trim, for the panel's name
)

// trim draws the panel trim with its screws, the opening of the dead front and
// the name on its tape.
func (in interior) trim(g *paper.Group, name string) {
	outer := paper.Area{X: in.x - trimEdge, Y: in.y - nameRoom - trimEdge, W: in.width() + 2*trimEdge, H: in.height() + nameRoom + 2*trimEdge + 3}
	g.Rect(outer, paper.Heavy, paper.NoInk)
	for _, x := range []float64{outer.X + 3, outer.X + outer.W - 3} {
		for _, y := range []float64{outer.Y + 3, outer.Y + outer.H - 2.8} {
			g.Circle(x, y, 1.1, paper.Thin, paper.Ground)
			g.Line(x-0.8, y+0.4, x+0.8, y-0.4, paper.Thin)
		}
	}
	st := paper.Style{Size: 17, Face: paper.Bold, Anchor: paper.Middle}
	room := in.width() - 14
	for st.Size > 9 && st.Width(name) > room {
		st.Size--
	}
	tape := paper.Area{X: in.x + 7, Y: outer.Y + 2.6, W: room, H: 9.4}
	g.Rect(tape, paper.Thin, paper.NoInk)
	g.Fitted(in.x+in.width()/2, tape.Y+tape.H/2+0.36*st.MM(), room-2, name, st)
	g.Rect(paper.Area{X: in.x + in.gutter - 0.6, Y: in.y - 0.6, W: 2*in.body + in.strip + 1.2, H: in.height() + 1.2}, paper.Thin, paper.NoInk)
}

// number writes the number of a space beside its breaker, over the pencil line
// of the weakest of its statements.
func (in interior) number(g *paper.Group, space int, feeds []Feed) {
	c := in.column(space)
	_, mid := in.row(space)
	st := paper.Style{Size: 11, Face: paper.Bold, Anchor: paper.Middle}
	y := mid + 0.2*st.MM()
	w := g.Text(c.number, y, strconv.Itoa(space), st)
	if len(feeds) > 0 {
		w = max(w, 4.2) // a shorter one does not show its shape
		g.Underline(c.number-w/2, y, w, Stroke(weakest(feeds)))
	}
}

// legend explains the pencil lines and the hatch; it returns where it ends.
func legend(g *paper.Group, x, y, width float64) float64 {
	y = pencils(g, x, y, width)
	g.Hatch(paper.Area{X: x, Y: y - 2.8, W: 14, H: 3.6})
	return g.Wrapped(x+20, y, width-20, "not looked at", paper.Style{Size: 9})
}

// pencils explains the pencil lines; it returns where it ends.
func pencils(g *paper.Group, x, y, width float64) float64 {
	st := paper.Style{Size: 9}
	for _, s := range Standings {
		text := s.String() + ": " + Meaning(s)
		w := g.Text(x, y, s.String(), st)
		if s != evidence.Untested {
			g.Underline(x, y, w, Stroke(s))
		}
		y = g.Wrapped(x+20, y, width-20, text[len(s.String())+2:], st) + 1.2
	}
	return y
}
