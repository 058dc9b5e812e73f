package paper

import "math"

// Stroke is a pencil line under a text. The five are told apart by shape, in
// black and white.
type Stroke int

const (
	None   Stroke = iota
	Dotted        // separate dots
	Single        // one line
	Double        // two lines with a clear gap
	Wavy          // a wave
)

// UnderlineRoom is the room an underline needs beneath the base line, in
// millimeters.
const UnderlineRoom = 2.6

// Underline draws the stroke beneath a text whose base line is at y, from x to
// x+width.
func (g *Group) Underline(x, y, width float64, s Stroke) {
	const drop = 1.35 // clears most of a descender at 10 points
	pen := Pen{Ink: Graphite, Width: 0.4}
	switch s {
	case Dotted:
		g.dots(x, y+drop, width)
	case Single:
		g.Line(x, y+drop, x+width, y+drop, pen)
	case Double:
		g.Line(x, y+drop-0.2, x+width, y+drop-0.2, pen)
		g.Line(x, y+drop+0.8, x+width, y+drop+0.8, pen)
	case Wavy:
		g.Polyline(pen, wave(x, y+drop+0.25, width)...)
	}
}

// Dots are drawn as discs: printers differ in how they draw very short dashes.
func (g *Group) dots(x, y, width float64) {
	const radius, step = 0.36, 1.7
	n := max(1, int(math.Round(width/step)))
	for i := range n {
		g.Circle(x+(float64(i)+0.5)*width/float64(n), y, radius, Pen{}, Graphite)
	}
}

func wave(x, y, width float64) []Point {
	const length, height, samples = 3.2, 0.75, 12
	waves := max(1, math.Round(width/length))
	n := int(waves) * samples
	pts := make([]Point, n+1)
	for i := range pts {
		at := float64(i) / float64(n)
		pts[i] = Point{x + at*width, y - height*math.Sin(2*math.Pi*waves*at)}
	}
	return pts
}

// Box draws an empty square to tick, its top left corner at x, y.
func (g *Group) Box(x, y, size float64) {
	g.Rect(Area{x, y, size, size}, Thin, Ground)
}

// Tick draws a check mark that fills the square of the given size. It is drawn,
// not written: the fonts have no such character.
func (g *Group) Tick(x, y, size float64) {
	pen := Pen{Ink: Graphite, Width: max(0.4, size*0.14)}
	g.Polyline(pen,
		Point{x + 0.12*size, y + 0.55*size}, Point{x + 0.38*size, y + 0.84*size}, Point{x + 0.9*size, y + 0.14*size})
}

// FillIn draws a line to write on; y is where the pencil rests.
func (g *Group) FillIn(x, y, width float64) {
	g.Line(x, y, x+width, y, Pen{Ink: Graphite, Width: 0.25})
}

// Hatch shades an area whose content is not known. It is drawn wide enough to
// survive a copier.
func (g *Group) Hatch(a Area) {
	const step = 1.8 // millimeters along the top edge
	var runs [][]Point
	for c := step; c < a.W+a.H; c += step {
		// The line x+y = c, counted from the corner, clipped to the area.
		from := Point{a.X + min(c, a.W), a.Y + max(0, c-a.W)}
		to := Point{a.X + max(0, c-a.H), a.Y + min(c, a.H)}
		runs = append(runs, []Point{from, to})
	}
	g.Add(Path{Runs: runs, Pen: Hair})
}
