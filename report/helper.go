package report

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"asfound/days"
	"asfound/installation"
	"asfound/observation"
	"asfound/paper"
	"asfound/site"
	"asfound/step"
	"asfound/trace"
)

var helperCaution = []string{
	"The record may have changed since this was printed: before the first step look at each lock named below and test again for absence of voltage, tester tried on a known source before and after.",
	"A box may hold a circuit of another panel or building: test at every opening before a lead or a finger goes in. Volts, or a value below zero, on the ohmmeter: hands off, stop, say so.",
	"A lock missing, a panel live, a step not as written: do not go on, go to whoever holds the keys.",
}

// helperMinutes is how much work a helper's sheet holds at most. It holds less
// when that needs more than helperPages: one leaf, both its sides.
const (
	helperMinutes = 60
	helperPages   = 2
)

// makeHelper makes the sheet of a person who goes on without a phone.
func makeHelper(a *site.AsFound, k Kind) (*paper.Sheet, error) {
	s, _, err := helperOf(a, k)
	return s, err
}

// helperOf makes the sheet with as many minutes of work as have room, found by
// halves, and returns its steps too. The first step stands on it however long.
func helperOf(a *site.AsFound, k Kind) (s *paper.Sheet, steps []step.Step, err error) {
	rows := map[observation.Thing]tourRows{}
	try := func(minutes int) (fits bool) {
		r := days.Stretch(a, days.Person{Name: k.Who}, float64(minutes))
		var made *paper.Sheet
		if made, err = helperSheet(a, k, r, rows); err != nil {
			return false
		}
		fits = len(made.Pages) <= helperPages
		if fits || s == nil {
			s, steps = made, r
		}
		return fits
	}
	if try(0) && !try(helperMinutes) {
		for fits, not := 0, helperMinutes; not-fits > 1 && err == nil; {
			if half := (fits + not) / 2; try(half) {
				fits = half
			} else {
				not = half
			}
		}
	}
	return s, steps, err
}

func helperSheet(a *site.AsFound, k Kind, steps []step.Step, rows map[observation.Thing]tourRows) (*paper.Sheet, error) {
	s, err := begin(a, k, helperCaution...)
	if err != nil {
		return nil, err
	}
	if len(steps) == 0 {
		s.Paragraph("No step can be done as the record stands. What is open stands under Next.")
		return s, nil
	}
	h := helper{s: s, a: a, rows: rows}
	h.mustBeOff(steps)
	h.times(steps)
	s.Paragraph("Stop if " + strings.Join(distinct(steps, func(x step.Step) []string { return []string{x.StopIf} }), "; ") + ".")
	if bring := distinct(steps, func(x step.Step) []string { return x.Bring }); len(bring) > 0 {
		s.Paragraph("Take along: " + strings.Join(bring, ", ") + ".")
	}
	h.howToRead(steps)
	for i, x := range steps {
		h.step(i+1, x)
	}
	return s, nil
}

// helper is a helper's sheet on its way.
type helper struct {
	s    *paper.Sheet
	a    *site.AsFound
	rows map[observation.Thing]tourRows // by tour, as far as they were needed
}

// distinct lists what the steps say, each once.
func distinct(steps []step.Step, of func(step.Step) []string) []string {
	var out []string
	for _, x := range steps {
		for _, text := range of(x) {
			if text != "" && !slices.Contains(out, text) {
				out = append(out, text)
			}
		}
	}
	return out
}

// mustBeOff lists the panels that must be off, with what is on record of them.
func (h *helper) mustBeOff(steps []step.Step) {
	off := distinct(steps, func(x step.Step) []string { return x.Panels })
	if len(off) == 0 {
		return
	}
	g := &grid{sheet: h.s, size: 10.5, height: 7, columns: []field{{head: "Must be off: panel and lock", width: 52, face: paper.Bold}, {head: "Tested dead, on record", width: 66},
		{head: "Lock seen", width: 17, kind: toTick}, {head: "Tested again at, by", width: 51}}}
	for _, p := range h.a.Panels {
		if slices.Contains(off, string(p.Thing)) {
			g.row(0, trace.LockWords(p), h.testWords(p))
		}
	}
	h.s.Space(2)
}

