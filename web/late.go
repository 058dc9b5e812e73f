package web

import (
	"slices"
	"strconv"
	"strings"
	"time"

	"asfound/installation"
	"asfound/observation"
	"asfound/quantity"
)

type latePage struct {
	Form       *form
	Tour, Name string
	Rooms      []lateRoom
	Kept       string
	Left       int
}

type lateRoom struct {
	Name string
	Rows []lateRow
}

// lateRow is one conductor end of one opening, as a line of the paper sheet.
type lateRow struct {
	Number, Cable, Key, Stop string
	Cells                    []lateCell
	Kept                     bool // everything of the row is kept
}

// lateCell is one field of a row. Kept is what was kept under this row's mark.
type lateCell struct {
	Name, Label, Value, Fault, Kept string
	Start                           bool
	Numeric                         bool
}

// lateColumns are the columns of the sheet after the number, in its order.
var lateColumns = []struct {
	Name, Label string
	A, B        observation.Wire
}{
	{"letters", "letters", "", ""},
	{"ground", "hot to ground", observation.Hot, observation.EGC},
	{"neutral", "hot to neutral", observation.Hot, observation.Neutral},
	{"side", "ground to neutral", observation.EGC, observation.Neutral},
	{"time", "time taken", "", ""},
}

// showLate is the paper sheet of a tour as a table for the keyboard, in the
// sheet's own order.
func showLate(v *visit) error {
	f := v.form()
	f.set("date", v.ask.Now.Format(time.DateOnly))
	return lateWith(v, f)
}

func lateWith(v *visit, f *form) error {
	t, err := v.tour()
	if err != nil {
		return err
	}
	data := latePage{Form: f, Tour: t.ID.String(), Name: t.Name, Kept: v.query("kept")}
	f.set("taker", v.who)
	started := f.first
	for _, walk := range v.walk(t) {
		room := lateRoom{Name: v.found.Name(walk.Room)}
		for _, thing := range walk.Openings {
			o := v.found.Opening(thing)
			for _, tag := range cableTags(o) {
				row := v.lateRow(f, t, o, tag)
				if !row.Kept {
					data.Left++
					started = startRow(row, started)
				}
				room.Rows = append(room.Rows, row)
			}
		}
		data.Rooms = append(data.Rooms, room)
	}
	return v.renderForm("late", "Late entry, "+t.Name, f, data)
}

// startRow puts the cursor into the first open field, or that with a fault.
func startRow(row lateRow, started string) string {
	for i, c := range row.Cells {
		if c.Kept == "" && (started == "" || started == c.Name) {
			row.Cells[i].Start = true
			return "done"
		}
	}
	return started
}

// sheetMark begins the marks of rows that were entered from paper.
const sheetMark = "sheet."

func lateKey(o *installation.Opening, tag string) string { return string(o.Thing) + "." + tag }

// lateStop is the mark of a row: the name of the visit that it stands for. It
// is the same each time the sheet is shown, so that saving twice keeps once.
func lateStop(t *installation.Tour, o *installation.Opening) string {
	return sheetMark + t.ID.String() + "." + string(o.Thing)
}

func (v *visit) lateRow(f *form, t *installation.Tour, o *installation.Opening, tag string) lateRow {
	row := lateRow{Number: o.Number, Cable: tag, Key: lateKey(o, tag), Stop: lateStop(t, o)}
	here := stopNamed(o, row.Stop)
	all := true
	for _, c := range lateColumns {
		cell := lateCell{Name: c.Name + "." + row.Key, Label: c.Label + ", " + o.Number, Numeric: c.Name != "letters"}
		cell.Value, cell.Fault = f.Get(cell.Name), f.Fault(cell.Name)
		if tag != "" {
			cell.Label += " cable " + tag
		}
		if here != nil {
			cell.Kept = keptCell(here, c.Name, pointsOf(o, tag, c.A, c.B))
		}
		if c.Name == "ground" && o.NotReached != nil && o.NotReached.Stop == row.Stop {
			cell.Kept = kindWord(o.NotReached.Kind)
		}
		all = all && (cell.Kept != "" || c.Name == "side" && here != nil)
		row.Cells = append(row.Cells, cell)
	}
	row.Kept = all && row.Cells[3].Value == ""
	return row
}

func pointsOf(o *installation.Opening, tag string, a, b observation.Wire) asked {
	at := observation.Point{At: o.Thing, Cable: tag}
	return asked{A: beside(at, a), B: beside(at, b)}
}

