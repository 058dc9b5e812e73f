package report

import (
	"fmt"
	"slices"
	"strings"

	"asfound/count"
	"asfound/drawing"
	"asfound/installation"
	"asfound/observation"
	"asfound/paper"
	"asfound/rule"
	"asfound/site"
)

// makeDifferences makes the list of differences between drawings and building,
// for the builder, with room for an answer to each.
func makeDifferences(a *site.AsFound, k Kind) (*paper.Sheet, error) {
	s, err := begin(a, k)
	if err != nil {
		return nil, err
	}
	d := count.Compare(a.Installation, k.Of)
	s.Heading(drawnWords(d))
	if d.Drawn > 0 {
		s.Paragraph("A drawing is what somebody meant. “Not looked yet” is no difference until somebody looked; where only numbers are compared, no opening is named as the missing one.")
		missingTable(s, a, d)
		countedTable(s, a, d)
		listTable(s, "Found and on no drawing", extraWords(a, d))
	}
	listTable(s, "Numbers given twice", twiceWords(a, d))
	gapTable(s, a, d)
	return s, nil
}

// drawnWords count the drawn openings.
func drawnWords(d count.Differences) string {
	if d.Drawn == 0 {
		return "No drawing is on record: nothing to compare"
	}
	numbered := 0
	for _, c := range d.Counted {
		numbered += len(c.Drawn)
	}
	return fmt.Sprintf("%d drawn: %d paired with an opening, %d not found, %d counted by room and use", d.Drawn, d.Drawn-len(d.Missing)-numbered, len(d.Missing), numbered)
}

// missingTable lists what is drawn and was not found, with room for an answer.
func missingTable(s *paper.Sheet, a *site.AsFound, d count.Differences) {
	t := &paper.Table{Size: 9.5, Columns: []paper.Column{{Head: "Drawn and not found", Width: 62}, {Head: "What became of it"}, {Head: "Your answer", Width: 52}}}
	for _, m := range d.Missing {
		t.Rows = append(t.Rows, paper.Row{Cells: []paper.Cell{{Text: ofBuilding(a, m.Room) + count.DrawnName(a.Installation, m.Drawn)}, {Text: became(a, m)}, {Symbol: paper.WriteLine}}})
	}
	if len(t.Rows) > 0 {
		s.Table(t)
	}
}

// ofBuilding names the building of a room, when there are several.
func ofBuilding(a *site.AsFound, room observation.Thing) string {
	if b := a.BuildingOf(room); b != nil && len(a.Buildings) > 1 {
		return b.Name + ": "
	}
	return ""
}

// became says what became of a drawn opening, what shows it, and where to look.
func became(a *site.AsFound, m count.Missing) string {
	out := sentence(m.OutcomeName())
	if m.How != "" {
		out += ": " + m.How
	}
	if m.Said != nil {
		out += " (" + m.Said.Who + ", " + m.Said.When().In(a.Taken.Location()).Format("January 2, 2006") + ")"
	}
	for _, g := range m.Near {
		out += "\nLook here first: " + g.Say()
	}
	return out
}

func countedTable(s *paper.Sheet, a *site.AsFound, d count.Differences) {
	t := &paper.Table{Size: 9.5, Columns: []paper.Column{{Head: "Counted by room and use"}, {Head: "Your answer", Width: 52}}}
	for _, c := range d.Counted {
		row := paper.Row{Cells: []paper.Cell{{Text: ofBuilding(a, c.Room) + c.Say(a.Installation)}, {}}}
		if len(c.Drawn) != len(c.Found) {
			row.Cells[1].Symbol = paper.WriteLine
		}
		t.Rows = append(t.Rows, row)
	}
	if len(t.Rows) > 0 {
		s.Table(t)
	}
}

func listTable(s *paper.Sheet, head string, rows []string) {
	t := &paper.Table{Size: 9.5, Columns: []paper.Column{{Head: head}}}
	for _, r := range rows {
		t.Rows = append(t.Rows, paper.Row{Cells: []paper.Cell{{Text: r}}})
	}
	if len(rows) > 0 {
		s.Table(t)
	}
}

// extraWords lists what is on no drawing, room by room.
func extraWords(a *site.AsFound, d count.Differences) []string {
	var out []string
	for _, r := range a.Rooms {
		var parts []string
		for _, use := range observation.OpeningUses {
			var numbers []string
			for _, o := range d.Extra {
				if o.Room == r.Thing && o.Use == use {
					numbers = append(numbers, o.Number)
				}
			}
			if len(numbers) > 0 {
				parts = append(parts, useName(use)+" "+strings.Join(drawing.Ranges(numbers), ", "))
			}
		}
		if len(parts) > 0 {
			out = append(out, ofBuilding(a, r.Thing)+r.Name+": "+strings.Join(parts, "; "))
		}
	}
	return out
}

