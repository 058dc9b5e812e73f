package web

import (
	"slices"
	"strconv"
	"time"

	"asfound/installation"
	"asfound/observation"
	"asfound/pattern"
)

type latePage struct {
	Form       *form
	Tour, Name string
	Rooms      []lateRoom
	Kept       string
	Wrong      []string // rows whose letters are not those of the opening
	Left       string
	Off        string // the tour is taken down, since when
	Action     string
	Sheet      string // the state of the copy by which the rows are numbered
	State      string // the state of now
	Since      int    // rows that came in since the copy was printed
}

type lateRoom struct {
	Name string
	Rows []lateRow
	Look lateCell // the look around at the end of the room
	None bool     // without a look around: the room is gone, or stands above already
}

// lateRow is one conductor end of one opening, as a line of the paper sheet. No
// is its number there, 0 where the sheet has no line for it.
type lateRow struct {
	No                       int
	Was                      string // what the copy calls it, when that is something else
	Gone                     string // why it takes nothing in
	At                       observation.Thing
	Number, Cable, Key, Stop string
	Cells                    []lateCell
	Kept                     bool   // everything of the row is kept
	Wrong, Entry             string // letters kept that do not fit, and where to withdraw them
}

// lateCell is one field of a row. Kept is what was kept under this row's mark.
type lateCell struct {
	Name, Label, Value, Fault, Kept string
	Start                           bool
}

// lateColumns are the columns of the sheet after the number, in its order.
var lateColumns = []struct {
	Name, Label string
	A, B        observation.Wire
}{
	{"letters", "letters", "", ""},
	{"ground", "hot to ground", observation.Hot, observation.EGC},
	{"neutral", "hot to neutral", observation.Hot, observation.Neutral},
	{"again", "hot to ground again", observation.Hot, observation.EGC},
	{"side", "ground to neutral", observation.EGC, observation.Neutral},
	{"time", "time taken", "", ""},
}

// showLate is the paper sheet of a tour as a table for the keyboard, in the
// sheet's own order.
func showLate(v *visit) error {
	f := v.form()
	f.set("date", v.ask.Now.Format(time.DateOnly)).set("sheet", v.query("sheet"))
	return lateWith(v, f)
}

func lateWith(v *visit, f *form) error {
	t, err := v.tour()
	if err != nil {
		return err
	}
	data := latePage{Form: f, Tour: t.ID.String(), Name: t.Name, Off: v.offWords(t), Action: "late/" + t.ID.String(), State: v.found.State}
	copied, err := v.copyOf(f)
	if err != nil {
		return err
	}
	if copied != nil {
		data.Sheet = copied.State
	}
	if kept := atoi(v.query("kept")); kept > 0 {
		data.Kept = sayKeptRows(kept)
	}
	f.set("taker", v.who)
	started, left := f.first, 0
	for _, room := range v.lateRooms(f, t, copied) {
		for _, row := range room.Rows {
			if row.No == 0 && copied != nil {
				data.Since++
			}
			if !row.Kept && row.Gone == "" {
				left++
				started = startRow(row, started)
			}
			if row.Wrong != "" {
				data.Wrong = append(data.Wrong, rowName(row))
			}
		}
		data.Rooms = append(data.Rooms, room)
	}
	data.Left = counted(left, "row")
	return v.renderForm("late", "Late entry, "+t.Name, f, data)
}

// lateTags are the cables of an opening that have a line on the paper sheet (one
// for each hot on record, else one), then those read beside them.
func lateTags(o *installation.Opening) (lined, more []string) {
	var hots []string
	for _, c := range o.Cables {
		for _, w := range c.Conductors {
			if w.Wire == observation.Hot {
				hots = append(hots, c.Tag)
			}
		}
	}
	tags := cableTags(o)
	if len(hots) < 2 {
		return tags[:1], tags[1:]
	}
	return hots, slices.DeleteFunc(slices.Clone(tags), func(tag string) bool { return slices.Contains(hots, tag) })
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
	row := lateRow{At: o.Thing, Number: o.Number, Cable: tag, Key: lateKey(o, tag), Stop: lateStop(t, o)}
	here := stopNamed(o, row.Stop)
	all, typed := here != nil, false
	for _, c := range lateColumns {
		cell := lateCell{Name: c.Name + "." + row.Key, Label: c.Label + ", " + o.Number}
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
		typed = typed || cell.Value != "" && c.Name != "time"
		all = all && (cell.Kept != "" || c.Name == "side" || c.Name == "again")
		row.Cells = append(row.Cells, cell)
	}
	if here != nil && (tag == "" || tag == firstTag(o)) {
		row.Wrong, row.Entry = v.wrongLetters(o, here)
	}
	away := o.NotReached != nil && o.NotReached.Stop == row.Stop
	row.Kept = (all || away) && !typed
	return row
}

// wrongLetters says that letters noted at a stop are not those of its opening,
// which openings they fit, and where they can be withdrawn.
func (v *visit) wrongLetters(o *installation.Opening, here *installation.Stop) (say, entry string) {
	for _, e := range here.Letters {
		typed := e.Body.(observation.Letters).Letters
		if pattern.LettersMatch(o.Number, typed) {
			continue
		}
		var numbers []string
		if was := numberBefore(o, typed); was != "" {
			return sayLettersBefore(typed, was, o.Number), "entry/" + e.ID.String()
		}
		for _, other := range v.fitting(typed) {
			numbers = append(numbers, other.Number)
		}
		return sayWrongLetters(typed, o.Number, numbers), "entry/" + e.ID.String()
	}
	return "", ""
}

// firstTag is the cable of an opening's first row, which shows its letters.
func firstTag(o *installation.Opening) string {
	lined, _ := lateTags(o)
	return lined[0]
}

// rowName names a row as it stands on the sheet.
func rowName(row lateRow) string {
	out := row.Number
	if row.Cable != "" {
		out += " cable " + row.Cable
	}
	if row.No > 0 {
		return strconv.Itoa(row.No) + ", " + out
	}
	return out
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
	case "again":
		return keptAgain(s, a)
	default:
		for _, e := range s.Cannot {
			if e.Body.(observation.CannotRead).What == askWords(a) {
				return kindWord(e.Kind)
			}
		}
		if read := readings(s, a); len(read) > 0 {
			return read[0]
		}
	}
	return ""
}

// keptAgain is the second answer to a pair that was read twice.
func keptAgain(s *installation.Stop, a asked) string {
	for _, e := range s.Cannot {
		if e.Body.(observation.CannotRead).What == cannotWords("again", a) {
			return kindWord(e.Kind)
		}
	}
	read := readings(s, a)
	if keptCell(s, "ground", a) == kindWord("cannotread") {
		read = append([]string{""}, read...)
	}
	if len(read) > 1 {
		return read[len(read)-1]
	}
	return ""
}

// readings are the values read between two conductors at a stop, in order.
func readings(s *installation.Stop, a asked) []string {
	var out []string
	for _, e := range s.Ohms {
		if b := e.Body.(observation.Ohm); b.A == a.A && b.B == a.B {
			out = append(out, b.Ohm.String())
		}
	}
	return out
}
