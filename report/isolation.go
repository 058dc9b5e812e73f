package report

import (
	"slices"
	"strconv"
	"strings"

	"asfound/installation"
	"asfound/observation"
	"asfound/paper"
	"asfound/site"
	"asfound/trace"
)

// isolationCaution is said before any lead is put on (29 CFR 1910.333;
// NFPA 70E 120.5).
var isolationCaution = []string{
	"Ohmmeter on dead conductors only. Open and lock every supply that can reach this panel: service, feeder, generator, PV, storage. Test for absence of voltage here: tester on a known source, each conductor to each other and to ground, tester on the known source again.",
	"All branch breakers off. Loads unplugged. All wall switches ON: a join through an open switch cannot be seen.",
	"Volts, or a value below zero, on the ohmmeter: hands off, stop, and test for absence of voltage again.",
}

func makeIsolation(a *site.AsFound, k Kind) (*paper.Sheet, error) {
	plan, err := isolationPlan(a, k)
	if err != nil {
		return nil, err
	}
	s, err := begin(a, k, isolationCaution...)
	if err != nil {
		return nil, err
	}
	checks(s, "Locked, by lock", "Tested dead at, by", "Breakers off, loads unplugged", "All wall switches ON")
	s.Paragraph("Write what the meter shows with its unit, or open when it finds no path. Up to 1 ohm: joined; to the ground bar, a fault. From 1 to 1,000 ohms: a load is between; find it, unplug it, read again. Bring every value back: a hit is narrowed, and each join is read twice.")
	t := &paper.Table{Size: 10.5, Columns: []paper.Column{
		{Head: "No.", Width: 11, Face: paper.Bold}, {Head: "Where", Width: 40}, {Head: "Do"},
		{Head: "Write down", Width: 34}, {Head: "Stop if", Width: 41}}}
	p := panelOf(a, k)
	for i, l := range plan.Lines {
		t.Rows = append(t.Rows, isolationRow(p, i+1, l))
	}
	s.Table(t)
	return s, nil
}

func isolationPlan(a *site.AsFound, k Kind) (trace.IsolationPlan, error) {
	plan := trace.PlanIsolation(a.Installation, k.Of)
	if len(plan.Lines) == 0 {
		return plan, observation.Unusable{Field: "panel", Say: "Panel " + a.Name(k.Of) + " has no branch conductor on record. Record what lands on each space first."}
	}
	return plan, nil
}

func isolationRow(p *installation.Panel, number int, l trace.IsolationLine) paper.Row {
	write := paper.Cell{Symbol: paper.WriteLine}
	if l.Taken {
		write = paper.Cell{Text: "on record: " + l.Ohm.String()} // never as if written by hand on this copy
	}
	return paper.Row{Height: 9, Cells: []paper.Cell{{Text: strconv.Itoa(number)}, {Text: where(p, l)}, {Text: do(p, l)}, write, {Text: stopIf(l)}}}
}

// where names the terminal of the first lead.
func where(p *installation.Panel, l trace.IsolationLine) string {
	switch {
	case len(l.A) == len(p.Branches()) && len(l.A) > 1:
		return "All hots, clipped together"
	case len(l.A) > 1:
		return "Hots " + numbered(l.A) + ", clipped together"
	}
	return "Hot " + numbered(l.A)
}

// do says where the second lead goes.
func do(p *installation.Panel, l trace.IsolationLine) string {
	text := ""
	switch l.Against {
	case observation.AgainstNeutral:
		text = "to the neutral bar"
	case observation.AgainstEGC:
		text = "to the ground bar"
	default:
		switch {
		case len(l.B) > 1 && len(l.A)+len(l.B) == len(p.Branches()):
			text = "to all other branch hots, clipped together"
		case len(l.B) > 1:
			text = "to hots " + numbered(l.B) + ", clipped together"
		default:
			text = "to hot " + numbered(l.B)
		}
	}
	if l.Why != "" {
		text += " (" + l.Why + ")"
	}
	return text
}

func stopIf(l trace.IsolationLine) string {
	if l.Against == observation.AgainstEGC {
		return "volts; 1 ohm or less"
	}
	return "volts, or below zero"
}

// numbered lists spaces: "5", "5, 7, 9".
func numbered(spaces []int) string {
	out := make([]string, len(spaces))
	for i, s := range slices.Sorted(slices.Values(spaces)) {
		out[i] = strconv.Itoa(s)
	}
	return strings.Join(out, ", ")
}

func isolationRows(a *site.AsFound, k Kind) (list, error) {
	l := list{head: []string{"no", "where", "do", "taken"}}
	plan, err := isolationPlan(a, k)
	if err != nil {
		return l, err
	}
	p := panelOf(a, k)
	for i, line := range plan.Lines {
		taken := "no"
		if line.Taken {
			taken = line.Ohm.String()
		}
		text := where(p, line) + " " + do(p, line)
		l.add(text, "taken: "+taken, strconv.Itoa(i+1), where(p, line), do(p, line), taken)
	}
	return l, nil
}
