package report

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"asfound/drawing"
	"asfound/evidence"
	"asfound/paper"
	"asfound/site"
	"asfound/trace"
)

// directoryFoot writes what stands beneath the spaces: how much is settled,
// what is not, foreign feeds, and room names that will not do.
func directoryFoot(s *paper.Sheet, a *site.AsFound, k Kind, notes []note) {
	s.Heading(settledWords(a, k))
	legend(s, slices.ContainsFunc(drawing.Spaces(panelOf(a, k)), func(s drawing.Space) bool { return s.State == drawing.NotLooked }))
	noteTable(s, "Not settled yet", notes, false)
	noteTable(s, "Fed from no space that was read", notes, true)
	if foreign := foreignFeeds(a, k); len(foreign) > 0 {
		t := &paper.Table{Size: 9.5, Columns: []paper.Column{{Head: "Foreign feeds"}}}
		for _, e := range foreign {
			t.Rows = append(t.Rows, paper.Row{Cells: []paper.Cell{{Text: e.text, Stroke: e.stroke()}}})
		}
		s.Table(t)
	}
	if rooms := occupied(a, k); len(rooms) > 0 {
		s.Paragraph("Room named after a person: " + strings.Join(rooms, ", ") + ". NEC 408.4(A) wants no description that depends on who occupies a room: give the room another name.")
	}
}

// noteTable writes the settled notes or those that are not, under their numbers.
func noteTable(s *paper.Sheet, head string, notes []note, settled bool) {
	t := &paper.Table{Size: 9.5, Columns: []paper.Column{{Head: "Note", Width: 13, Face: paper.Bold}, {Head: head}}}
	for i, n := range notes {
		cell := paper.Cell{Text: n.text}
		if n.line != nil {
			cell.Stroke = drawing.Stroke(n.line.Verdict.Standing)
		}
		if settled == (cell.Stroke == paper.Double) {
			t.Rows = append(t.Rows, paper.Row{Cells: []paper.Cell{{Text: strconv.Itoa(i + 1)}, cell}})
		}
	}
	if len(t.Rows) > 0 {
		s.Table(t)
	}
}

// settledWords count the lines of the panel.
func settledWords(a *site.AsFound, k Kind) string {
	lines := linesOf(a, k)
	settled := 0
	for _, l := range lines {
		if l.Verdict.Standing == evidence.Settled {
			settled++
		}
	}
	return fmt.Sprintf("%d of %s settled", settled, counted(len(lines), "line"))
}

// legend explains the pencil lines, and the hatch where the sheet has one.
func legend(s *paper.Sheet, hatched bool) {
	const line = 5.4
	tall := 2*line + 2.2
	if hatched {
		tall += line
	}
	p, a := s.Room(tall)
	st := paper.Style{Size: 9}
	x, y := a.X, a.Y+3
	for _, standing := range drawing.Standings {
		word := standing.String()
		text := ": " + drawing.Meaning(standing) + "   "
		if x > a.X && x+st.Width(word+text) > a.X+a.W {
			x, y = a.X, y+line
		}
		w := p.Text(x, y, word, st)
		p.Underline(x, y, w, drawing.Stroke(standing))
		x += w
		x += p.Text(x, y, text, st)
	}
	if hatched {
		p.Hatch(paper.Area{X: a.X, Y: y + line - 2.9, W: 10, H: 3.6})
		p.Text(a.X+11, y+line, ": not looked at", st)
	}
}

// foreignFeeds are what this panel feeds in other buildings, and what in its
// own building other buildings' panels feed, which stays live when this panel
// is off.
func foreignFeeds(a *site.AsFound, k Kind) []entrance {
	home := a.BuildingOf(k.Of)
	var out []entrance
	for _, l := range a.Trace.Lines {
		if drawing.Open(l) || l.Source.Kind != trace.FromSpace {
			continue
		}
		here, from := a.BuildingOf(l.End.At), a.BuildingOf(l.Source.At.At)
		if here == from || here == nil || from == nil || here != home && !names(l, k.Of) {
			continue
		}
		text := fmt.Sprintf("%s in %s is fed from %s in %s", drawing.EndName(a.Installation, a.Trace, l.End), here.Name, a.PointName(l.Source.At), from.Name)
		out = append(out, entrance{text: marked(l, text), standing: l.Verdict.Standing})
	}
	return out
}

// occupied lists rooms that this panel feeds and that are named after somebody,
// as far as an apostrophe shows it.
func occupied(a *site.AsFound, k Kind) []string {
	var out []string
	for _, l := range linesOf(a, k) {
		o := a.Opening(l.End.At)
		if o == nil {
			continue
		}
		room := a.Room(o.Room)
		if room != nil && possessive(room.Name) && !slices.Contains(out, room.Name) {
			out = append(out, room.Name)
		}
	}
	return out
}

func possessive(name string) bool {
	name = strings.ReplaceAll(strings.ToLower(name), "’", "'")
	return strings.Contains(name, "'s ") || strings.Contains(name, "s' ") || strings.HasSuffix(name, "'s")
}
