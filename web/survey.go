package web

import (
	"net/url"
	"slices"
	"strconv"
	"strings"
	"time"

	"asfound/installation"
	"asfound/observation"
)

type surveyPage struct {
	Form  *form
	Room  observation.Thing
	Name  string
	Rows  []surveyRow
	Kept  string
	Sheet string // the sheet to print
}

// surveyRow is a line of the survey sheet: an opening on record, or an empty one.
type surveyRow struct {
	No    int
	Key   string // of its fields
	Of    *installation.Opening
	Cells []lateCell
}

// surveyColumns are the columns of the sheet after the line's number, in its order.
var surveyColumns = []struct{ Name, Label string }{{"number", "number"}, {"use", "use"}, {"gangs", "gangs"}, {"height", "height"},
	{"depth", "depth"}, {"cables", "cables"}, {"note", "problems and marks"}}

// surveyEmpty is how many empty lines the page offers: a sheet has no more, and
// the page offers as many again when they are kept.
const surveyEmpty = 14

// showSurvey is the survey sheet of a room as a table for the keyboard, in the
// sheet's own order.
func showSurvey(v *visit) error {
	f := v.form()
	f.set("date", v.ask.Now.Format(time.DateOnly))
	return surveyWith(v, f)
}

func surveyWith(v *visit, f *form) error {
	r := v.found.Room(v.arg("room"))
	if r == nil {
		return notFound{sayNoThing}
	}
	data := surveyPage{Form: f, Room: r.Thing, Name: r.Name, Rows: v.surveyRows(f, r)}
	f.set("taker", v.who)
	if kept := atoi(v.query("kept")); kept > 0 {
		data.Kept = sayKeptRows(kept)
	}
	name := "survey-" + plainPart(v.found.Name(r.Building)) + "-" + plainPart(r.Name)
	if _, ok := v.sheet(name); ok {
		data.Sheet = "sheet/" + url.PathEscape(name)
	}
	started := f.first
	for i, row := range data.Rows {
		for j, c := range row.Cells {
			if c.Kept == "" && (started == c.Name || started == "" && row.Of == nil) {
				data.Rows[i].Cells[j].Start, started = true, "done"
			}
		}
	}
	return v.renderForm("survey", sayLateSurvey(r.Name), f, data)
}

// plainPart keeps letters and figures, as the names of sheets do.
func plainPart(s string) string {
	return strings.Join(strings.FieldsFunc(strings.ToLower(s), func(r rune) bool { return (r < 'a' || r > 'z') && (r < '0' || r > '9') }), "-")
}

// surveyRows are the openings of a room in walking order, then empty lines.
func (v *visit) surveyRows(f *form, r *installation.Room) []surveyRow {
	var out []surveyRow
	for _, o := range v.found.In(r.Thing) {
		out = append(out, newSurveyRow(f, len(out)+1, string(o.Thing), o))
	}
	for i := range surveyEmpty {
		out = append(out, newSurveyRow(f, len(out)+1, "new"+strconv.Itoa(i+1), nil))
	}
	return out
}

func newSurveyRow(f *form, no int, key string, o *installation.Opening) surveyRow {
	row := surveyRow{No: no, Key: key, Of: o}
	for _, c := range surveyColumns {
		name := c.Name + "." + key
		cell := lateCell{Name: name, Label: c.Label + ", line " + strconv.Itoa(no), Value: f.Get(name), Fault: f.Fault(name)}
		if o != nil {
			cell.Label = c.Label + ", " + o.Number
			cell.Kept = surveyKept(o, c.Name)
		}
		row.Cells = append(row.Cells, cell)
	}
	return row
}

// surveyKept is what is on record of a column; empty is still to be written.
func surveyKept(o *installation.Opening, column string) string {
	switch column {
	case "number":
		return o.Number
	case "use":
		return string(o.Use)
	case "gangs":
		if o.Gangs > 0 {
			return strconv.Itoa(o.Gangs)
		}
	case "height":
		if o.Height > 0 {
			return o.Height.String()
		}
	case "depth":
		if o.Depth > 0 {
			return o.Depth.String()
		}
	case "cables":
		return cablesWritten(o)
	case "note":
		return o.Note
	}
	return ""
}

