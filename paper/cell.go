package paper

// draw puts one placed piece on the page. A head has a firm rule beneath, a foot
// a firm rule above, and every other row a hair line beneath.
func (p piece) draw(g *Group) {
	if p.text.row.Name != "" || p.text.row.Href != "" {
		g = g.Link(p.area, p.text.row.Href, p.text.row.Name)
	}
	for i := range p.text.lines {
		p.drawCell(g, i)
	}
	left, right, bottom := p.area.X, p.area.X+p.area.W, p.area.Y+p.area.H
	switch {
	case p.head:
		g.Line(left, bottom, right, bottom, Firm)
	case p.text.foot && p.from == 0:
		g.Line(left, p.area.Y, right, p.area.Y, Thin)
	case p.text.foot:
	default:
		g.Line(left, bottom, right, bottom, Hair)
	}
}

func (p piece) drawCell(g *Group, i int) {
	cell, col := p.text.row.Cells[i], p.text.cols[i]
	p.drawSymbol(g, cell, Area{col.X, p.area.Y, col.W, p.area.H})
	st := p.text.styles[i]
	lines := p.text.lines[i]
	y := p.area.Y + rowPad + 0.8*st.MM()
	for n := p.from; n < min(p.to, len(lines)); n++ {
		x := textX(col, cell.indent(), st.Anchor)
		width := st.Width(lines[n])
		start := x - width*[...]float64{0, 0.5, 1}[st.Anchor]
		if cell.Symbol == NotKnown && lines[n] != "" {
			g.Rect(Area{start - 0.8, y - 0.9*st.MM(), width + 1.6, 1.3 * st.MM()}, Pen{}, Ground)
		}
		g.Text(x, y, lines[n], st)
		if lines[n] != "" {
			g.Underline(start, y, width, cell.Stroke)
		}
		y += p.text.tall
	}
}

func textX(col Area, indent float64, a Anchor) float64 {
	left, right := col.X+cellPad+indent, col.X+col.W-cellPad
	return [...]float64{left, (left + right) / 2, right}[a]
}

// drawSymbol draws what stands beside or behind the text. A box belongs to the
// first piece of a row, a line to write on to the last.
func (p piece) drawSymbol(g *Group, c Cell, a Area) {
	x, y := a.X+cellPad, a.Y+rowPad
	switch c.Symbol {
	case EmptyBox, Ticked:
		if p.from > 0 {
			return
		}
		g.Box(x, y, symbolSize)
		if c.Symbol == Ticked {
			g.Tick(x, y-0.4, symbolSize+0.6)
		}
	case WriteLine:
		if p.to == p.text.count {
			g.FillIn(x, a.Y+a.H-writeLift, a.W-2*cellPad)
		}
	case NotKnown:
		g.Hatch(Area{x, a.Y + 0.7, a.W - 2*cellPad, a.H - 1.4})
	}
}
