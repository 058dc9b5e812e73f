package report

import (
	"strconv"
	"strings"

	"asfound/drawing"
	"asfound/paper"
	"asfound/ready"
	"asfound/site"
)

// doorCaution stands above the list: paper that hangs for months says nothing of
// the moment (29 CFR 1910.333(b); NFPA 70E 120.5).
var doorCaution = []string{
	"This list says by what this panel can be live when it is off. It does not say that anything is dead, and what is not on record is not on it.",
	"Open and lock each source, then test for absence of voltage: tester on a known source, each conductor to each other and to ground, cables that only pass too, tester on the known source again.",
}

func makeDoor(a *site.AsFound, k Kind) (*paper.Sheet, error) {
	s, err := begin(a, k, doorCaution...)
	if err != nil {
		return nil, err
	}
	ways := ready.Panel(a.Installation, a.Trace, panelOf(a, k))
	for _, part := range []struct {
		head    string
		unknown bool
	}{{"Not on record: treat as live", true}, {"On record", false}} {
		t := &paper.Table{Size: 10, Columns: []paper.Column{{Width: 9, Face: paper.Bold}, {Head: part.head}, {Head: "How it is known", Width: 33}, {Head: "Entries", Width: 31}}}
		for i, w := range ways {
			if (w.Sort == ready.NotKnown) != part.unknown {
				continue
			}
			t.Rows = append(t.Rows, paper.Row{Cells: []paper.Cell{{Text: strconv.Itoa(i + 1)}, {Text: w.Say + "."}, {Text: w.Known}, {Text: evidenceOf(a, w)}}})
		}
		if len(t.Rows) > 0 {
			s.Table(t)
		}
	}
	s.Heading("Before each work in here")
	checks(s, "All sources above locked, by", "Tested dead at, by")
	return s, nil
}

// evidenceOf names what a way rests on: entries of the journal, and ends read.
// The first of many are enough for paper.
func evidenceOf(a *site.AsFound, w ready.Way) string {
	const most = 3
	var out []string
	for _, l := range w.Lines {
		out = append(out, drawing.EndName(a.Installation, a.Trace, l.End))
	}
	for _, id := range w.Of {
		out = append(out, id.String())
	}
	if len(out) > most {
		out = append(out[:most], "and "+strconv.Itoa(len(out)-most)+" more")
	}
	return strings.Join(out, ", ")
}

func doorRows(a *site.AsFound, k Kind) (list, error) {
	l := list{head: []string{"no", "what can be live", "how it is known", "entries"}}
	for i, w := range ready.Panel(a.Installation, a.Trace, panelOf(a, k)) {
		l.add(w.Say, strings.TrimSpace(w.Known), strconv.Itoa(i+1), w.Say, w.Known, evidenceOf(a, w))
	}
	return l, nil
}