// cablesWritten is what stands in the field of the cables.
func cablesWritten(o *installation.Opening) string {
	var jackets []string
	for _, c := range o.Cables {
		if c.Jacket != "" {
			jackets = append(jackets, c.Jacket)
		}
	}
	switch {
	case len(o.Cables) == 0 && o.NotReached != nil:
		return kindWord("notreached")
	case len(o.Cables) == 0:
		return ""
	case len(jackets) < len(o.Cables):
		return strconv.Itoa(len(o.Cables))
	}
	return strings.Join(jackets, ", ")
}

// addSurvey keeps every line that can be used; one that cannot comes back as
// typed, with a sentence at its field.
func addSurvey(v *visit) error {
	f := v.typed()
	r := v.found.Room(v.arg("room"))
	if r == nil {
		return notFound{sayNoThing}
	}
	if w := strings.TrimSpace(f.Get("taker")); w != "" {
		v.who = w
	}
	taken := f.moment("date", "time", v.ask.Now)
	if f.Bad() {
		return surveyWith(v, f)
	}
	var done sheetKept
	order, used := 0, map[string]int{}
	var left []surveyRow // empty lines that are still to be kept
	for _, row := range v.surveyRows(v.form(), r) {
		if row.Of != nil {
			order = max(order, row.Of.Order)
		} else {
			order++
		}
		if !surveyTyped(f, row) {
			continue
		}
		if v.keepSurveyed(f, r, row, order, taken, used) {
			done.rows++
			clearRow(f, row)
		} else {
			if row.Of == nil {
				left = append(left, row)
			}
			done.not = append(done.not, sayLine(row.No, strings.TrimSpace(f.Get("number."+row.Key))))
		}
	}
	moveUp(f, left)
	if err := v.afresh(); err != nil {
		return err
	}
	if done.rows == 0 && len(done.not) == 0 {
		f.fault("row", sayNoRow)
	}
	if f.Bad() {
		f.Say = sayNotKeptRows(done.rows, done.not)
		return surveyWith(v, f)
	}
	return v.goTo("survey/" + string(r.Thing) + "?kept=" + strconv.Itoa(done.rows))
}

func surveyTyped(f *form, row surveyRow) bool {
	return slices.ContainsFunc(row.Cells, func(c lateCell) bool { return strings.TrimSpace(f.Get(c.Name)) != "" })
}

// moveUp gives the lines that are left the first empty ones: those kept stand
// among the openings on record now.
func moveUp(f *form, left []surveyRow) {
	for i, row := range left {
		for j, c := range row.Cells {
			to := surveyColumns[j].Name + ".new" + strconv.Itoa(i+1)
			if to == c.Name {
				continue
			}
			f.values[to], f.faults[to] = f.values[c.Name], f.faults[c.Name]
			delete(f.values, c.Name)
			delete(f.faults, c.Name)
			if f.faults[to] == "" {
				delete(f.faults, to)
			}
			if f.first == c.Name {
				f.first = to
			}
		}
	}
}

func clearRow(f *form, row surveyRow) {
	for _, c := range row.Cells {
		delete(f.values, c.Name)
	}
}

// surveyed is what a line says: the opening, its cables, and whether nobody got
// to it.
type surveyed struct {
	opening observation.Opening
	cables  []observation.CableEnd
	away    bool
	changed bool // the opening itself
}

// keepSurveyed keeps one line: the opening, then its cables.
func (v *visit) keepSurveyed(f *form, r *installation.Room, row surveyRow, order int, taken time.Time, used map[string]int) bool {
	s, ok := v.readSurveyed(f, r, row, order, used)
	if !ok {
		return false
	}
	o := observation.Observation{Taken: taken, Stop: "survey." + string(r.Thing) + "." + strings.TrimSpace(f.Get("date"))}
	at := observation.Thing("")
	if row.Of != nil {
		at = row.Of.Thing
		o.Subject, o.Seen = at, replaces(row.Of.Story, every[observation.Opening])
	}
	if s.changed {
		o.Body = s.opening
		id, kept := v.keepLine(f, row, o)
		if !kept {
			return false
		}
		if at == "" {
			at = id.Thing()
		}
	}
	o.Subject, o.Seen = at, nil
	for _, c := range s.cables {
		o.Body = c
		if _, kept := v.keepLine(f, row, o); !kept {
			return false
		}
	}
	if s.away {
		o.Body = observation.NotReached{}
		_, kept := v.keepLine(f, row, o)
		return kept
	}
	return true
}

