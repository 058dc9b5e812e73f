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

// sheetKept is what became of a sheet that was sent: how many of its rows are
// kept now and were not before, and the names of those that are not kept yet.
type sheetKept struct {
	rows int
	not  []string
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
	copied, err := v.copyOf(f)
	if err != nil {
		return err
	}
	if f.faults["sheet"] != "" {
		return lateWith(v, f) // first say which copy it is
	}
	done := v.keepSheet(f, t, copied)
	if err := v.afresh(); err != nil {
		return err
	}
	if done.rows == 0 && len(done.not) == 0 && !f.Bad() {
		f.fault("row", sayNoRow)
	}
	if f.Bad() {
		f.Say = sayNotKeptRows(done.rows, done.not)
		return lateWith(v, f)
	}
	at := "late/" + v.args["tour"] + "?kept=" + strconv.Itoa(done.rows)
	if copied != nil {
		at += "&sheet=" + copied.State
	}
	return v.goTo(at)
}

// keepSheet keeps the rows of all rooms in the order of the sheet.
func (v *visit) keepSheet(f *form, t *installation.Tour, copied *printed) sheetKept {
	var done sheetKept
	last := time.Time{}
	for _, room := range v.lateRooms(v.form(), t, copied) { // an empty form: faults are not shown yet
		for _, row := range room.Rows {
			if row.Gone != "" {
				continue
			}
			o := v.found.Opening(row.At)
			kept := v.keepLate(f, t, o, row, &last)
			left, fields := rowLeft(f, row)
			done.count(strings.Join(append([]string{rowName(row)}, fields...), ", "), kept, left)
		}
		if room.None {
			continue
		}
		kept := v.keepLook(f, t, room, last)
		done.count(sayLookOf(room.Name), kept, strings.TrimSpace(f.Get(room.Look.Name)) != "" && !kept)
	}
	return done
}

func (d *sheetKept) count(name string, kept, left bool) {
	switch {
	case left:
		d.not = append(d.not, name)
	case kept:
		d.rows++
	}
}

// rowLeft reports whether something stands in a row that is not kept, and names
// the fields at fault.
func rowLeft(f *form, row lateRow) (left bool, fields []string) {
	for i, c := range row.Cells {
		if f.faults[c.Name] != "" {
			fields = append(fields, lateColumns[i].Label)
		}
	}
	return len(fields) > 0 || rowTyped(f, row), fields
}

// rowTyped reports whether a value stands in a row, its time apart.
func rowTyped(f *form, row lateRow) bool {
	return slices.ContainsFunc(row.Cells, func(c lateCell) bool {
		return strings.TrimSpace(f.Get(c.Name)) != "" && !strings.HasPrefix(c.Name, "time.")
	})
}

// beforeOff wants a row to have been taken before the resistors came off.
func beforeOff(f *form, clock string, taken, off time.Time) bool {
	switch {
	case taken.IsZero():
		f.fault(clock, sayTimeOff)
	case !taken.Before(off):
		f.fault(clock, sayAfterOff(off.In(taken.Location()).Format("15:04")))
	default:
		return true
	}
	return false
}

// keepLate keeps what stands in one row and is not kept yet. A row without a
// time was taken when the row above was. In a tour that is taken down it needs a
// time before that.
func (v *visit) keepLate(f *form, t *installation.Tour, o *installation.Opening, row lateRow, last *time.Time) bool {
	clock, here := "time."+row.Key, stopNamed(o, row.Stop)
	if strings.TrimSpace(f.Get(clock)) != "" {
		if taken := f.moment("date", clock, v.ask.Now); !taken.IsZero() {
			*last = taken
		} else {
			return false
		}
	} else if here != nil {
		*last = here.First.When() // as the row shows it
	}
	if t.Removed && rowTyped(f, row) && !beforeOff(f, clock, *last, offSince(t)) {
		return false
	}
	kept := false
	for _, c := range lateColumns {
		name := c.Name + "." + row.Key
		if c.Name == "time" || strings.TrimSpace(f.Get(name)) == "" {
			continue
		}
		obs := observation.Observation{Taken: *last, Stop: row.Stop, Under: []observation.ID{t.ID}}
		if v.keepCell(f, name, obs, o, here, pointsOf(o, row.Cable, c.A, c.B), c.Name) {
			kept = true
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
		obs.Subject, obs.Body = o.Thing, observation.CannotRead{What: cannotWords(column, a), Why: sayNotGiven}
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
		if !ohm.Open && ohm.Ohm > mostShown {
			f.fault(name, sayTooMuch)
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

// cannotWords says which reading of a sheet could not be taken.
func cannotWords(column string, a asked) string {
	if column == "again" {
		return askWords(a) + ", again"
	}
	return askWords(a)
}

// noValue recognizes the two answers that are no value, as people write them.
func noValue(text string) string {
	switch strings.ToLower(strings.Join(strings.Fields(text), " ")) {
	case "cr", "cannot", "cannot read":
		return "cannotread"
	case "nr", "not", "not reached":
		return "notreached"
	}
	return ""
}
