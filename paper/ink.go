package paper

// Ink says what a mark means; each writer decides how it looks. The zero value
// fills nothing; for a line or a text it means Graphite.
type Ink int

const (
	NoInk    Ink = iota
	Graphite     // what is
	Faint        // rules, hatching, small print
	Planned      // chalk blue: what is not there yet; draw such lines dashed too
	Stop         // red, for the word or sign that says stop, and nothing else
	Ground       // the color of the page, to clear what lies beneath
	Black        // black on screen and paper alike, for codes read by machines
	White        // white on screen and paper alike, for codes read by machines
)

var inkClass = [...]string{"", "ink", "faint", "planned", "stop", "ground", "code", "blank"}

// Class returns the word by which a style sheet colors this ink.
func (i Ink) Class() string { return inkClass[i.orGraphite()] }

func (i Ink) orGraphite() Ink {
	if i <= NoInk || int(i) >= len(inkClass) {
		return Graphite
	}
	return i
}

// RGB returns the ink's color on light ground.
func (i Ink) RGB() (r, g, b uint8) {
	c := lightRGB[i.orGraphite()]
	return c[0], c[1], c[2]
}

var lightRGB = [...][3]uint8{
	Graphite: {0x2b, 0x2b, 0x2b},
	Faint:    {0x6b, 0x66, 0x5f},
	Planned:  {0x2f, 0x5f, 0x8f},
	Stop:     {0xb0, 0x21, 0x18},
	Ground:   {0xff, 0xff, 0xff},
	Black:    {0, 0, 0},
	White:    {0xff, 0xff, 0xff},
}

// CSS colors the inks of drawings that stand inside a web page, on warm white
// by day and on dark ground by night. A page that sets the custom properties
// --ink, --faint, --planned, --stop and --ground has its own colors instead.
// Without any of it a drawing still shows, in the page's text color.
const CSS = `.paper{display:block;width:100%;height:auto}
.paper,.paper .ink{color:var(--ink,#2b2b2b)}
.paper .faint{color:var(--faint,#6b665f)}
.paper .planned{color:var(--planned,#2f5f8f)}
.paper .stop{color:var(--stop,#b02118)}
.paper .ground{color:var(--ground,#fdfbf6)}
.paper a:focus-visible>.touch{stroke:currentColor;stroke-width:.6}
@media screen and (prefers-color-scheme:dark){
.paper,.paper .ink{color:var(--ink,#ece7dc)}
.paper .faint{color:var(--faint,#a29b8f)}
.paper .planned{color:var(--planned,#93bbe8)}
.paper .stop{color:var(--stop,#ff8a7a)}
.paper .ground{color:var(--ground,#1c1a17)}
}
`

// Pen draws a line. A pen of no width draws nothing.
type Pen struct {
	Ink   Ink
	Width float64   // millimeters
	Dash  []float64 // drawn, left out, drawn ... in millimeters; none is solid
}

// The pens in use. A line thinner than Hair may vanish in a laser printer.
var (
	Hair    = Pen{Ink: Faint, Width: 0.18}
	Thin    = Pen{Ink: Graphite, Width: 0.3}
	Firm    = Pen{Ink: Graphite, Width: 0.55}
	Heavy   = Pen{Ink: Graphite, Width: 1.1}
	Chalk   = Pen{Ink: Planned, Width: 0.45, Dash: []float64{1.8, 1.1}}
	StopPen = Pen{Ink: Stop, Width: 1.1}
)