func (h *helper) testWords(p *installation.Panel) string {
	e, dead := h.a.DeadSince(p)
	if !dead {
		return "not on record"
	}
	return e.When().Format("Jan 2, 15:04") + ", " + e.Who
}

// times says how long the steps take, and leaves room for the times agreed on.
func (h *helper) times(steps []step.Step) {
	minutes := time.Duration(math.Ceil(step.Total(steps))) * time.Minute
	h.s.Paragraph(fmt.Sprintf("Planned: about %.0f min (assumed; ways and ladders included). Whoever leaves as it is printed, %s, is back by %s. Not heard of by the time agreed on: somebody goes and looks, and nothing is energized.",
		minutes.Minutes(), h.a.Taken.Format("15:04"), h.a.Taken.Add(minutes).Format("15:04")))
	checks(h.s, "Left at", "Back by", "Next contact at", "With whom, how")
}

// howToRead tells once what is done at each opening.
func (h *helper) howToRead(steps []step.Step) {
	if !slices.ContainsFunc(steps, func(x step.Step) bool { return x.Kind == step.Read }) {
		return
	}
	h.s.Paragraph("At each opening: test for absence of voltage. Copy the two letters from the tape. Read hot to ground, lift both leads, read hot to neutral, with units: 2.49 k, 830, open. Not alike, or open: lift both leads and read again, beside the first value; open: ground to neutral too. One pencil mark on the tape. No row blank: NR is not reached, CR cannot be read. Rows go from left to right; c 2 is cable 2. Their numbers are those of the tour sheet: they are typed in under Late entry of the tour, in that order. What has no number is typed in on the page of its panel or room, with the time it was taken.")
}

// step writes one step with room for what it gives.
func (h *helper) step(n int, x step.Step) {
	where, left := x.Where, 10.0
	if x.Kind == step.Read {
		_, where, _ = strings.Cut(x.Where, ", ")
		left = gridHead + 2*helperRowHeight
	}
	if h.s.Free().H < stepHead+left {
		h.s.Break()
	}
	h.head(fmt.Sprintf("Step %d: %s, about %.0f min", n, where, math.Ceil(x.Minutes)))
	if x.Kind == step.Read {
		h.read(x)
		return
	}
	if x.Caution != "" {
		h.s.Paragraph("First: " + x.Caution)
	}
	h.s.Paragraph(x.Reason + " " + strings.Join(x.Do, " ") + " Stop if " + x.StopIf + ".")
	if x.Kind == step.LookRound {
		lookAround(h.s)
		h.s.Space(2)
		return
	}
	if sheet := h.sheetFor(x); sheet != "" {
		h.s.Paragraph("Take along and write on: " + sheet + ".")
		return
	}
	h.blank(x.WriteDown)
}

const stepHead = 10.0 // millimeters

// head writes the head of a step, with room for its times.
func (h *helper) head(text string) {
	const times = 62.0
	p, a := h.s.Room(stepHead)
	st, small := paper.Style{Size: 12, Face: paper.Bold}, paper.Style{Size: 10}
	p.Text(a.X, a.Y+7, st.Fit(text, a.W-times-4), st)
	x := a.X + a.W - times
	for _, word := range []string{"begun", "done"} {
		w := p.Text(x, a.Y+7, word, small) + 1.5
		p.FillIn(x+w, a.Y+7.8, times/2-w-2)
		x += times / 2
	}
}

// sheetFor names the sheet on which a step is written down, if it has one.
func (h *helper) sheetFor(x step.Step) string {
	tour := h.a.Name(observation.Thing(x.Tour))
	switch x.Kind {
	case step.Isolate:
		return x.Where + ", isolation sheet"
	case step.Place:
		return "the resistor list"
	case step.ReadBack, step.TakeOff:
		return tour + ", read-back sheet"
	}
	return ""
}

// blank leaves lines to write on.
func (h *helper) blank(what string) {
	const tall = 8.5
	for i := range 2 {
		p, at := h.s.Room(tall)
		x := at.X
		if i == 0 {
			x += p.Text(at.X, at.Y+6, "Write down "+what+":", paper.Style{Size: 10.5, Face: paper.Bold}) + 2
		}
		if x < at.X+at.W-20 {
			p.FillIn(x, at.Y+6.8, at.X+at.W-x)
		}
	}
	h.s.Space(2)
}