// keepLine records one observation of a line. Faults of other lines do not stop it.
func (v *visit) keepLine(f *form, row surveyRow, o observation.Observation) (observation.ID, bool) {
	if f.Failed != "" {
		return observation.ID{}, false
	}
	o.Who = v.who
	id, err := v.job.Site.Record(o)
	if err != nil && id.IsZero() {
		at := map[string]string{"tag": "cables." + row.Key, "jacket": "cables." + row.Key, "taken": "time"}
		for _, c := range surveyColumns {
			at[c.Name] = c.Name + "." + row.Key
		}
		f.take(err, at)
		return id, false
	}
	return id, true
}

// readSurveyed reads a line; each field that cannot be used gets its sentence.
func (v *visit) readSurveyed(f *form, r *installation.Room, row surveyRow, order int, used map[string]int) (surveyed, bool) {
	name := func(column string) string { return column + "." + row.Key }
	get := func(column string) string { return strings.TrimSpace(f.Get(name(column))) }
	out := surveyed{opening: observation.Opening{Room: r.Thing, Order: order}, changed: row.Of == nil}
	before := len(f.faults)
	if row.Of != nil {
		out.opening = row.Of.Opening
	} else {
		out.opening.Number = get("number")
		if err := observation.CheckNumber(out.opening.Number); err != nil {
			f.take(err, map[string]string{"number": name("number")})
		} else if same := v.found.Numbered(out.opening.Number); len(same) > 0 {
			f.fault(name("number"), sayNumberUsed(same[0].Number, v.found.Name(same[0].Room)))
		} else if above := used[strings.ToLower(out.opening.Number)]; above > 0 {
			f.fault(name("number"), sayLineTwice(out.opening.Number, above))
		}
		used[strings.ToLower(out.opening.Number)] = row.No
	}
	if text := get("use"); text != "" {
		use, ok := useTyped(text)
		if !ok {
			f.fault(name("use"), sayUse)
		}
		out.opening.Use, out.changed = use, true
	}
	if get("gangs") != "" {
		out.opening.Gangs, out.changed = f.count(name("gangs"), sayGangs), true
	}
	if get("height") != "" {
		out.opening.Height, out.changed = f.inches(name("height")), true
	}
	if get("depth") != "" {
		out.opening.Depth, out.changed = f.inches(name("depth")), true
	}
	if text := get("note"); text != "" {
		out.opening.Note, out.changed = text, true
	}
	if err := out.opening.Check(); err != nil && len(f.faults) == before {
		f.take(err, map[string]string{"gangs": name("gangs"), "height": name("height"), "note": name("note"), "use": name("use"), "number": name("number")})
	}
	out.cables, out.away = f.cablesTyped(name("cables"))
	return out, len(f.faults) == before
}

// useTyped reads a use by its first letters.
func useTyped(text string) (observation.OpeningUse, bool) {
	text = strings.ToLower(text)
	if text == "?" {
		return observation.NoUse, true
	}
	for _, use := range observation.OpeningUses {
		if use != observation.NoUse && strings.HasPrefix(string(use), text) {
			return use, true
		}
	}
	return "", false
}

// mostCables is more than enter one box.
const mostCables = 30

// cablesTyped reads how many cables enter, or each by its jacket, or that nobody
// got there. Conductors are not told by a jacket: they stay to be looked at.
func (f *form) cablesTyped(name string) (cables []observation.CableEnd, away bool) {
	text := strings.TrimSpace(f.Get(name))
	if noValue(text) == "notreached" {
		return nil, true
	}
	if n, err := strconv.Atoi(text); err == nil && n >= 0 && n <= mostCables {
		for i := range n {
			cables = append(cables, observation.CableEnd{Tag: strconv.Itoa(i + 1)})
		}
		return cables, false
	}
	for i, jacket := range strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(",; ", r) }) {
		gauge, count, ok := strings.Cut(jacket, "/")
		if _, err := strconv.Atoi(gauge); err != nil || !ok || count == "" || i >= mostCables {
			f.fault(name, sayCables)
			return nil, false
		}
		cables = append(cables, observation.CableEnd{Tag: strconv.Itoa(i + 1), Jacket: jacket})
	}
	return cables, false
}
