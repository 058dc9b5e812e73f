package report

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"asfound/installation"
	"asfound/observation"
	"asfound/paper"
	"asfound/site"
	"asfound/trace"
)

var resistorCaution = []string{
	"Dead conductors only. Each panel of this tour: every supply open and locked, absence of voltage tested with the tester tried on a known source before and after. Branch breakers off. Loads unplugged.",
	"No resistor stays on when anything is energized: count them back.",
}

func makeResistors(a *site.AsFound, k Kind) (*paper.Sheet, error) {
	plan, err := tourPlan(a, k)
	if err != nil {
		return nil, err
	}
	s, err := begin(a, k, resistorCaution...)
	if err != nil {
		return nil, err
	}
	for _, thing := range plan.Panel {
		p := a.Panel(thing)
		s.Heading("Panel " + p.Name)
		checks(s, "Locked, by lock", "Tested dead at, by", "Neutral bar joined to ground bar", "Join taken off again")
		t := &paper.Table{Size: 11, Columns: []paper.Column{
			{Head: putHead(plan, thing), Width: 20, Face: paper.Bold}, {Head: "Resistor, hot to ground", Width: 42, Face: paper.Bold},
			{Head: "Conductor and label as found"}, {Head: "On", Width: 14}, {Head: "Off", Width: 14}}}
		for _, put := range plan.Puts {
			if put.On.At == thing {
				t.Rows = append(t.Rows, paper.Row{Height: 8.4, Cells: []paper.Cell{{Text: putName(put.On)},
					{Text: put.Ohm.String()}, {Text: asFound(p, put)}, {Symbol: paper.EmptyBox}, {Symbol: paper.EmptyBox}}})
			}
		}
		s.Table(t)
	}
	left(s, a, plan)
	s.Paragraph(fmt.Sprintf("Resistors put on: %d planned, counted ______ . Then read them back blind from the read-back sheet, before anybody leaves.", len(plan.Puts)))
	return s, nil
}

// left says for which spaces no value was left.
func left(s *paper.Sheet, a *site.AsFound, plan trace.TourPlan) {
	if len(plan.Left) == 0 {
		return
	}
	var names []string
	for _, p := range plan.Left {
		names = append(names, a.PointName(p))
	}
	s.Paragraph("No resistor left that the meter can tell apart: put nothing on " + strings.Join(names, ", ") + ". They need a second tour.")
}

// putName says where in its panel a resistor goes: "34", "cable 7".
func putName(on observation.Point) string {
	switch {
	case on.Space > 0:
		return strconv.Itoa(on.Space)
	case on.Wire == observation.Hot:
		return "cable " + on.Cable
	}
	return on.String()
}

// backName is putName for a line that names the panel as well: "space 34".
func backName(on observation.Point) string {
	if on.Space > 0 {
		return "space " + strconv.Itoa(on.Space)
	}
	return putName(on)
}

// putHead heads the column of where the resistors of a panel go.
func putHead(plan trace.TourPlan, panel observation.Thing) string {
	for _, put := range plan.Puts {
		if put.On.At == panel && put.On.Space == 0 {
			return "Space, cable"
		}
	}
	return "Space"
}

// asFound is what is on record about the conductor of a space, or of a cable
// that lies coiled in the panel.
func asFound(p *installation.Panel, put trace.Put) string {
	if put.On.Space == 0 {
		return coiledAsFound(p, put.On)
	}
	seen := p.Seen[put.On.Space]
	var parts []string
	if seen.Wire != "" {
		parts = append(parts, seen.Wire)
	}
	if seen.Cable != "" {
		parts = append(parts, "cable "+seen.Cable)
	}
	if seen.Label != "" {
		parts = append(parts, "label “"+seen.Label+"”")
	}
	if len(put.Also) > 0 {
		parts = append(parts, "joined with "+numbered(put.Also)+", one resistor for all")
	}
	return strings.Join(parts, " · ")
}

// coiledAsFound says that a cable lands nowhere, and what is written on it.
func coiledAsFound(p *installation.Panel, on observation.Point) string {
	out := "coiled, landed on no space; resistor to the ground of this cable"
	for _, c := range p.Cables {
		if c.Tag == on.Cable && c.Mark != "" {
			out += " · marked “" + c.Mark + "”"
		}
	}
	return out
}

func resistorRows(a *site.AsFound, k Kind) (list, error) {
	l := list{head: []string{"panel", "space", "ohms", "as found"}}
	plan, err := tourPlan(a, k)
	for _, put := range plan.Puts {
		p := a.Panel(put.On.At)
		l.add(a.PointName(put.On), put.Ohm.String()+", "+asFound(p, put), p.Name, putName(put.On), strconv.FormatFloat(float64(put.Ohm), 'f', -1, 64), asFound(p, put))
	}
	return l, err
}

// The read-back sheet names spaces and never a value: whoever reads has to
// write what the meter shows.

func makeReadBack(a *site.AsFound, k Kind) (*paper.Sheet, error) {
	plan, err := tourPlan(a, k)
	if err != nil {
		return nil, err
	}
	s, err := begin(a, k, resistorCaution[0])
	if err != nil {
		return nil, err
	}
	row := 0
	s.Heading("Before the tour: read each resistor, hot to ground, in this order")
	s.Paragraph("Do not look at the resistor list. Lift both leads between two readings. Write what the meter shows.")
	for _, thing := range plan.Panel {
		row = readBack(s, a, thing, backOrder(plan, thing), row)
	}
	s.Break()
	s.Heading("After the tour, before anything is taken off: read each again, in this order")
	for _, thing := range plan.Panel {
		puts := backOrder(plan, thing)
		slices.Reverse(puts)
		row = readBack(s, a, thing, puts, row)
	}
	checks(s, fmt.Sprintf("Resistors back, of %d", len(plan.Puts)), "Counted at, by", "Joins between the bars taken off", "Checked by")
	return s, nil
}

// readBack writes the rows of one panel and returns the number of the last.
func readBack(s *paper.Sheet, a *site.AsFound, panel observation.Thing, puts []trace.Put, row int) int {
	t := &paper.Table{Size: 12, Columns: []paper.Column{{Head: "No.", Width: 14}, {Head: "Panel and space", Width: 46, Face: paper.Bold},
		{Head: "The meter shows", Width: 60}, {Head: "Time", Width: 28}, {Head: "Cannot read"}}}
	for _, put := range puts {
		row++
		t.Rows = append(t.Rows, paper.Row{Height: 9.4, Cells: []paper.Cell{{Text: strconv.Itoa(row)}, {Text: a.Name(panel) + ", " + backName(put.On)},
			{Symbol: paper.WriteLine}, {Symbol: paper.WriteLine}, {Symbol: paper.EmptyBox}}})
	}
	s.Table(t)
	return row
}

func readBackRows(a *site.AsFound, k Kind) (list, error) {
	l := list{head: []string{"no", "when", "panel", "space"}}
	plan, err := tourPlan(a, k)
	row := 0
	for i, when := range []string{"before", "after"} {
		for _, thing := range plan.Panel {
			puts := backOrder(plan, thing)
			if i == 1 {
				slices.Reverse(puts)
			}
			for _, put := range puts {
				row++
				l.add(a.PointName(put.On), "to read "+when+" the tour", strconv.Itoa(row), when, a.Name(thing), putName(put.On))
			}
		}
	}
	return l, err
}