func twiceWords(a *site.AsFound, d count.Differences) []string {
	var out []string
	for _, t := range d.Twice {
		var at []string
		for _, o := range t.Found {
			at = append(at, ofBuilding(a, o.Room)+a.Name(o.Room))
		}
		if len(t.Found) > 0 {
			out = append(out, fmt.Sprintf("%s is on %s: %s", t.Number, counted(len(t.Found), "opening"), strings.Join(at, ", ")))
			continue
		}
		out = append(out, fmt.Sprintf("%s stands %d times on the drawing of %s", t.Number, len(t.Drawn), a.Name(t.Drawn[0].Room)))
	}
	return out
}

// gapTable lists the gaps along walls, room by room, and the rooms of which
// nobody said whether the rule applies.
func gapTable(s *paper.Sheet, a *site.AsFound, d count.Differences) {
	t := &paper.Table{Size: 9.5, Columns: []paper.Column{{Head: "Receptacles along the walls", Width: 45}, {Head: "Gaps by what was measured"}}}
	var unsaid []string
	for _, r := range d.Rooms {
		if r.Applies == observation.NotKnown {
			unsaid = append(unsaid, r.Room.Name)
			continue
		}
		t.Rows = append(t.Rows, paper.Row{Cells: []paper.Cell{{Text: ofBuilding(a, r.Room.Thing) + r.Room.Name}, {Text: strings.Join(r.Say(), "\n")}}})
	}
	if len(t.Rows) > 0 {
		s.Table(t)
		s.Paragraph(rule.SpacingPlace.String() + ". It ranks where to look: a gap suggests a covered box, or one that was never roughed. Whether a receptacle is required there, and whether the requirement is met, the authority having jurisdiction decides.")
		s.Paragraph(rule.SpacingCovers + " " + rule.SpacingLeaves)
	}
	if len(unsaid) > 0 {
		s.Paragraph("Not said whether the spacing of receptacles is required: " + strings.Join(unsaid, ", ") + ".")
	}
}

func differenceRows(a *site.AsFound, k Kind) (list, error) {
	l := list{head: []string{"list", "building", "room", "drawn", "found", "what became of it", "what shows it"}}
	in := a.Installation
	d := count.Compare(in, k.Of)
	row := func(what string, room observation.Thing, key, drawn, found, is, how string) {
		l.add(what+", "+key, strings.Join(slices.DeleteFunc([]string{drawn, found, is, how}, func(s string) bool { return s == "" }), "; "),
			what, in.Name(roomBuilding(a, room)), in.Name(room), drawn, found, is, how)
	}
	for _, m := range d.Missing {
		name := count.DrawnName(in, m.Drawn)
		row("drawn and not found", m.Room, name, name, "", m.OutcomeName(), m.How)
	}
	for _, c := range d.Counted {
		row("counted by room and use", c.Room, in.Name(c.Room)+" "+useName(c.Use), fmt.Sprint(len(c.Drawn)), fmt.Sprint(len(c.Found)), c.Say(in), "")
	}
	if d.Drawn > 0 {
		for _, o := range d.Extra {
			row("found and on no drawing", o.Room, o.Number, "", o.Number+", "+useName(o.Use), "", "")
		}
	}
	for _, p := range d.Pairs {
		row("paired", p.Found.Room, p.Found.Number, drawnNames(in, p.Drawn), p.Found.Number, map[bool]string{true: "as said", false: "same number"}[p.Said], "")
	}
	for i, say := range twiceWords(a, d) {
		room := observation.Thing("")
		if len(d.Twice[i].Drawn) > 0 {
			room = d.Twice[i].Drawn[0].Room
		} else {
			room = d.Twice[i].Found[0].Room
		}
		row("number given twice", room, d.Twice[i].Number, "", "", say, "")
	}
	for _, r := range d.Rooms {
		for _, say := range r.Say() {
			row("receptacles along the walls", r.Room.Thing, in.Name(r.Room.Building)+", "+r.Room.Name, "", "", say, "")
		}
	}
	return l, nil
}

func roomBuilding(a *site.AsFound, room observation.Thing) observation.Thing {
	if r := a.Room(room); r != nil {
		return r.Building
	}
	return room
}

func drawnNames(in *installation.Installation, drawn []*installation.Drawn) string {
	var out []string
	for _, d := range drawn {
		out = append(out, count.DrawnName(in, d))
	}
	return strings.Join(out, " and ")
}
