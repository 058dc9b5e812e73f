package web

import (
	"slices"
	"strconv"
	"strings"

	"asfound/installation"
	"asfound/observation"
	"asfound/pattern"
	"asfound/quantity"
	"asfound/trace"
)

// asked is one reading that a stop still wants.
type asked struct {
	A, B observation.Point
	Why  string
}

// name tells two readings of one stop apart in the form that was answered.
func (a asked) name() string {
	return a.A.Cable + "." + string(a.A.Wire) + "." + string(a.B.Wire)
}

type stopPage struct {
	Form              *form
	Tour, Thing, Stop string
	TourName          string
	Number, Room      string
	Live              string
	Ask               *askView
	WantLetters       bool
	Again             []navItem // about the letters, each with the entry to withdraw
	Lines             []lineNow
	Taken             []entryView
	Place, Count      int
	Next              *navItem
	NextRoom, Look    string
	Kept              string
	Others            []navItem
	Earlier           int
	Joins             []joinView
	Remind            bool     // a reading was kept just now, and no letters with it
	Warn              []string // found here, and in the way of energizing
	Oddities          []string // found here besides
}

type askView struct {
	Name, Say, Short, Why string
}

// lineNow is what a conductor end's line says now, and how firmly.
type lineNow struct {
	statement
	Firm string
}

// showStop is one opening of a tour: the one reading to take now.
func showStop(v *visit) error { return v.stopPage(v.form()) }

// stopPage is the page of a visit, by what the tour tells conductors apart with.
func (v *visit) stopPage(f *form) error {
	t, err := v.tour()
	switch {
	case err != nil:
		return err
	case t.Removed:
		return offWith(v, f, t)
	case t.Means == observation.ByPairing:
		return pairWith(v, f)
	}
	return stopWith(v, f)
}

func stopWith(v *visit, f *form) error {
	t, err := v.tour()
	if err != nil {
		return err
	}
	o := v.found.Opening(v.arg("opening"))
	if o == nil {
		return notFound{sayNoThing}
	}
	stop := v.stopName(t, o)
	data := stopPage{Form: f, Tour: t.ID.String(), Thing: string(o.Thing), Stop: stop, TourName: t.Name, Number: o.Number,
		Room: v.found.Name(o.Room), Live: v.tourStop(t), Kept: v.query("kept"), Joins: v.joinViews(f, o)}
	v.fillWalk(&data, t, o)
	here := stopNamed(o, stop)
	data.WantLetters = here == nil || len(here.Letters) == 0
	if here == nil {
		data.Earlier = len(o.Stops)
	} else {
		for _, e := range slices.Backward(slices.Concat(here.Letters, here.Ohms, here.Cannot)) {
			data.Taken = append(data.Taken, v.entry(e))
		}
		v.fillAgain(&data, o, here)
	}
	data.Remind = data.Kept != "" && data.WantLetters && here != nil && len(here.Ohms)+len(here.Cannot) == 1
	for _, odd := range v.oddities(o.Thing) {
		if canWait[odd.Kind] {
			data.Oddities = append(data.Oddities, odd.Say)
		} else {
			data.Warn = append(data.Warn, odd.Say)
		}
	}
	for _, l := range v.found.Trace.At(o.Thing) {
		data.Lines = append(data.Lines, lineNow{v.statement(l), l.FalseOnlyIf()})
	}
	if a := v.nextReading(o, here); a != nil {
		data.Ask = &askView{Name: a.name(), Say: askWords(*a), Short: ohmPair(a.A.Wire, a.B.Wire), Why: a.Why}
	}
	if data.WantLetters && !f.Bad() {
		f.start("letters")
	}
	f.start("ohm")
	return v.renderForm("stop", o.Number+", "+t.Name, f, data)
}

// fillWalk says where on the walk the opening is and which comes next.
func (v *visit) fillWalk(data *stopPage, t *installation.Tour, o *installation.Opening) {
	var all []*installation.Opening
	at := 0
	for _, room := range v.walk(t) {
		for _, thing := range room.Openings {
			if thing == o.Thing {
				at = len(all)
			}
			all = append(all, v.found.Opening(thing))
		}
	}
	data.Place, data.Count = at+1, len(all)
	if at+1 < len(all) {
		next := all[at+1]
		data.Next = &navItem{Href: "tour/" + t.ID.String() + "/" + string(next.Thing), Name: next.Number}
		if next.Room != o.Room {
			data.NextRoom = v.found.Name(next.Room)
		}
	}
	if data.Next == nil || data.NextRoom != "" {
		data.Look = "look/" + t.ID.String() + "/" + string(o.Room)
	}
}

