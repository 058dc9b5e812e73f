package report

import (
	"strings"

	"asfound/installation"
	"asfound/paper"
	"asfound/pattern"
	"asfound/site"
)

func makeTapes(a *site.AsFound, k Kind) (*paper.Sheet, error) {
	s, err := begin(a, k)
	if err != nil {
		return nil, err
	}
	s.Paragraph("Write each number on its tape with the two letters behind it, large. Tick it when the tape is on the box. Keep this list away from the tour: there the letters are read from the tape.")
	const across = 3
	t := &paper.Table{Size: 13}
	for range across {
		t.Columns = append(t.Columns, paper.Column{Head: "", Width: 8}, paper.Column{Head: "Number", Face: paper.Bold}, paper.Column{Head: "Letters", Width: 19, Face: paper.Mono})
	}
	for _, room := range a.Rooms {
		openings := a.In(room.Thing)
		if room.Building != k.Of || len(openings) == 0 {
			continue
		}
		t.Rows = append(t.Rows, paper.Row{Span: true, Cells: []paper.Cell{{Text: room.Name, Bold: true}}})
		for i := 0; i < len(openings); i += across {
			var row paper.Row
			for _, o := range openings[i:min(i+across, len(openings))] {
				row.Cells = append(row.Cells, paper.Cell{Symbol: paper.EmptyBox}, paper.Cell{Text: o.Number + twice(a, o)}, paper.Cell{Text: spacedLetters(o)})
			}
			t.Rows = append(t.Rows, row)
		}
	}
	s.Table(t)
	return s, nil
}

// spacedLetters are the check letters, apart: "K M". A number without a letter
// or figure has none.
func spacedLetters(o *installation.Opening) string {
	letters := pattern.Letters(o.Number)
	if letters == "" {
		return "none"
	}
	return strings.Join(strings.Split(letters, ""), " ")
}

// twice marks a number that two openings bear.
func twice(a *site.AsFound, o *installation.Opening) string {
	if len(a.Numbered(o.Number)) > 1 {
		return " (twice!)"
	}
	return ""
}

func tapeRows(a *site.AsFound, k Kind) (list, error) {
	l := list{head: []string{"number", "letters", "room"}}
	for _, room := range a.Rooms {
		if room.Building != k.Of {
			continue
		}
		for _, o := range a.In(room.Thing) {
			l.add(o.Number, room.Name, o.Number, pattern.Letters(o.Number), room.Name)
		}
	}
	return l, nil
}
