package report

import (
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
// two letters, or a square to tick.
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
)

const gridHead = 9.5 // millimeters

// row draws a row with the given texts printed in its first fields. The row,
// and its head on a new page, are kept with room more millimeters below.
func (g *grid) row(room float64, texts ...string) {
	need := g.height + room
	if g.page != g.sheet.Page() {
		need += gridHead
	}
	if need > g.sheet.Free().H {
		g.sheet.Break()
	}
	if g.page != g.sheet.Page() {
		g.head()
	}
	p, a := g.sheet.Room(g.height)
	x := a.X
	for i, f := range g.columns {
		cell := paper.Area{X: x, Y: a.Y, W: f.width, H: g.height}
		text := ""
		if i < len(texts) {
			text = texts[i]
		}
		g.cell(p, f, cell, text)
		x += f.width
	}
}

func (g *grid) cell(p *paper.Page, f field, a paper.Area, text string) {
	p.Rect(a, paper.Thin, paper.NoInk)
	mid := a.Y + a.H/2
	switch f.kind {
	case twoLetters:
		const box = 8.0
		for i := range 2 {
			p.Box(a.X+a.W/2-box-0.5+float64(i)*(box+1), mid-box/2, box)
		}
	case toTick:
		p.Box(a.X+a.W/2-2.4, mid-2.4, 4.8)
	}
	if text != "" {
		g.print(p, f, a, text)
	}
}

// print sets a text in a cell, smaller or in two lines when it is long: a
// number must never be cut.
func (g *grid) print(p *paper.Page, f field, a paper.Area, text string) {
	st := paper.Style{Size: g.size, Face: f.face}
	for st.Size > 6.5 && (len(st.Wrap(text, a.W-2)) > 1) {
		st.Size -= 0.5
	}
	lines := st.Wrap(text, a.W-2)
	y := a.Y + a.H/2 + 0.36*st.MM() - float64(len(lines)-1)*st.Leading()/2
	for _, line := range lines {
		p.Text(a.X+1, y, line, st)
		y += st.Leading()
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
