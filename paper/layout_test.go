package paper

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func drawTable(t *rapid.T) *Table {
	tab := &Table{Size: rapid.Float64Range(6, 14).Draw(t, "size")}
	for i := range rapid.IntRange(1, 5).Draw(t, "columns") {
		tab.Columns = append(tab.Columns, Column{
			Head:  rapid.SampledFrom([]string{"", "Space", "What it feeds, as found"}).Draw(t, "head"),
			Width: rapid.SampledFrom([]float64{0, 12, 30, 90}).Draw(t, fmt.Sprint("width", i)),
		})
	}
	for range rapid.IntRange(0, 40).Draw(t, "rows") {
		tab.Rows = append(tab.Rows, drawRow(t, len(tab.Columns)))
	}
	for range rapid.IntRange(0, 2).Draw(t, "foot rows") {
		tab.Foot = append(tab.Foot, drawRow(t, len(tab.Columns)))
	}
	return tab
}

func drawRow(t *rapid.T, columns int) Row {
	r := Row{
		Height: rapid.SampledFrom([]float64{0, 0, 12, 500}).Draw(t, "height"),
		Span:   rapid.IntRange(0, 5).Draw(t, "span") == 0,
	}
	for range rapid.IntRange(0, columns).Draw(t, "cells") {
		words := rapid.SampledFrom([]int{0, 1, 3, 12, 300}).Draw(t, "words")
		r.Cells = append(r.Cells, Cell{
			Text:   strings.Repeat("kitchen ", words),
			Stroke: Stroke(rapid.IntRange(0, 4).Draw(t, "stroke")),
			Symbol: Symbol(rapid.IntRange(0, 4).Draw(t, "symbol")),
		})
	}
	if r.Span && len(r.Cells) > 1 {
		r.Cells = r.Cells[:1]
	}
	return r
}

func TestTableLosesNoRowAndNoneOverlap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tab := drawTable(t)
		first := Area{15, 60, 180, rapid.Float64Range(0, 190).Draw(t, "first page")}
		rest := Area{15, 25, 180, rapid.Float64Range(90, 230).Draw(t, "other pages")}
		pieces := tab.layout(first, rest)
		checkOrder(t, tab, pieces)
		checkPlaces(t, pieces, first, rest)
	})
}

// checkOrder wants each line of each row once, in order.
func checkOrder(t *rapid.T, tab *Table, pieces []piece) {
	row, line := 0, 0
	all := append(append([]Row(nil), tab.Rows...), tab.Foot...)
	for _, p := range pieces {
		if p.head {
			continue
		}
		if p.from != line || p.to <= p.from {
			t.Fatalf("row %d: lines %d to %d follow line %d", row, p.from, p.to, line)
		}
		for i, lines := range p.text.lines {
			want := strings.TrimSpace(all[row].Cells[i].Text)
			if got := strings.Join(lines, " "); strings.ReplaceAll(got, " ", "") != strings.ReplaceAll(want, " ", "") {
				t.Fatalf("row %d cell %d: %q, want %q", row, i, got, want)
			}
		}
		if line = p.to; line == p.text.count {
			row, line = row+1, 0
		}
	}
	if row != len(all) || line != 0 {
		t.Fatalf("placed %d rows of %d", row, len(all))
	}
}

// checkPlaces wants pieces one under another, inside the page, each page headed.
func checkPlaces(t *rapid.T, pieces []piece, first, rest Area) {
	page, y := 0, first.Y
	for i, p := range pieces {
		area := first
		if p.page > 0 {
			area = rest
		}
		if p.page < page || p.page > page+1 {
			t.Fatalf("piece %d jumps from page %d to %d", i, page, p.page)
		}
		if p.page != page {
			page, y = p.page, rest.Y
			if pieces[0].head != p.head {
				t.Fatalf("page %d begins without the head", page)
			}
		}
		if p.area.Y != y {
			t.Fatalf("piece %d at %.2f, the one above ends at %.2f", i, p.area.Y, y)
		}
		y += p.area.H
		if bottom := area.Y + area.H; y > bottom+1e-6 && !p.head {
			t.Fatalf("piece %d ends at %.2f, the page at %.2f", i, y, bottom)
		}
		if need := p.text.bare(p.from, p.to); p.area.H < need-1e-9 {
			t.Fatalf("piece %d is %.2f high, its text %.2f", i, p.area.H, need)
		}
	}
}

func TestASectionHeadIsKeptWithItsFirstRow(t *testing.T) {
	tab := &Table{Columns: []Column{{Head: "Line"}}}
	for i := range 60 {
		span := i%7 == 3
		tab.Rows = append(tab.Rows, Row{Cells: []Cell{{Text: fmt.Sprint(i)}}, Span: span})
	}
	area := Area{0, 0, 100, 61}
	pieces := tab.layout(area, area)
	for i, p := range pieces[:len(pieces)-1] {
		if p.text.row.Span && pieces[i+1].page != p.page {
			t.Errorf("section %q stands alone at the foot of page %d", p.text.row.Cells[0].Text, p.page)
		}
	}
}

func TestTheFootIsKeptWithTheLastRow(t *testing.T) {
	for n := 1; n < 40; n++ {
		tab := &Table{Columns: []Column{{Head: "Line"}}, Foot: []Row{{Cells: []Cell{{Text: "total"}}}}}
		for i := range n {
			tab.Rows = append(tab.Rows, Row{Cells: []Cell{{Text: fmt.Sprint(i)}}})
		}
		area := Area{0, 0, 100, 61}
		pieces := tab.layout(area, area)
		last, foot := pieces[len(pieces)-2], pieces[len(pieces)-1]
		if !foot.text.foot || last.page != foot.page || last.head {
			t.Errorf("%d rows: the foot on page %d, the piece above it on page %d", n, foot.page, last.page)
		}
	}
}

func TestColumnsFillTheWidth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tab := drawTable(t)
		cols := tab.columns(10, 180)
		x := 10.0
		for i, c := range cols {
			if diff := c.X - x; diff > 1e-6 || diff < -1e-6 || c.W <= 0 {
				t.Fatalf("column %d at %.2f, want %.2f", i, c.X, x)
			}
			x += c.W
		}
		if x > 190+1e-6 {
			t.Fatalf("columns end at %.2f, the page at 190", x)
		}
	})
}

func TestARowWithTooManyCellsIsRefused(t *testing.T) {
	defer func() {
		if recover() == nil {
			t.Error("a cell without a column was dropped in silence")
		}
	}()
	tab := &Table{Columns: []Column{{}}, Rows: []Row{{Cells: make([]Cell, 2)}}}
	tab.layout(Area{0, 0, 100, 100}, Area{0, 0, 100, 100})
}
