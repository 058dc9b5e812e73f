package report

import (
	"strings"

	"asfound/paper"
)

// grid draws rows of cells to write in, under a head that is repeated on each
// page: a table whose fields are boxed, so that a pencil stays in its own.
type grid struct {
	sheet   *paper.Sheet
	columns []field
	size    float64 // points of what is printed in the cells
	height  float64 // millimeters of a row
	page    *paper.Page
}

// field is a column of a grid. A field is empty to write in, holds two boxes for
// two letters or a square to tick, or is no field but room between two.
type field struct {
	head  string
	width float64
	face  paper.Face
	kind  fieldKind
}

type fieldKind int

const (
	toWrite fieldKind = iota
	twoLetters
	toTick
	gap // between two rows beside each other
)

const gridHead = 9.5 // millimeters

// row draws a row with the given texts printed in its first fields. The row,
// and its head on a new page, are kept with room more millimeters below.
func (g *grid) row(room float64, texts ...string) {
	prints, height := g.prints(texts)
	need := height + room
	if g.page != g.sheet.Page() {
		need += gridHead
	}
	if need > g.sheet.Free().H {
		g.sheet.Break()
	}
	if g.page != g.sheet.Page() {
		g.head()
	}
	p, a := g.sheet.Room(height)
	x := a.X
	for i, f := range g.columns {
		cell := paper.Area{X: x, Y: a.Y, W: f.width, H: height}
		f.draw(p, cell)
		if i < len(prints) {
			prints[i].draw(p, cell)
		}
		x += f.width
	}
}

func (f field) draw(p *paper.Page, a paper.Area) {
	if f.kind == gap {
		return
	}
	p.Rect(a, paper.Thin, paper.NoInk)
	mid := a.Y + a.H/2
	switch f.kind {
	case twoLetters:
		box := min(8.0, a.H-1.4)
		for i := range 2 {
			p.Box(a.X+a.W/2-box-0.5+float64(i)*(box+1), mid-box/2, box)
		}
	case toTick:
		p.Box(a.X+a.W/2-2.4, mid-2.4, 4.8)
	}
}

// printed is a text fitted to its field.
type printed struct {
	style paper.Style
	lines []string
}

// prints fits the texts of a row, and tells how high the row becomes: a long
// number is set smaller, then in several lines. Only a text that would fill a
// page is cut, with an ellipsis.
func (g *grid) prints(texts []string) (out []printed, height float64) {
	const smallest, most = 6.5, 20
	height = g.height
	for i, text := range texts {
		f := g.columns[i]
		st := paper.Style{Size: g.size, Face: f.face}
		for st.Size > smallest && len(st.Wrap(text, f.width-2)) > 1 {
			st.Size -= 0.5
		}
		lines := st.Wrap(text, f.width-2)
		if len(lines) > most {
			lines = append(lines[:most-1], st.Fit(strings.Join(lines[most-1:], ""), f.width-2))
		}
		out = append(out, printed{st, lines})
		height = max(height, float64(len(lines))*st.Leading()+2)
	}
	return out, height
}

func (t printed) draw(p *paper.Page, a paper.Area) {
	y := a.Y + a.H/2 + 0.36*t.style.MM() - float64(len(t.lines)-1)*t.style.Leading()/2
	for _, line := range t.lines {
		p.Text(a.X+1, y, line, t.style)
		y += t.style.Leading()
	}
}

// head draws the head of the columns.
func (g *grid) head() {
	p, a := g.sheet.Room(gridHead)
	g.page = p
	st := paper.Style{Size: 8.5, Face: paper.Bold}
	x := a.X
	for _, f := range g.columns {
		lines := st.Wrap(f.head, f.width-1)
		y := a.Y + gridHead - 1.6 - float64(len(lines)-1)*st.Leading()
		for _, line := range lines {
			p.Text(x+0.8, y, line, st)
			y += st.Leading()
		}
		x += f.width
	}
}

// checks draws things to be written before work begins, two in a row, each with
// a square to tick and a line.
func checks(s *paper.Sheet, what ...string) {
	const tall = 9.0
	st := paper.Style{Size: 11}
	for i := 0; i < len(what); i += 2 {
		p, a := s.Room(tall)
		for j, text := range what[i:min(i+2, len(what))] {
			x, half := a.X+float64(j)*a.W/2, a.W/2-4
			p.Box(x, a.Y+2, 4.6)
			w := p.Text(x+7, a.Y+5.8, text, st)
			p.FillIn(x+8.5+w, a.Y+6.6, half-8.5-w)
		}
	}
	s.Space(3)
}
