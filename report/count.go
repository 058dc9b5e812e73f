package report

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"asfound/count"
	"asfound/drawing"
	"asfound/evidence"
	"asfound/installation"
	"asfound/observation"
	"asfound/paper"
	"asfound/site"
)

// makeCount makes the count by room: openings by use, for ordering material, and
// how far they were read.
func makeCount(a *site.AsFound, k Kind) (*paper.Sheet, error) {
	s, err := begin(a, k)
	if err != nil {
		return nil, err
	}
	covered := count.CoverageOf(a.Installation, a.Trace, k.Of)
	s.Heading(sentence(covered.Say()))
	standingLine(s, covered)
	s.Paragraph("Counted are openings on record, as found. What is drawn and was not found is not counted here: it stands on the list of differences.")
	for _, b := range buildings(a, k) {
		s.Table(countTable(a, b))
	}
	s.Table(gangTable(a, k))
	if names := equipment(a, k); len(names) > 0 {
		s.Heading("Equipment, as noted")
		s.Paragraph(strings.Join(names, "; ") + ".")
	}
	return s, nil
}

// sentence begins a text with a capital.
func sentence(text string) string { return strings.ToUpper(text[:1]) + text[1:] }

// standingLine writes how many lines stand how firmly, each over its pencil line.
func standingLine(s *paper.Sheet, c count.Coverage) {
	p, a := s.Room(7)
	x := a.X + p.Text(a.X, a.Y+3.4, "Lines: ", paper.Style{Size: 10.5})
	some := false
	for _, st := range drawing.Standings {
		if n := c.Lines[st]; n > 0 {
			some = true
			w := p.Text(x, a.Y+3.4, fmt.Sprintf("%d %s", n, st), paper.Style{Size: 10.5})
			p.Underline(x, a.Y+3.4, w, drawing.Stroke(st))
			x += w + 6
		}
	}
	if !some {
		p.Text(x, a.Y+3.4, "none read", paper.Style{Size: 10.5})
	}
}

var useHeads = map[observation.OpeningUse]string{
	observation.Receptacle: "Recept.", observation.Switch: "Switch", observation.Lighting: "Lighting",
	observation.Equipment: "Equip.", observation.Junction: "Junct. box", observation.NoUse: "Use not known",
}

// countTable counts the rooms of a building.
func countTable(a *site.AsFound, b *installation.Building) *paper.Table {
	t := &paper.Table{Size: 9, Columns: []paper.Column{{Head: b.Name}}}
	for _, use := range observation.OpeningUses {
		t.Columns = append(t.Columns, paper.Column{Head: useHeads[use], Width: 18.5, Anchor: paper.End})
	}
	t.Columns = append(t.Columns, paper.Column{Head: "All", Width: 12, Anchor: paper.End}, paper.Column{Head: "Read", Width: 19, Anchor: paper.End})
	for _, r := range count.Rooms(a.Installation, b.Thing) {
		t.Rows = append(t.Rows, countRow(a, r.Name, r.Thing))
	}
	t.Foot = []paper.Row{countRow(a, "All rooms", b.Thing)}
	return t
}

func countRow(a *site.AsFound, name string, of observation.Thing) paper.Row {
	row := paper.Row{Cells: []paper.Cell{{Text: name}}}
	uses := count.ByUse(a.Installation, of)
	for _, use := range observation.OpeningUses {
		text := "–"
		if i := slices.IndexFunc(uses, func(u count.Uses) bool { return u.Use == use }); i >= 0 {
			text = strconv.Itoa(uses[i].Openings)
		}
		row.Cells = append(row.Cells, paper.Cell{Text: text})
	}
	c := count.CoverageOf(a.Installation, a.Trace, of)
	return paper.Row{Cells: append(row.Cells, paper.Cell{Text: strconv.Itoa(c.Openings)}, paper.Cell{Text: fmt.Sprintf("%d of %d", c.Visits[count.Read], c.Openings)})}
}

// gangTable counts gangs by use, as far as they were noted.
func gangTable(a *site.AsFound, k Kind) *paper.Table {
	t := &paper.Table{Size: 9.5, Columns: []paper.Column{{Head: "For material"}, {Head: "Openings", Width: 28, Anchor: paper.End},
		{Head: "Gangs noted", Width: 30, Anchor: paper.End}, {Head: "Openings whose gangs were not noted", Width: 48, Anchor: paper.End}}}
	for _, u := range count.ByUse(a.Installation, k.Of) {
		t.Rows = append(t.Rows, paper.Row{Cells: []paper.Cell{{Text: useName(u.Use)}, {Text: strconv.Itoa(u.Openings)}, {Text: strconv.Itoa(u.Gangs)}, {Text: strconv.Itoa(u.NoGangs)}}})
	}
	return t
}

func useName(use observation.OpeningUse) string {
	if use == observation.NoUse {
		return "use not known"
	}
	return string(use)
}

func equipment(a *site.AsFound, k Kind) []string {
	var out []string
	for _, o := range count.Openings(a.Installation, k.Of) {
		if note := strings.TrimSpace(o.Note); o.Use == observation.Equipment && note != "" {
			out = append(out, o.Number+" "+note)
		}
	}
	return out
}

func countRows(a *site.AsFound, k Kind) (list, error) {
	l := list{head: []string{"building", "room", "use", "openings", "gangs noted", "openings whose gangs were not noted"}}
	for _, r := range count.Rooms(a.Installation, k.Of) {
		building := a.Name(r.Building)
		for _, u := range count.ByUse(a.Installation, r.Thing) {
			said := fmt.Sprintf("%d, gangs %d, not noted %d", u.Openings, u.Gangs, u.NoGangs)
			l.add(building+", "+r.Name+", "+useName(u.Use), said, building, r.Name, useName(u.Use), strconv.Itoa(u.Openings), strconv.Itoa(u.Gangs), strconv.Itoa(u.NoGangs))
		}
	}
	c := count.CoverageOf(a.Installation, a.Trace, k.Of)
	l.add("openings read", c.Say(), "", "", c.Say(), strconv.Itoa(c.Openings), "", "")
	for st := evidence.Clash; st >= evidence.Untested; st-- {
		if n := c.Lines[st]; n > 0 {
			l.add("lines "+st.String(), strconv.Itoa(n), "", "", "lines "+st.String(), strconv.Itoa(n), "", "")
		}
	}
	return l, nil
}
