package report

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"asfound/drawing"
	"asfound/evidence"
	"asfound/observation"
	"asfound/paper"
	"asfound/site"
	"asfound/trace"
)

// The directory follows the intent of National Electrical Code 408.4(A): each
// circuit identified by its clear, specific purpose, in words that do not
// depend on who occupies a room, and spares said to be spare. Which edition is
// adopted, and whether the directory meets it, the authority having
// jurisdiction decides.

// entrance is what a directory says of one space in one line.
type entrance struct {
	text     string
	said     string // the same without the numbers of notes
	standing evidence.Standing
	plain    bool // no statement about a conductor: spare, not looked at
}

// stroke is the pencil line under an entrance.
func (e entrance) stroke() paper.Stroke {
	if e.plain {
		return paper.None
	}
	return drawing.Stroke(e.standing)
}

// entrances are the lines of a space. A statement without one answer names
// nothing: it points to the notes.
func entrances(a *site.AsFound, k Kind, s drawing.Space, notes []note) []entrance {
	var out []entrance
	var likely, closed []string
	for _, f := range drawing.Feeds(a.Installation, a.Trace, k.Of, s.Number) {
		if f.Standing == evidence.Settled || f.Standing == evidence.Likely { // the others have notes
			closed = append(closed, closedEnds(a, f.Lines)...)
		}
		switch f.Standing {
		case evidence.Settled:
			out = append(out, entrance{text: f.Text, said: f.Text, standing: f.Standing})
		case evidence.Likely:
			likely = append(likely, f.Text)
		}
	}
	if len(likely) > 0 {
		text := "Not settled, likely: " + strings.Join(likely, "; ")
		out = append(out, entrance{text: text, said: text, standing: evidence.Likely})
	}
	out = append(out, pointers(k, s, notes)...)
	if len(closed) > 0 {
		out = append(out, remark("Reads closed: "+strings.Join(closed, ", ")+": "+closedWords))
	}
	if len(out) == 0 {
		out = append(out, remark(s.Empty()))
	} else if s.Spare() {
		out = append(out, remark("Recorded as spare: look again"))
	}
	if with, settled := drawing.JoinedWith(a.Trace, k.Of, s.Number); with != "" {
		text := "Joined with " + with + ": lock out all of them"
		if !settled {
			text = "Not settled: joined with " + with + "; lock out all of them"
		}
		if acrossLegs(a, k, s.Number) {
			text += ". Opposite legs: do not energize"
		}
		out = append(out, remark(text))
	}
	return out
}

// closedWords is what it means that an end reads no more than conductors to
// ground or neutral.
const closedWords = "a load is still connected there, or a fault; do not energize"

// closedEnds names the lines that read closed.
func closedEnds(a *site.AsFound, lines []*trace.Line) []string {
	var out []string
	for _, l := range lines {
		if l.Closed {
			out = append(out, drawing.EndName(a.Installation, a.Trace, l.End))
		}
	}
	return out
}

// remark is an entrance that is no statement about a conductor.
func remark(text string) entrance { return entrance{text: text, said: text, plain: true} }

// acrossLegs reports whether a space was found joined with one on the other leg.
func acrossLegs(a *site.AsFound, k Kind, space int) bool {
	return slices.ContainsFunc(a.Trace.Joins, func(j *trace.Join) bool {
		return j.Panel == k.Of && j.Kind == trace.Joined && j.Cross == observation.Yes && (j.A == space || j.B == space)
	})
}

// pointers say that some line which has no one answer may be on this space.
func pointers(k Kind, s drawing.Space, notes []note) []entrance {
	var out []entrance
	for _, standing := range []evidence.Standing{evidence.Undecided, evidence.Clash} {
		var numbers []string
		for i, n := range notes {
			if n.line != nil && n.line.Verdict.Standing == standing && n.may(k.Of, s.Number) {
				numbers = append(numbers, strconv.Itoa(i+1))
			}
		}
		if len(numbers) > 0 {
			text := "Not settled, " + standing.String()
			out = append(out, entrance{text: text + ": see note " + strings.Join(numbers, ", "), said: text, standing: standing})
		}
	}
	return out
}

// breakerWords are short: the column is narrow.
func breakerWords(s drawing.Space) string {
	if s.State != drawing.Breaker {
		return ""
	}
	amps := "? A"
	if s.Amps > 0 {
		amps = s.Amps.String()
	}
	switch {
	case s.Upper > 0:
		return "with " + strconv.Itoa(s.Upper)
	case s.Poles > 0:
		return fmt.Sprintf("%s %dP", amps, s.Poles)
	}
	return amps
}

