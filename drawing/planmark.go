package drawing

import (
	"math"

	"asfound/evidence"
	"asfound/installation"
	"asfound/observation"
	"asfound/paper"
	"asfound/trace"
)

// The symbols are plain drawings of the thing: a receptacle with its two blades,
// a switch with its lever, a lamp with its rays. They follow no standard.

const markSize = 1.8 // millimeters from the middle of a symbol to its edge

// spot is where an opening stands on the drawing, and the ways into the room.
type spot struct {
	paper.Point
	into []paper.Point
}

func (s spot) box() paper.Area {
	return paper.Area{X: s.X - markSize - 0.5, Y: s.Y - markSize - 0.5, W: 2*markSize + 1, H: 2*markSize + 1}
}

// spot is the place of an opening in a room, a little aside where something
// stands already; false when there is no room for its symbol. One noted beyond
// the room stands at its edge; that its measure cannot be right is said in words.
func (p *plan) spot(o *installation.Opening, r *installation.Room, a paper.Area) (spot, bool) {
	const step = 2*markSize + 1.2
	s := o.Spot
	flat := s.Wall == observation.Overhead || s.Wall == observation.Underfoot
	at, long := sideOf(s.Wall, a), p.mm(r.Wall(s.Wall))
	along := max(min(p.mm(s.Along), long-markSize-0.5), min(markSize+0.5, long/2)) // a corner holds no symbol
	for row := range 4 {
		out := spot{at.at(along, markSize+0.5+float64(row)*step), []paper.Point{at.into}}
		if flat {
			floor := a.Inset(markSize + 0.5)
			x, y := nearestEdge(floor, paper.Point{X: a.X + p.mm(s.Along), Y: a.Y + a.H - p.mm(s.Out)})
			out = spot{paper.Point{X: x + float64(row)*step, Y: y}, []paper.Point{{Y: 1}, {Y: -1}, {X: 1}, {X: -1}}}
		}
		if p.free(out.box()) && inside(out.box(), a.Inset(-0.01)) {
			return out, true
		}
	}
	return spot{}, false
}

// opening draws an opening at its spot with its number near it; false when the
// number found no room.
func (p *plan) opening(g *paper.Group, o *installation.Opening, s spot, room paper.Area) bool {
	st := paper.Style{Size: 8}
	w := st.Width(paper.Clean(o.Number))
	box, ok := p.near(s, w+0.8, 3+paper.UnderlineRoom, room)
	if !ok {
		sub := g.Link(s.box(), p.link(o.Thing), p.aloud(o))
		p.mark(sub, o, s.X, s.Y)
		return false
	}
	p.taken = append(p.taken, box)
	sub := g.Link(around(s.box(), box), p.link(o.Thing), p.aloud(o))
	x, y := nearestEdge(textOf(box), s.Point)
	if far := math.Hypot(x-s.X, y-s.Y); far > markSize+1.6 {
		edge := (markSize + 0.2) / far
		sub.Line(s.X+(x-s.X)*edge, s.Y+(y-s.Y)*edge, x, y, paper.Hair)
	}
	p.mark(sub, o, s.X, s.Y)
	sub.Text(box.X+0.4, box.Y+2.7, o.Number, st)
	sub.Underline(box.X+0.4, box.Y+2.7, w, p.stroke(o))
	return true
}

// near looks for free room for a text near a spot: straight into the room, then
// aside, then farther in.
func (p *plan) near(s spot, w, h float64, room paper.Area) (paper.Area, bool) {
	for _, far := range []float64{0, 5.5, 11, 16.5} {
		for _, aside := range []float64{0, 4, -4, 8, -8, 13, -13} {
			for _, d := range s.into {
				out := markSize + 1 + math.Abs(d.X)*w/2 + math.Abs(d.Y)*h/2 + far
				x, y := s.X+d.X*out+d.Y*aside, s.Y+d.Y*out+d.X*aside
				box := paper.Area{X: x - w/2, Y: y - h/2, W: w, H: h}
				if inside(box, room.Inset(0.5)) && p.free(box) && p.sees(s, box) {
					return box, true
				}
			}
		}
	}
	return paper.Area{}, false
}

// sees reports whether the line from a spot to a text near it crosses nothing.
func (p *plan) sees(s spot, box paper.Area) bool {
	x, y := nearestEdge(textOf(box), s.Point)
	for i := 1; i < 12; i++ {
		at := float64(i) / 12
		dot := paper.Area{X: s.X + (x-s.X)*at - 0.2, Y: s.Y + (y-s.Y)*at - 0.2, W: 0.4, H: 0.4}
		own := s.box()
		if !inside(dot, own) && !p.freeBut(dot, own) {
			return false
		}
	}
	return true
}

func inside(a, b paper.Area) bool {
	return a.X >= b.X && a.Y >= b.Y && a.X+a.W <= b.X+b.W && a.Y+a.H <= b.Y+b.H
}

