package report

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"asfound/drawing"
	"asfound/installation"
	"asfound/observation"
	"asfound/paper"
	"asfound/site"
)

// seenSpace is a space of a panel as it was found.
type seenSpace struct {
	space       int
	breaker, on string // what sits in it, what lands on it
	label       string // exactly as found
}

// bare reports whether nothing at all was noted of the space.
func (s seenSpace) bare() bool { return s.on == "" && s.label == "" }

func (s seenSpace) say() string {
	out := s.breaker
	for _, part := range []string{s.on, s.label} {
		if part != "" {
			out += ", " + part
		}
	}
	return out
}

func panelSpaces(p *installation.Panel) []seenSpace {
	var out []seenSpace
	for _, s := range drawing.Spaces(p) {
		row := seenSpace{space: s.Number, breaker: "not looked at"}
		if s.State != drawing.NotLooked {
			row.breaker, row.on, row.label = s.Words(), s.LandsWords(), "no label"
		}
		if s.Label != "" {
			row.label = "“" + s.Label + "”"
		}
		out = append(out, row)
	}
	return out
}

// takeOverPanel is a panel's face as found, its two columns side by side.
func takeOverPanel(s *paper.Sheet, a *site.AsFound, p *installation.Panel) {
	headed(s, "Panel "+p.Name+", "+a.Name(p.Building))
	for _, say := range panelWords(a, p) {
		s.Paragraph(say)
	}
	t := &paper.Table{Size: 8.5, Columns: []paper.Column{
		{Head: "Space", Width: 14.5, Face: paper.Bold}, {Head: "Breaker, and what lands"}, {Head: "Label, exactly as found", Width: 34},
		{Head: "Space", Width: 14.5, Face: paper.Bold}, {Head: "Breaker, and what lands"}, {Head: "Label, exactly as found", Width: 34}}}
	rows := panelSpaces(p)
	for i := 0; i < len(rows); i += 2 {
		if end := notLookedTo(rows, i); end > i+2 {
			t.Rows = append(t.Rows, paper.Row{Cells: []paper.Cell{{Text: fmt.Sprintf("%d to %d", rows[i].space, rows[end-1].space)}, {Text: "not looked at"}}})
			i = end - 2
			continue
		}
		var cells []paper.Cell
		for _, row := range rows[i:min(i+2, len(rows))] {
			cells = append(cells, paper.Cell{Text: strconv.Itoa(row.space)}, paper.Cell{Text: strings.Trim(row.breaker+", "+row.on, ", ")}, paper.Cell{Text: row.label})
		}
		t.Rows = append(t.Rows, paper.Row{Cells: cells})
	}
	s.Table(t)
}

// notLookedTo is the end of the run of spaces from i that nobody looked at,
// counted in whole rows.
func notLookedTo(rows []seenSpace, i int) int {
	for i+1 < len(rows) && rows[i].bare() && rows[i+1].bare() {
		i += 2
	}
	return i
}

// panelWords say what was found at a panel beside its spaces.
func panelWords(a *site.AsFound, p *installation.Panel) []string {
	first := counted(p.Spaces, "space") + ", " + strconv.Itoa(len(p.Seen)) + " looked at. "
	if p.FedFrom == "" {
		first += "No label says what feeds it."
	} else {
		first += "Its label says it is fed from “" + p.FedFrom + "”."
	}
	if room := a.Room(p.Room); room != nil {
		first += " In " + room.Name + "."
	}
	if p.Note != "" {
		first += " Note: " + p.Note + "."
	}
	out := []string{first}
	for _, c := range p.Cables {
		out = append(out, "Lies in the cabinet: "+seenCable(c))
	}
	for _, pass := range p.Passes {
		out = append(out, "Passing through without landing: "+counted(pass.Count, "conductor"))
	}
	for _, e := range p.Story {
		if b, ok := e.Body.(observation.Raceway); ok && e.Live() {
			parts := slices.DeleteFunc([]string{b.Tag, b.Type, b.Side, b.Note}, func(s string) bool { return s == "" })
			out = append(out, "Raceway "+strings.Join(parts, ", "))
		}
	}
	if p.Cabinet == nil {
		return append(out, "The cabinet was not measured.")
	}
	return out
}