// keptCell is what was kept of a column at a stop.
func keptCell(s *installation.Stop, column string, a asked) string {
	switch column {
	case "letters":
		if len(s.Letters) > 0 {
			return s.Letters[len(s.Letters)-1].Body.(observation.Letters).Letters
		}
	case "time":
		return s.First.When().Format("15:04")
	default:
		for _, e := range slices.Backward(s.Ohms) {
			if b := e.Body.(observation.Ohm); b.A == a.A && b.B == a.B {
				return b.Ohm.String()
			}
		}
		for _, e := range s.Cannot {
			if e.Body.(observation.CannotRead).What == askWords(a) {
				return kindWord(e.Kind)
			}
		}
	}
	return ""
}

// addLate keeps every row that can be used, each once; a row that cannot comes
// back as typed with its sentence.
func addLate(v *visit) error {
	f := v.typed()
	t, err := v.tour()
	if err != nil {
		return err
	}
	if w := strings.TrimSpace(f.Get("taker")); w != "" {
		v.who = w
	}
	kept, last := 0, time.Time{}
	for _, walk := range v.walk(t) {
		for _, thing := range walk.Openings {
			o := v.found.Opening(thing)
			for _, tag := range cableTags(o) {
				kept += v.keepLate(f, t, o, tag, &last)
			}
		}
	}
	if err := v.afresh(); err != nil {
		return err
	}
	if kept == 0 && !f.Bad() {
		f.fault("row", sayNoRow)
	}
	if f.Bad() {
		return lateWith(v, f)
	}
	return v.goTo("late/" + v.args["tour"] + "?kept=" + strconv.Itoa(kept))
}

// keepLate keeps what stands in one row and is not kept yet. A row without a
// time was taken when the row above was.
func (v *visit) keepLate(f *form, t *installation.Tour, o *installation.Opening, tag string, last *time.Time) int {
	key := lateKey(o, tag)
	clock := "time." + key
	if strings.TrimSpace(f.Get(clock)) != "" {
		if taken := f.moment("date", clock, v.ask.Now); !taken.IsZero() {
			*last = taken
		} else {
			return 0
		}
	}
	kept := 0
	here := stopNamed(o, lateStop(t, o))
	for _, c := range lateColumns {
		name := c.Name + "." + key
		text := strings.TrimSpace(f.Get(name))
		if c.Name == "time" || text == "" {
			continue
		}
		obs := observation.Observation{Taken: *last, Stop: lateStop(t, o), Under: []observation.ID{t.ID}}
		if v.keepCell(f, name, obs, o, here, pointsOf(o, tag, c.A, c.B), c.Name) {
			kept++
			delete(f.values, name)
		}
	}
	return kept
}

// keepCell keeps one field of a row, unless it is kept already.
func (v *visit) keepCell(f *form, name string, obs observation.Observation, o *installation.Opening, here *installation.Stop, a asked, column string) bool {
	text := strings.TrimSpace(f.Get(name))
	before := ""
	if here != nil {
		before = keptCell(here, column, a)
	}
	said := text
	missing := noValue(text)
	switch {
	case column == "letters":
		said = strings.ToUpper(text)
		obs.Subject, obs.Body = o.Thing, observation.Letters{Letters: said}
	case missing == "cannotread":
		said = kindWord(missing)
		obs.Subject, obs.Body = o.Thing, observation.CannotRead{What: askWords(a), Why: sayNotGiven}
	case missing == "notreached":
		said = kindWord(missing)
		if o.NotReached != nil && o.NotReached.Stop == obs.Stop {
			before = said
		}
		obs.Subject, obs.Body = o.Thing, observation.NotReached{}
	default:
		ohm, err := quantity.ParseResistance(text)
		if err != nil {
			f.unread(name, err)
			return false
		}
		said = ohm.String()
		obs.Body = observation.Ohm{A: a.A, B: a.B, Ohm: ohm, Reprobed: observation.Yes}
	}
	switch before {
	case "":
		return v.recordRow(f, name, obs)
	case said:
		delete(f.values, name) // kept before: the sheet was sent twice
		return false
	}
	f.fault(name, sayKeptAs(before))
	return false
}

// noValue recognizes the two answers that are no value, as a sheet bears them.
func noValue(text string) string {
	switch strings.ToLower(strings.Join(strings.Fields(text), " ")) {
	case "cr", "cannot", "cannot read":
		return "cannotread"
	case "nr", "not reached":
		return "notreached"
	}
	return ""
}
