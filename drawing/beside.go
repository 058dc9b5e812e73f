package drawing

import (
	"fmt"
	"strconv"
	"strings"

	"asfound/paper"
	"asfound/trace"
)

// block is what is written beside a space.
type block struct {
	space   Space
	last    int // the last space of the run that it speaks for
	lines   []written
	remarks []string
	height  float64
}

// written is one line of text over its pencil line.
type written struct {
	text   string
	stroke paper.Stroke
	faint  bool
}

var (
	said   = paper.Style{Size: 10}
	remark = paper.Style{Size: 8, Ink: paper.Faint}
)

const (
	saidTall   = 5.3 // room for the underline included
	remarkTall = 3.8
	blockGap   = 1.9
	indent     = 8.5 // room for the number before the text

	besideWidth = 59.0 // of a block beside the wide face
)

// blocks breaks what is beside each space of a column (1 left, 2 right) into
// lines of the given width. A run of spaces nobody looked at, or of open ones, is
// one block.
func (f *face) blocks(width float64, first int) []block {
	var out []block
	for i := first - 1; i < len(f.spaces); i += 2 {
		last := i
		for f.bare(i) && last+2 < len(f.spaces) && f.bare(last+2) && f.spaces[last+2].State == f.spaces[i].State {
			last += 2
		}
		out = append(out, f.block(f.spaces[i], f.spaces[last].Number, width-indent))
		i = last
	}
	return out
}

// bare reports whether there is nothing to say of a space but that nobody looked
// at it, or that it is open.
func (f *face) bare(i int) bool {
	s := f.spaces[i]
	return (s.State == NotLooked || s.State == Vacant) && len(f.feeds[s.Number]) == 0 && len(f.remarks(s)) == 0
}

// block is what is beside a space, or beside a run of spaces down to another.
func (f *face) block(s Space, last int, width float64) block {
	b := block{space: s, last: last}
	for _, feed := range f.feeds[s.Number] {
		for _, line := range said.Wrap(feed.Say(), width) {
			b.lines = append(b.lines, written{text: line, stroke: Stroke(feed.Standing)})
		}
	}
	if len(b.lines) == 0 {
		say := s.Empty()
		if last > s.Number {
			say += ", down to " + strconv.Itoa(last)
		}
		for _, line := range said.Wrap(say, width) {
			b.lines = append(b.lines, written{text: line, faint: true})
		}
	}
	if remarks := strings.Join(f.remarks(s), " · "); remarks != "" {
		b.remarks = remark.Wrap(remarks, width)
	}
	b.height = saidTall*float64(len(b.lines)) + remarkTall*float64(len(b.remarks)) + blockGap
	return b
}

// blockAloud is a block for whoever cannot see the drawing.
func (f *face) blockAloud(b block) string {
	if b.last > b.space.Number {
		return fmt.Sprintf("Spaces %d to %d of this column. %s.", b.space.Number, b.last, b.space.Empty())
	}
	return f.aloud(b.space)
}

func height(blocks []block) float64 {
	sum := 0.0
	for _, b := range blocks {
		sum += b.height
	}
	return sum
}

// write writes a block with its top at y.
func (b block) write(g *paper.Group, x, y float64) {
	base := y + 3.6
	g.Text(x, base, strconv.Itoa(b.space.Number), paper.Style{Size: 11, Face: paper.Bold})
	for _, line := range b.lines {
		st := said
		if line.faint {
			st.Ink = paper.Faint
		}
		w := g.Text(x+indent, base, line.text, st)
		g.Underline(x+indent, base, w, line.stroke)
		base += saidTall
	}
	for _, r := range b.remarks {
		g.Text(x+indent, base-0.2, r, remark)
		base += remarkTall
	}
}

// beside writes the blocks of one column, each level with its space or, where
// the one above needs the room, lower, with a line leading to its space. It
// returns where the last ends.
func (f *face) beside(g *paper.Group, box interior, blocks []block, x float64) float64 {
	y := box.y
	for _, b := range blocks {
		_, mid := box.row(b.space.Number)
		y = max(y, mid-3.4)
		point := trace.SpacePoint(f.panel.Thing, b.space.Number)
		sub := g.Link(paper.Area{X: x, Y: y, W: besideWidth, H: max(b.height-0.6, 6)}, f.link(point), f.blockAloud(b))
		b.write(sub, x, y)
		f.lead(sub, box, b, x, y+2.4)
		y += b.height
	}
	return y
}

// farthest is how far below its space a text may stand, in millimeters, and
// still have a line to it; beyond, lines lie too close to follow, and the number
// alone says where it belongs.
const farthest = 32.0

// lead draws the line from a space to what is written of it.
func (f *face) lead(g *paper.Group, box interior, b block, x, y float64) {
	c := box.column(b.space.Number)
	_, mid := box.row(b.space.Number)
	if y-mid > farthest {
		return
	}
	far := c.edge + c.out*trimEdge
	near := x - 1 // the text of the right column
	if c.out < 0 {
		near = x + indent + said.Width(b.lines[0].text) + 1.5
	}
	bend := far + c.out*1.2
	g.Polyline(paper.Hair, paper.Point{X: far, Y: mid}, paper.Point{X: bend, Y: mid}, paper.Point{X: bend + c.out*2.4, Y: y}, paper.Point{X: near, Y: y})
}