func makeDirectory(a *site.AsFound, k Kind) (*paper.Sheet, error) {
	caution := []string{"This list says what was read. It does not say that anything is dead: open, lock, and test for absence of voltage before you touch a conductor."}
	if passing := drawing.Passing(panelOf(a, k)); passing != "" {
		caution = append(caution, passing)
	}
	s, err := begin(a, k, caution...)
	if err != nil {
		return nil, err
	}
	notes := notesOf(a, k)
	t := &paper.Table{Size: 9.5}
	for range 2 {
		t.Columns = append(t.Columns, paper.Column{Head: "Space", Width: 14, Face: paper.Bold}, paper.Column{Head: "Breaker", Width: 18}, paper.Column{Head: "Feeds"})
	}
	spaces := drawing.Spaces(panelOf(a, k))
	for i := 0; i < len(spaces); {
		if n := run(a, k, spaces[i:], notes); n > 2 {
			t.Rows = append(t.Rows, gathered(spaces[i:i+n]))
			i += n
			continue
		}
		t.Rows = append(t.Rows, pair(a, k, spaces[i:min(i+2, len(spaces))], notes)...)
		i += 2
	}
	s.Table(t)
	directoryFoot(s, a, k, notes)
	return s, nil
}

// run is how many spaces, row by row from the first, have nothing to say but
// that nobody looked at them, or that they are open.
func run(a *site.AsFound, k Kind, spaces []drawing.Space, notes []note) int {
	bare := func(s drawing.Space) bool {
		e := entrances(a, k, s, notes)
		return s.State == spaces[0].State && (s.State == drawing.NotLooked || s.State == drawing.Vacant) &&
			len(e) == 1 && e[0] == remark(s.Empty())
	}
	n := 0
	for n < len(spaces) && bare(spaces[n]) {
		n++
	}
	return n - n%2
}

// gathered is a run of spaces in one row over both columns.
func gathered(spaces []drawing.Space) paper.Row {
	cell := paper.Cell{Text: fmt.Sprintf("Open spaces: %d to %d", spaces[0].Number, spaces[len(spaces)-1].Number)}
	if spaces[0].State == drawing.NotLooked {
		cell.Text = fmt.Sprintf("Not looked at: %d to %d", spaces[0].Number, spaces[len(spaces)-1].Number)
		cell.Symbol = paper.NotKnown
	}
	return paper.Row{Span: true, Cells: []paper.Cell{cell}}
}

// pair is an odd space and the even one beside it, as they stand in the panel.
func pair(a *site.AsFound, k Kind, spaces []drawing.Space, notes []note) []paper.Row {
	var rows []paper.Row
	for side, space := range spaces {
		for i, e := range together(entrances(a, k, space, notes)) {
			if i == len(rows) {
				rows = append(rows, paper.Row{Cells: make([]paper.Cell, 6)})
			}
			cells := rows[i].Cells[3*side:]
			if i == 0 {
				cells[0].Text, cells[1].Text = strconv.Itoa(space.Number), breakerWords(space)
			}
			cells[2] = paper.Cell{Text: e.text, Stroke: e.stroke()}
			if space.State == drawing.NotLooked {
				cells[1].Symbol = paper.NotKnown
			}
		}
	}
	return rows
}

// together puts what stands over the same pencil line into one cell, each on a
// line of its own.
func together(entrances []entrance) []entrance {
	var out []entrance
	for _, e := range entrances {
		if last := len(out) - 1; last >= 0 && out[last].stroke() == e.stroke() && out[last].plain == e.plain {
			out[last].text += "\n" + e.text
		} else {
			out = append(out, e)
		}
	}
	return out
}

func directoryRows(a *site.AsFound, k Kind) (list, error) {
	l := list{head: []string{"space", "breaker", "feeds", "standing"}}
	notes := notesOf(a, k)
	for _, space := range drawing.Spaces(panelOf(a, k)) {
		for _, e := range entrances(a, k, space, notes) {
			standing := ""
			if !e.plain {
				standing = e.standing.String()
			}
			number := strconv.Itoa(space.Number)
			l.add("space "+number, e.said, number, space.Words(), e.text, standing)
		}
	}
	if passing := drawing.Passing(panelOf(a, k)); passing != "" {
		l.add("pass-through", passing, "pass-through", "", passing, "")
	}
	for i, n := range notes {
		l.add(n.key, n.text, "note "+strconv.Itoa(i+1), "", n.text, n.standing())
	}
	return l, nil
}
