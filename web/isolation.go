package web

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"asfound/drawing"
	"asfound/installation"
	"asfound/observation"
	"asfound/quantity"
	"asfound/trace"
)

type isolationPage struct {
	Form    *form
	Panel   navItem
	Thing   observation.Thing
	Dead    string
	IsDead  bool
	Rows    []isolationRow
	Done    []entryView
	Left    int
	Kept    string
	Shows   []isolationShown
	Loose   []string // readings that were not open and belong to none of these
	Passing string   // conductors that may stay live with the panel dead
}

// isolationShown is a join or load path that the test found, with the readings
// that say so.
type isolationShown struct {
	Say, Standing string
	Cross         bool // joined across the legs
	Readings      []string
}

type isolationRow struct {
	Key, Name, Say, Why, Value, Fault string
	Taken                             bool
	Start                             bool
}

// showIsolation is the panel isolation test in the order of its sheet, one
// value a row. It grows as readings narrow what they hit.
func showIsolation(v *visit) error { return isolationWith(v, v.form()) }

func isolationWith(v *visit, f *form) error {
	p := v.found.Panel(v.arg("panel"))
	if p == nil {
		return notFound{sayNoThing}
	}
	data := isolationPage{Form: f, Panel: navItem{Href: "panel/" + string(p.Thing), Name: p.Name}, Passing: drawing.Passing(p), Thing: p.Thing,
		Dead: v.deadWords(p), Kept: v.query("kept")}
	_, data.IsDead = v.found.DeadSince(p)
	started := !data.IsDead || !p.Locked() // no cursor draws the page past its caution
	for _, l := range trace.PlanIsolation(v.found.Installation, p.Thing).Lines {
		row := isolationRow{Key: isolationKey(l), Why: l.Why, Taken: l.Taken,
			Say: isolationWords(l.A, l.Against, l.B, len(l.B) > 1 && len(l.A)+len(l.B) == len(p.Branches()))}
		row.Name = "ohm." + row.Key
		row.Value, row.Fault = f.Get(row.Name), f.Fault(row.Name)
		if !l.Taken {
			data.Left++
			row.Start = !started && (f.first == "" || f.first == row.Name)
			started = started || row.Start
		} else {
			row.Value = l.Ohm.String()
		}
		data.Rows = append(data.Rows, row)
	}
	data.Shows, data.Loose = v.isolationShows(p)
	for _, e := range slices.Backward(p.Isolations) {
		data.Done = append(data.Done, v.entry(e))
	}
	return v.renderForm("isolation", "Panel isolation test, panel "+p.Name, f, data)
}

// isolationKey names a row by what it reads, so that it stays the same row when
// the plan grows.
func isolationKey(l trace.IsolationLine) string {
	return joinInts(l.A) + "." + string(l.Against) + "." + joinInts(l.B) + "." + strconv.Itoa(len(l.Why))
}

func joinInts(spaces []int) string {
	parts := make([]string, len(spaces))
	for i, s := range spaces {
		parts[i] = strconv.Itoa(s)
	}
	return strings.Join(parts, "-")
}

// isolationShows says what the test found joined, or a load between, each with
// the readings that lie between its two ends. Loose are the other readings that
// were not open.
func (v *visit) isolationShows(p *installation.Panel) (shows []isolationShown, loose []string) {
	said := map[observation.ID]bool{}
	for _, j := range v.found.Trace.Joins {
		if j.Panel != p.Thing || j.Kind == trace.Apart {
			continue
		}
		shown := isolationShown{Say: joinWords(p, j), Standing: standingWord(j.Verdict), Cross: j.Kind == trace.Joined && j.Cross == observation.Yes}
		for _, e := range p.Isolations {
			if b := e.Body.(observation.Isolation); liesBetween(j, b) {
				said[e.ID] = true
				shown.Readings = append(shown.Readings, isolationRead(p, b))
			}
		}
		shows = append(shows, shown)
	}
	for _, e := range p.Isolations {
		if b := e.Body.(observation.Isolation); !b.Ohm.Open && !said[e.ID] {
			loose = append(loose, isolationRead(p, b))
		}
	}
	return shows, loose
}

// liesBetween reports whether a reading lies between the two ends of a join.
func liesBetween(j *trace.Join, b observation.Isolation) bool {
	if j.Bar != "" {
		return b.Against == j.Bar && slices.Contains(b.A, j.A)
	}
	return b.Against == observation.AgainstSpaces &&
		(slices.Contains(b.A, j.A) && slices.Contains(b.B, j.B) || slices.Contains(b.A, j.B) && slices.Contains(b.B, j.A))
}

// isolationRead is a reading with its value: "space 1 to space 3: 0.4 Ω".
func isolationRead(p *installation.Panel, b observation.Isolation) string {
	all := len(b.B) > 1 && len(b.A)+len(b.B) == len(p.Branches())
	return isolationWords(b.A, b.Against, b.B, all) + ": " + b.Ohm.String()
}

// addIsolation keeps every row with a value. A row that cannot be used comes
// back with its sentence; the others are kept once.
func addIsolation(v *visit) error {
	f := v.typed()
	p := v.found.Panel(v.arg("panel"))
	if p == nil {
		return notFound{sayNoThing}
	}
	kept, taken := 0, f.moment("date", "time", v.ask.Now)
	if f.Bad() {
		return isolationWith(v, f)
	}
	for _, l := range trace.PlanIsolation(v.found.Installation, p.Thing).Lines {
		if l.Taken {
			continue
		}
		if v.keepIsolation(f, p, l, taken) {
			kept++
		}
	}
	if kept > 0 {
		if err := v.afresh(); err != nil {
			return err
		}
	}
	if kept == 0 && !f.Bad() {
		f.fault("row", sayNoValue)
	}
	if f.Bad() {
		return isolationWith(v, f)
	}
	return v.goTo(fmt.Sprintf("isolation/%s?kept=%d", v.args["panel"], kept))
}

// keepIsolation keeps one row, when something stands in it.
func (v *visit) keepIsolation(f *form, p *installation.Panel, l trace.IsolationLine, taken time.Time) bool {
	name := "ohm." + isolationKey(l)
	ohm := quantity.Resistance{Open: true}
	if f.Get("open") != isolationKey(l) {
		if strings.TrimSpace(f.Get(name)) == "" {
			return false
		}
		var ok bool
		if ohm, ok = f.ohm(name); !ok {
			return false
		}
	}
	body := observation.Isolation{A: l.A, Against: l.Against, B: l.B, Ohm: ohm,
		SwitchesOn: observation.Known(f.Get("switches_on")), LoadsOff: observation.Known(f.Get("loads_off"))}
	return v.recordRow(f, name, observation.Observation{Subject: p.Thing, Taken: taken, Body: body})
}

// recordRow keeps one row of a table; a fault goes to the row's own field and
// does not keep other rows from being kept.
func (v *visit) recordRow(f *form, name string, o observation.Observation) bool {
	if f.Failed != "" || v.who == "" {
		return false
	}
	if o.Who == "" {
		o.Who = v.who
	}
	id, err := v.job.Site.Record(o)
	if err != nil && id.IsZero() {
		f.takeRow(err, name)
		return false
	}
	return true
}