// fillAgain says what to put right, and which openings the letters on the tape
// would fit when they do not fit this one.
func (v *visit) fillAgain(data *stopPage, o *installation.Opening, here *installation.Stop) {
	for _, a := range v.found.Trace.Again {
		if a.At == o.Thing && a.A.Wire == "" {
			data.Again = append(data.Again, navItem{Href: "entry/" + a.Of[0].String(), Name: a.Say})
		}
	}
	if len(here.Letters) == 0 {
		return
	}
	typed := here.Letters[len(here.Letters)-1].Body.(observation.Letters).Letters
	if pattern.LettersMatch(o.Number, typed) {
		return
	}
	for _, other := range v.fitting(typed) {
		data.Others = append(data.Others, navItem{Href: "tour/" + data.Tour + "/" + string(other.Thing), Name: other.Number})
	}
}

// fitting are the openings that letters fit, five at most.
func (v *visit) fitting(letters string) []*installation.Opening {
	var out []*installation.Opening
	for _, o := range v.found.Openings {
		if len(out) < 5 && pattern.LettersMatch(o.Number, letters) {
			out = append(out, o)
		}
	}
	return out
}

// oddities are what was found wrong or unusual at a place.
func (v *visit) oddities(at observation.Thing) []trace.Oddity {
	var out []trace.Oddity
	for _, odd := range v.found.Trace.Oddities {
		if odd.Place == at {
			out = append(out, odd)
		}
	}
	return out
}

// stopName is the name of this visit: the one the page carries, else the
// person's visit that is going on here, else a new one.
func (v *visit) stopName(t *installation.Tour, o *installation.Opening) string {
	if named := v.query("stop"); named != "" {
		return named
	}
	if n := len(o.Stops); n > 0 && v.query("again") == "" {
		last := o.Stops[n-1]
		if last.Who == v.who && !strings.HasPrefix(last.ID, sheetMark) && v.ask.Now.Sub(last.First.When()).Minutes() < 20 && slices.Contains(last.First.Under, t.ID) {
			return last.ID
		}
	}
	return newStop(v, o.Thing)
}

// newStop names a visit by opening, moment and person.
func newStop(v *visit, opening observation.Thing) string {
	return string(opening) + "." + strconv.FormatInt(v.ask.Now.UnixMilli(), 36) + "." + strings.ReplaceAll(v.who, " ", "")
}

func stopNamed(o *installation.Opening, id string) *installation.Stop {
	for _, s := range o.Stops {
		if s.ID == id {
			return s
		}
	}
	return nil
}

// nextReading is what this stop wants next: hot to ground and hot to neutral of
// each conductor end, then whatever has to be read again.
func (v *visit) nextReading(o *installation.Opening, here *installation.Stop) *asked {
	for _, a := range firstReadings(o) {
		if here == nil || !answeredAt(here, a) {
			return &a
		}
	}
	for _, again := range v.found.Trace.Again {
		if again.At == o.Thing && again.A.Wire != "" {
			return &asked{A: again.A, B: again.B, Why: again.Say}
		}
	}
	return nil
}

// firstReadings are the two readings of each conductor end of an opening. Hots
// spliced together in the box are one: the first is read.
func firstReadings(o *installation.Opening) []asked {
	var out []asked
	for _, tag := range cableTags(o) {
		hot := observation.Point{At: o.Thing, Cable: tag, Wire: observation.Hot}
		out = append(out, asked{A: hot, B: beside(hot, observation.EGC)}, asked{A: hot, B: beside(hot, observation.Neutral)})
	}
	return out
}

func beside(p observation.Point, w observation.Wire) observation.Point {
	return observation.Point{At: p.At, Cable: p.Cable, Wire: w}
}

// cableTags are the cables whose hot is read; one without a name where no cable
// is on record.
func cableTags(o *installation.Opening) []string {
	spliced := false
	var out []string
	for _, c := range o.Cables {
		together := false
		for _, w := range c.Conductors {
			together = together || w.Wire == observation.Hot && w.State == observation.Spliced
		}
		if together && spliced {
			continue
		}
		spliced = spliced || together
		out = append(out, c.Tag)
	}
	if len(out) == 0 || len(out) == 1 && readWithout(o) {
		return []string{""}
	}
	return out
}

// readWithout reports whether readings were taken here before a cable had a tag.
func readWithout(o *installation.Opening) bool {
	for _, s := range o.Stops {
		for _, e := range s.Ohms {
			if e.Body.(observation.Ohm).A.Cable == "" {
				return true
			}
		}
	}
	return false
}

