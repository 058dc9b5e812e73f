package paper

import "math"

// Mark is one thing on a page: a Path, a Circle, a Text, a Picture or a *Group.
// Writers handle these five; every symbol is made of them.
type Mark interface{ mark() }

// Path is one or more runs of straight lines, stroked, filled (even-odd), or
// both.
type Path struct {
	Runs   [][]Point
	Closed bool
	Pen    Pen
	Fill   Ink
}

// Circle is a circle about a center, stroked, filled, or both.
type Circle struct {
	Center Point
	Radius float64 // millimeters
	Pen    Pen
	Fill   Ink
}

// Text is one line of text. At is the point on the base line that Style.Anchor
// names. Width is the measured width in millimeters.
type Text struct {
	At    Point
	S     string
	Style Style
	Width float64
}

// Picture is a photograph, as large as fits its area, in the middle of it. Its
// bytes are asked for when the page is written, so that a sheet can be laid out
// without them; the same picture gives the same bytes each time.
type Picture struct {
	Area Area
	Name string        // says what it shows, to whoever cannot see it
	JPEG func() []byte // baseline JPEG, upright; nothing when it cannot be read
	Else string        // written in its place when there are no bytes
}

// Group is a run of marks drawn in order, the later over the earlier. On a
// screen a group may carry a name, read out in place of its marks, and a link.
type Group struct {
	Name  string
	Href  string // a path within the site, or http(s); anything else is not linked
	Touch Area   // where a touch follows the link
	Marks []Mark
}

func (Path) mark()    {}
func (Circle) mark()  {}
func (Text) mark()    {}
func (Picture) mark() {}
func (*Group) mark()  {}

// Add puts marks on top of those already there.
func (g *Group) Add(m ...Mark) { g.Marks = append(g.Marks, m...) }

// Named adds an empty group with a text alternative, and returns it to be
// drawn on.
func (g *Group) Named(name string) *Group {
	sub := &Group{Name: name}
	g.Add(sub)
	return sub
}

// Link adds an empty group which opens href when touched anywhere in the area.
// The name says where it leads. Paper shows the marks alone.
func (g *Group) Link(area Area, href, name string) *Group {
	sub := &Group{Name: name, Href: href, Touch: area}
	g.Add(sub)
	return sub
}

// Picture draws a photograph.
func (g *Group) Picture(p Picture) { g.Add(p) }

// Instead is what is written where a picture without bytes would be.
func (p Picture) Instead() *Group {
	g := &Group{}
	st := Style{Size: 9, Ink: Faint, Anchor: Middle}
	g.Wrapped(p.Area.X+p.Area.W/2, p.Area.Y+p.Area.H/2, max(1, p.Area.W-4), p.Else, st)
	return g
}

// Line draws a straight line.
func (g *Group) Line(x1, y1, x2, y2 float64, p Pen) {
	g.Polyline(p, Point{x1, y1}, Point{x2, y2})
}

// Polyline draws straight lines from point to point.
func (g *Group) Polyline(p Pen, pts ...Point) {
	g.Add(Path{Runs: [][]Point{pts}, Pen: p})
}

// Polygon draws a closed outline, filled with the ink unless it is NoInk.
func (g *Group) Polygon(p Pen, fill Ink, pts ...Point) {
	g.Add(Path{Runs: [][]Point{pts}, Closed: true, Pen: p, Fill: fill})
}

// Rect draws a rectangle, filled with the ink unless it is NoInk.
func (g *Group) Rect(a Area, p Pen, fill Ink) {
	g.Add(Path{Runs: [][]Point{a.corners()}, Closed: true, Pen: p, Fill: fill})
}

// Circle draws a circle, filled with the ink unless it is NoInk.
func (g *Group) Circle(x, y, radius float64, p Pen, fill Ink) {
	g.Add(Circle{Center: Point{x, y}, Radius: radius, Pen: p, Fill: fill})
}

// Arrow draws a line with an open head at its end.
func (g *Group) Arrow(x1, y1, x2, y2 float64, p Pen) {
	const head = 2.2 // millimeters
	back := math.Atan2(y1-y2, x1-x2)
	wing := func(turn float64) Point {
		return Point{x2 + head*math.Cos(back+turn), y2 + head*math.Sin(back+turn)}
	}
	g.Line(x1, y1, x2, y2, p)
	p.Dash = nil
	g.Polyline(p, wing(0.45), Point{x2, y2}, wing(-0.45))
}

// Text writes one line and returns its width in millimeters. Line breaks and
// control characters become spaces.
func (g *Group) Text(x, y float64, s string, st Style) float64 {
	t := Text{At: Point{x, y}, S: Clean(s), Style: st}
	t.Width = st.Width(t.S)
	if t.S != "" {
		g.Add(t)
	}
	return t.Width
}

// Fitted writes one line no wider than width millimeters, cut with an ellipsis
// if it must be. Where nothing may be lost, use Wrapped.
func (g *Group) Fitted(x, y, width float64, s string, st Style) float64 {
	return g.Text(x, y, st.Fit(s, width), st)
}

// Wrapped writes lines no wider than width millimeters, the first with its base
// line at y, and returns the base line of the line after the last.
func (g *Group) Wrapped(x, y, width float64, s string, st Style) float64 {
	for _, line := range st.Wrap(s, width) {
		g.Text(x, y, line, st)
		y += st.Leading()
	}
	return y
}

func (a Area) corners() []Point {
	return []Point{{a.X, a.Y}, {a.X + a.W, a.Y}, {a.X + a.W, a.Y + a.H}, {a.X, a.Y + a.H}}
}