func around(a, b paper.Area) paper.Area {
	x, y := min(a.X, b.X), min(a.Y, b.Y)
	return paper.Area{X: x, Y: y, W: max(a.X+a.W, b.X+b.W) - x, H: max(a.Y+a.H, b.Y+b.H) - y}
}

func nearestEdge(a paper.Area, to paper.Point) (x, y float64) {
	return min(max(to.X, a.X), a.X+a.W), min(max(to.Y, a.Y), a.Y+a.H)
}

// textOf is the part of the room for a number in which its figures stand.
func textOf(box paper.Area) paper.Area { return paper.Area{X: box.X, Y: box.Y, W: box.W, H: box.H - 1} }

// mark draws the symbol of an opening, over a hatch if nobody got to it.
func (p *plan) mark(g *paper.Group, o *installation.Opening, x, y float64) {
	p.used[o.Use] = true
	if o.NotReached != nil {
		p.hatch = true
		g.Hatch(paper.Area{X: x - markSize - 1, Y: y - markSize - 1, W: 2*markSize + 2, H: 2*markSize + 2})
		g.Circle(x, y, markSize, paper.Pen{}, paper.Ground)
	}
	symbol(g, x, y, o.Use)
}

func symbol(g *paper.Group, x, y float64, use observation.OpeningUse) {
	const r = markSize
	switch use {
	case observation.Receptacle:
		g.Circle(x, y, r, paper.Thin, paper.NoInk)
		g.Add(paper.Path{Pen: paper.Thin, Runs: [][]paper.Point{{{X: x - 0.6, Y: y - 0.8}, {X: x - 0.6, Y: y + 0.8}}, {{X: x + 0.6, Y: y - 0.8}, {X: x + 0.6, Y: y + 0.8}}}})
	case observation.Switch:
		g.Rect(paper.Area{X: x - 1.1, Y: y - r, W: 2.2, H: 2 * r}, paper.Thin, paper.NoInk)
		g.Line(x, y, x+0.6, y-1.1, paper.Firm)
	case observation.Lighting:
		g.Circle(x, y, 0.8, paper.Thin, paper.NoInk)
		rays := paper.Path{Pen: paper.Thin} // one path: a page may hold hundreds
		for i := range 8 {
			sin, cos := math.Sincos(float64(i) * math.Pi / 4)
			rays.Runs = append(rays.Runs, []paper.Point{{X: x + 1.1*cos, Y: y + 1.1*sin}, {X: x + r*cos, Y: y + r*sin}})
		}
		g.Add(rays)
	case observation.Equipment:
		g.Rect(paper.Area{X: x - r, Y: y - 1.3, W: 2 * r, H: 2.6}, paper.Thin, paper.NoInk)
		g.Circle(x+1, y, 0.45, paper.Thin, paper.NoInk)
		g.Line(x-1.1, y, x, y, paper.Thin)
	case observation.Junction:
		g.Rect(paper.Area{X: x - 1.4, Y: y - 1.4, W: 2.8, H: 2.8}, paper.Thin, paper.NoInk)
		g.Circle(x, y, 0.45, paper.Pen{}, paper.Graphite)
	default:
		g.Circle(x, y, r, paper.Thin, paper.NoInk)
		g.Text(x, y+0.8, "?", paper.Style{Size: 6.5, Anchor: paper.Middle})
	}
}

// standing is the standing said first of an opening's lines, and whether it has
// any.
func (p *plan) standing(o *installation.Opening) (evidence.Standing, bool) {
	var feeds []Feed
	for _, l := range p.lines[o.Thing] {
		feeds = append(feeds, Feed{Standing: l.Verdict.Standing})
	}
	return weakest(feeds), len(feeds) > 0
}

// StandingAt is the standing said first of the lines at an opening.
func StandingAt(tr *trace.Trace, opening observation.Thing) evidence.Standing {
	var feeds []Feed
	for _, l := range tr.Lines {
		if l.End.At == opening {
			feeds = append(feeds, Feed{Standing: l.Verdict.Standing})
		}
	}
	return weakest(feeds)
}

func (p *plan) stroke(o *installation.Opening) paper.Stroke {
	s, read := p.standing(o)
	if !read {
		return paper.None
	}
	return Stroke(s)
}

// aloud is an opening for whoever cannot see the drawing.
func (p *plan) aloud(o *installation.Opening) string {
	out := useName(o.Use) + ", " + SpotName(o.Spot)
	if o.NotReached != nil {
		out += ", not reached"
	}
	if s, read := p.standing(o); read {
		return out + ", " + s.String() + ": " + Meaning(s)
	}
	return out + ", nothing read"
}

// SpotName says where in its room an opening is.
func SpotName(s *observation.Spot) string {
	switch {
	case s == nil:
		return "place in the room not known"
	case s.Wall == observation.Overhead || s.Wall == observation.Underfoot:
		return string(s.Wall) + ", " + s.Along.Span() + " from the left wall, " + s.Out.Span() + " from the front wall"
	}
	return string(s.Wall) + " wall, " + s.Along.Span() + " from its left end"
}