// answeredAt reports whether a stop has a reading, or a note that there is none.
func answeredAt(s *installation.Stop, a asked) bool {
	for _, e := range s.Ohms {
		b := e.Body.(observation.Ohm)
		if b.A == a.A && b.B == a.B || b.A == a.B && b.B == a.A {
			return true
		}
	}
	for _, e := range s.Cannot {
		if e.Body.(observation.CannotRead).What == askWords(a) {
			return true
		}
	}
	return false
}

// addStop keeps the letters and the reading, and asks for the next.
func addStop(v *visit) error {
	f := v.typed()
	t, err := v.tour()
	if err != nil {
		return err
	}
	o := v.found.Opening(v.arg("opening"))
	if o == nil {
		return notFound{sayNoThing}
	}
	stop := v.stopName(t, o)
	f.values["stop"] = []string{stop}
	if f.Get("answer") == "later" {
		return v.goTo(v.afterLater(t, o))
	}
	if v.refuseOff(f, t) {
		return v.stopPage(f)
	}
	kept := v.keepStop(f, t, o, stop)
	if f.Bad() {
		if err := v.afresh(); err != nil {
			return err
		}
		v.ask.Form["stop"] = []string{stop}
		return v.stopPage(f)
	}
	address := "tour/" + v.args["tour"] + "/" + v.args["opening"] + "?stop=" + queryEscape(stop) + "&kept=" + queryEscape(kept)
	if end := f.Get("end"); end != "" {
		address += "&said=" + queryEscape(end)
	}
	return v.goTo(address)
}

// keepStop keeps what was answered, and says what was kept.
func (v *visit) keepStop(f *form, t *installation.Tour, o *installation.Opening, stop string) string {
	kept := ""
	if letters := strings.TrimSpace(f.Get("letters")); letters != "" {
		if _, ok := v.record(f, observation.Observation{Stop: stop, Under: []observation.ID{t.ID}, Subject: o.Thing,
			Body: observation.Letters{Letters: strings.ToUpper(letters)}}, nil); ok {
			kept = "letters"
			delete(f.values, "letters") // kept already; the value below may still be unusable
		}
	}
	switch f.Get("answer") {
	case "letters":
		if kept == "" {
			f.fault("letters", sayNoLetters)
		}
		return kept
	case "on":
		return v.keepPut(f, t, o, stop)
	case "enter":
		return v.keepCables(f, o, stop)
	}
	return v.keepReading(f, t, o, stop)
}

// keepReading keeps the value, or the answer that there is none.
func (v *visit) keepReading(f *form, t *installation.Tour, o *installation.Opening, stop string) string {
	a := readingNamed(o, f.Get("reading"))
	obs := observation.Observation{Stop: stop, Under: []observation.ID{t.ID}, Subject: o.Thing}
	switch f.Get("answer") {
	case "cannot":
		why := strings.TrimSpace(f.Get("why"))
		if why == "" {
			why = sayNotGiven
		}
		obs.Body = observation.CannotRead{What: askWords(a), Why: why}
	case "notreached":
		obs.Body = observation.NotReached{Why: strings.TrimSpace(f.Get("why"))}
	default:
		ohm := quantity.Resistance{Open: true}
		if f.Get("answer") != "open" {
			if strings.TrimSpace(f.Get("ohm")) == "" {
				f.fault("ohm", sayNoValue)
				return ""
			}
			var ok bool
			if ohm, ok = f.shows("ohm"); !ok {
				return ""
			}
		}
		reprobed := observation.Yes
		if f.Get("not_lifted") != "" {
			reprobed = observation.No
		}
		obs.Subject = ""
		obs.Under = append(obs.Under, v.joinsTicked(f, o)...)
		obs.Body = observation.Ohm{A: a.A, B: a.B, Ohm: ohm, Reprobed: reprobed}
	}
	if _, ok := v.record(f, obs, map[string]string{"a": "ohm", "b": "ohm"}); !ok {
		return ""
	}
	if b, ok := obs.Body.(observation.Ohm); ok {
		return b.Ohm.String()
	}
	return kindWord(obs.Body.Kind())
}

// readingNamed reads back which reading the form was about.
func readingNamed(o *installation.Opening, name string) asked {
	parts := strings.Split(name, ".")
	if len(parts) < 3 {
		return firstReadings(o)[0]
	}
	n := len(parts)
	at := observation.Point{At: o.Thing, Cable: strings.Join(parts[:n-2], ".")}
	return asked{A: beside(at, observation.Wire(parts[n-2])), B: beside(at, observation.Wire(parts[n-1]))}
}

// afterLater goes on past a reading that is left for later.
func (v *visit) afterLater(t *installation.Tour, o *installation.Opening) string {
	var data stopPage
	v.fillWalk(&data, t, o)
	if data.Next != nil {
		return data.Next.Href
	}
	return "tour/" + t.ID.String()
}
