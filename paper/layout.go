package paper

// rowText is a row with its texts broken into lines.
type rowText struct {
	row    Row
	foot   bool
	cols   []Area     // where each cell stands across
	styles []Style    // of each cell
	lines  [][]string // of each cell
	tall   float64    // height of one line
	count  int        // lines of the tallest cell
}

// piece is a row, or as many of its lines as fit, placed on a page.
type piece struct {
	text     *rowText
	from, to int // lines
	page     int // 0 is the page the table begins on
	head     bool
	area     Area
}

// head returns the repeated head as a row; ok is false if no column has one.
func (t *Table) head(area Area) (head *rowText, ok bool) {
	row := Row{Cells: make([]Cell, len(t.Columns))}
	for i, c := range t.Columns {
		row.Cells[i] = Cell{Text: c.Head, Bold: true}
		ok = ok || c.Head != ""
	}
	return t.breakRow(row, area), ok
}

// atMost cuts the head of a column too narrow for it, so that rows have room
// beneath it on every page.
func (b *rowText) atMost(height float64) {
	most := max(1, int((height-2*rowPad)/b.tall))
	b.count = min(b.count, most)
	for i, lines := range b.lines {
		b.lines[i] = lines[:min(len(lines), most)]
	}
}

func (t *Table) breakRow(r Row, area Area) *rowText {
	b := &rowText{row: r, cols: t.columns(area.X, area.W)}
	if r.Span {
		b.cols = []Area{{X: area.X, W: area.W}}
	}
	for i, cell := range r.Cells {
		if i >= len(b.cols) {
			break
		}
		st := t.style(i, cell)
		if r.Span {
			st.Anchor = Start
		}
		lines := st.Wrap(cell.Text, b.cols[i].W-2*cellPad-cell.indent())
		if cell.Symbol == WriteLine {
			b.row.Height = max(b.row.Height, writeRoom)
		}
		b.styles, b.lines = append(b.styles, st), append(b.lines, lines)
		b.count = max(b.count, len(lines))
		b.tall = max(b.tall, st.Leading(), cell.least(st))
	}
	b.count = max(b.count, 1)
	b.tall = max(b.tall, symbolSize)
	return b
}

// indent returns the room a symbol takes from the text.
func (c Cell) indent() float64 {
	if c.Symbol == EmptyBox || c.Symbol == Ticked {
		return symbolSize + symbolGap
	}
	return 0
}

// least returns the line height the cell needs for its underline.
func (c Cell) least(st Style) float64 {
	if c.Stroke != None {
		return 0.8*st.MM() + UnderlineRoom + 0.4
	}
	return 0
}

// bare returns the height of some lines of the row, and height that of the row
// with its least height, if they are all of them.
func (b *rowText) bare(from, to int) float64 { return float64(to-from)*b.tall + 2*rowPad }

func (b *rowText) height(from, to int) float64 {
	if from == 0 && to == b.count {
		return max(b.bare(from, to), b.row.Height)
	}
	return b.bare(from, to)
}

// layout places every row: first in what is left of this page, then on as many
// pages of the size of rest as needed. Heads are placed as pieces of their own.
func (t *Table) layout(first, rest Area) []piece {
	t.check()
	l := layout{area: first, rest: rest, y: first.Y}
	l.head, l.headed = t.head(first)
	l.head.atMost(rest.H / 2)
	rows := t.broken(first)
	for i, b := range rows {
		l.place(b, keep(rows, i))
	}
	if len(rows) == 0 {
		l.begin()
	}
	return l.pieces
}

// broken returns rows and foot with their texts broken into lines.
func (t *Table) broken(area Area) []*rowText {
	rows := make([]*rowText, 0, len(t.Rows)+len(t.Foot))
	for _, r := range t.Rows {
		rows = append(rows, t.breakRow(r, area))
	}
	for _, r := range t.Foot {
		r.Cells = boldCells(r.Cells)
		b := t.breakRow(r, area)
		b.foot = true
		rows = append(rows, b)
	}
	return rows
}

// keep returns the height of a row with those that must stand on its page: a
// section head keeps the next row, and the last row keeps the foot.
func keep(rows []*rowText, i int) float64 {
	need := rows[i].height(0, rows[i].count)
	if i+1 < len(rows) && (rows[i].row.Span || rows[i+1].foot) {
		need += keep(rows, i+1)
	}
	return need
}

func boldCells(cells []Cell) []Cell {
	bold := append([]Cell(nil), cells...)
	for i := range bold {
		bold[i].Bold = true
	}
	return bold
}

type layout struct {
	head   *rowText
	headed bool
	area   Area // of the page being filled
	rest   Area
	y      float64
	page   int
	begun  bool // the head stands on this page
	rows   int  // pieces other than the head on this page
	pieces []piece
}

func (l *layout) left() float64 { return l.area.Y + l.area.H - l.y }

// headRoom is what the head will still take on this page.
func (l *layout) headRoom() float64 {
	if l.begun || !l.headed {
		return 0
	}
	return l.head.height(0, l.head.count)
}

func (l *layout) place(b *rowText, need float64) {
	fresh := l.rest.H
	if l.headed {
		fresh -= l.head.height(0, l.head.count)
	}
	need = min(need, max(fresh, b.bare(0, b.count)))
	if need > l.left()-l.headRoom() && (need <= fresh || !l.fits(b)) && !l.blank() {
		l.turn()
	}
	for from := 0; from < b.count; {
		l.begin()
		to := b.count
		if b.bare(from, to) > l.left() {
			to = from + int((l.left()-2*rowPad)/b.tall)
			to = min(max(to, from+1), b.count) // always go forward
		}
		l.set(b, from, to)
		if from = to; from < b.count {
			l.turn()
		}
	}
}

// fits tells whether at least one line of the row fits on this page.
func (l *layout) fits(b *rowText) bool {
	return b.tall+2*rowPad <= l.left()-l.headRoom()
}

// blank tells that turning the page would gain nothing.
func (l *layout) blank() bool { return l.page > 0 && l.rows == 0 }

func (l *layout) turn() {
	l.page++
	l.area, l.y, l.begun, l.rows = l.rest, l.rest.Y, false, 0
}

func (l *layout) begin() {
	if l.begun {
		return
	}
	l.begun = true
	if l.headed {
		l.set(l.head, 0, l.head.count)
		l.pieces[len(l.pieces)-1].head = true
		l.rows = 0
	}
}

// set places some lines. Room to write gives way before the page overflows.
func (l *layout) set(b *rowText, from, to int) {
	h := max(b.bare(from, to), min(b.height(from, to), l.left()))
	area := Area{l.area.X, l.y, l.area.W, h}
	l.pieces = append(l.pieces, piece{text: b, from: from, to: to, page: l.page, area: area})
	l.y += h
	l.rows++
}
