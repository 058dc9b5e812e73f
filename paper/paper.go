// Package paper draws a page of lines, text and symbols, the same for a screen
// and for a printer.
//
// Coordinates are millimeters from the top left corner, y downward; type sizes
// are points. A Page holds marks; a Sheet is a titled run of pages with head,
// foot and tables that break over pages. SVG writes one page for a screen;
// package paper/pdf writes a whole sheet for a printer. Both measure text with
// the widths of the Go fonts, so lines break at the same words in both.
//
// What the package refuses: it knows no word of any trade, reads no clock and
// no file, and never drops text in silence (Fitted shows an ellipsis; everything
// else wraps). Meaning is never carried by color alone: planned lines are also
// dashed, and the underlines differ in shape.
//
// Start reading at Group, whose methods draw; then Sheet, then Table.
package paper

// Point is a place on the page, in millimeters from the top left corner.
type Point struct{ X, Y float64 }

// Area is an upright rectangle: top left corner, width and height, in
// millimeters.
type Area struct{ X, Y, W, H float64 }

// Inset returns the area made smaller by d millimeters on every side.
func (a Area) Inset(d float64) Area {
	return Area{a.X + d, a.Y + d, max(0, a.W-2*d), max(0, a.H-2*d)}
}

// Size is the width and height of a page, in millimeters.
type Size struct{ Width, Height float64 }

// Page sizes, upright. Letter is 8.5 by 11 inches (ANSI/ASME Y14.1, size A);
// A4 is from ISO 216.
var (
	Letter = Size{215.9, 279.4}
	A4     = Size{210, 297}
)

// Landscape returns the size with its longer side lying.
func (s Size) Landscape() Size {
	return Size{max(s.Width, s.Height), min(s.Width, s.Height)}
}

// Page is one side of paper, or one drawing for a screen. The drawing methods
// are those of Group.
type Page struct {
	Width, Height float64 // millimeters
	Title         string  // says what the page shows, to whoever cannot see it
	Group
}

// NewPage returns an empty page of the given size.
func NewPage(s Size, title string) *Page {
	return &Page{Width: s.Width, Height: s.Height, Title: title}
}

// Area returns the whole page.
func (p *Page) Area() Area { return Area{0, 0, p.Width, p.Height} }