const helperRowHeight = 7.2 // millimeters

// helperFields are those of two rows beside each other.
var helperFields = slices.Concat(helperRow, []field{{width: 2, kind: gap}}, helperRow)

var helperRow = []field{{head: "No.", width: 8.5}, {head: "Opening", width: 23.5, face: paper.Bold}, {head: "Letters", width: 13.5, kind: twoLetters},
	{head: "Hot to ground", width: 16.5}, {head: "Hot to neutral", width: 16.5}, {head: "Ground, neutral", width: 13.5}}

// read writes the rows of the openings of a step.
func (h *helper) read(x step.Step) {
	if x.Plates > 0 {
		h.s.Paragraph(x.Do[0] + " " + x.Do[len(x.Do)-1])
	}
	g := &grid{sheet: h.s, columns: helperFields, size: 11, height: helperRowHeight}
	rows := h.rowsOf(x)
	for i := 0; i < len(rows); i += 2 {
		texts := []string{rows[i].number(), rows[i].short()}
		if i+1 < len(rows) {
			texts = append(texts, "", "", "", "", "", rows[i+1].number(), rows[i+1].short())
		}
		g.row(0, texts...)
	}
	h.s.Space(1)
}

// tourRow is a line of the tour sheet.
type tourRow struct {
	no   int
	name string
}

func (r tourRow) number() string {
	if r.no == 0 {
		return ""
	}
	return strconv.Itoa(r.no)
}

// short is its name where there is little room: "A02-08 c 2".
func (r tourRow) short() string { return strings.Replace(r.name, " cable ", " c ", 1) }

// tourRows are the lines of a tour sheet by opening, numbered as there.
type tourRows map[observation.Thing][]tourRow

// rowsOf are the lines of a step's openings as the sheet of its tour has them;
// an opening that the sheet leaves out has one without a number.
func (h *helper) rowsOf(x step.Step) []tourRow {
	tour := observation.Thing(x.Tour)
	if h.rows[tour] == nil {
		h.rows[tour] = numberedRows(h.a, tour)
	}
	var out []tourRow
	for _, name := range x.Places {
		at := observation.Thing(name)
		rows := h.rows[tour][at]
		if len(rows) == 0 {
			rows = []tourRow{{name: h.a.Name(at)}}
		}
		out = append(out, rows...)
	}
	return out
}

func numberedRows(a *site.AsFound, tour observation.Thing) tourRows {
	out, no := tourRows{}, 0
	plan, err := tourPlan(a, Kind{Of: tour})
	if err != nil {
		return out
	}
	for _, room := range plan.Rooms {
		for _, t := range room.Openings {
			for _, name := range cableEnds(a.Opening(t)) {
				no++
				out[t] = append(out[t], tourRow{no, name})
			}
		}
	}
	return out
}

func helperRows(a *site.AsFound, k Kind) (list, error) {
	l := list{head: []string{"step", "where", "do", "write down", "stop if", "must be off", "minutes", "row", "opening"}}
	h := helper{a: a, rows: map[observation.Thing]tourRows{}}
	_, steps, err := helperOf(a, k)
	for i, x := range steps {
		cells := []string{strconv.Itoa(i + 1), x.Where, strings.Join(x.Do, " "), x.WriteDown, x.StopIf, strings.Join(x.MustBeOff, "; "), fmt.Sprintf("%.1f", x.Minutes)}
		if x.Kind != step.Read {
			l.add(x.Where, x.Reason, append(cells, "", "")...)
			continue
		}
		for _, r := range h.rowsOf(x) {
			l.add(r.name, "to be read", append(slices.Clone(cells), r.number(), r.name)...)
		}
	}
	return l, err
}

// helpers lists who gets a helper's sheet: whoever has recorded something, and
// one sheet for somebody who has not.
func helpers(a *site.AsFound) []string {
	if len(a.Openings) == 0 {
		return nil
	}
	var out []string
	for _, s := range days.Stands(a.Installation) {
		out = append(out, s.Who)
	}
	return append(out, "")
}

// nobodyYet names the sheet of somebody who has not recorded anything.
const nobodyYet = "Anybody else"
