package paper

import "fmt"

// Column is one column of a table.
type Column struct {
	Head   string
	Width  float64 // millimeters; 0 takes an equal share of what the others leave
	Anchor Anchor
	Face   Face
}

// Symbol is what a cell shows besides its text.
type Symbol int

const (
	NoSymbol  Symbol = iota
	EmptyBox         // a square to tick
	Ticked           // a square with a check mark
	WriteLine        // a line to write on
	NotKnown         // hatching; give the cell a text as well, for whoever listens
)

// Cell is one field of a row.
type Cell struct {
	Text   string
	Stroke Stroke // underlines the text
	Symbol Symbol
	Ink    Ink
	Bold   bool
}

// Row is one line of a table.
type Row struct {
	Cells  []Cell
	Height float64 // least height in millimeters, for room to write
	// Span makes the first cell run over the whole width, as a heading of the
	// rows after it; it is kept with the next row.
	Span bool
	Name string // read out in place of the cells
	Href string // opened by a touch
}

// Table is rows under a head that is repeated on every page. Rows grow with
// their text and are broken over pages only when taller than a page; none is
// lost and none overlaps another.
type Table struct {
	Columns []Column
	Rows    []Row
	Foot    []Row   // kept with the last row, bold, under a rule
	Size    float64 // points; 0 is 9
}

const (
	cellPad    = 1.6 // millimeters left and right of a text
	rowPad     = 1.2 // millimeters above and below the lines of a row
	symbolGap  = 1.6 // between a symbol and its text
	symbolSize = 3.6 // a square to tick
	writeRoom  = 9.0 // least height of a row with a line to write on
	writeLift  = 2.0 // such a line above the rule beneath the row
)

func (t *Table) style(c int, cell Cell) Style {
	size := t.Size
	if size <= 0 {
		size = 9
	}
	st := Style{Size: size, Face: t.Columns[c].Face, Ink: cell.Ink, Anchor: t.Columns[c].Anchor}
	if cell.Bold {
		st.Face = Bold
	}
	return st
}

// check panics on a row with more cells than columns: its text would be lost.
func (t *Table) check() {
	for _, rows := range [][]Row{t.Rows, t.Foot} {
		for i, r := range rows {
			if len(r.Cells) > len(t.Columns) {
				panic(fmt.Sprintf("paper: table row %d has %d cells for %d columns", i, len(r.Cells), len(t.Columns)))
			}
		}
	}
}

// columns returns the areas of the columns within the given width: x and width
// are set.
func (t *Table) columns(x, width float64) []Area {
	fixed, open := 0.0, 0
	for _, c := range t.Columns {
		fixed += c.Width
		if c.Width <= 0 {
			open++
		}
	}
	const least = 12.0 // millimeters a sharing column gets at least
	scale, share := 1.0, least
	if open > 0 {
		share = max(least, (width-fixed)/float64(open))
	}
	if total := fixed + share*float64(open); total > width {
		scale = width / total
	}
	areas := make([]Area, len(t.Columns))
	for i, c := range t.Columns {
		w := c.Width
		if w <= 0 {
			w = share
		}
		areas[i] = Area{X: x, W: w * scale}
		x += w * scale
	}
	return areas
}
