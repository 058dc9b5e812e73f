package web

import (
	"fmt"
	"slices"
	"strings"

	"asfound/installation"
	"asfound/observation"
	"asfound/quantity"
	"asfound/trace"
)

// mostEnter is how many cables a touch may record where none is on record.
const mostEnter = 6

type pairPage struct {
	Form              *form
	Tour, Thing, Stop string
	TourName          string
	Number, Room      string
	Live, Kept        string
	WantLetters       bool
	Again             []navItem // about the letters
	Others            []navItem
	Said              *statement // what the reading just kept says
	Ends              []pairEnd
	Now               *pairEnd
	Put               string // value of the resistor to put on
	Spent             bool   // no value is left
	Enter             []string
	Place, Count      int
	Next              *navItem
	NextRoom          string
}

// pairEnd is one cable end of an opening on a pairing tour.
type pairEnd struct {
	Tag, Name, Reading, Href string
	Say, State               string
	Line                     *statement
	hot                      observation.Point
	todo                     pairTodo
}

// pairTodo is what a cable end still wants.
type pairTodo int

const (
	pairDone pairTodo = iota
	pairRead          // hot to its own ground
	pairPut           // it read open: the next free resistor
)

// pairWith is one opening of a pairing tour: the one thing to do at the next
// cable end.
func pairWith(v *visit, f *form) error {
	t, err := v.tour()
	if err != nil {
		return err
	}
	o := v.found.Opening(v.arg("opening"))
	if o == nil {
		return notFound{sayNoThing}
	}
	stop := v.stopName(t, o)
	data := pairPage{Form: f, Tour: t.ID.String(), Thing: string(o.Thing), Stop: stop, TourName: t.Name, Number: o.Number,
		Room: v.found.Name(o.Room), Live: v.tourStop(t), Kept: v.query("kept")}
	v.fillPairWalk(&data, t, o, stop)
	p := v.pairing(t)
	data.Spent = len(p.Free) == 0
	if len(p.Free) > 0 {
		data.Put = p.Free[0].String()
	}
	for _, tag := range pairTags(o) {
		data.Ends = append(data.Ends, v.pairEnd(t, o, tag, stop))
	}
	data.comesBack(f)
	data.pick(v.query("cable"), v.query("said"))
	if len(o.Cables) == 0 && !readWithout(o) {
		for n := range mostEnter {
			data.Enter = append(data.Enter, fmt.Sprint(n+1))
		}
	}
	if data.WantLetters && !f.Bad() {
		f.start("letters")
	}
	f.start("ohm")
	return v.renderForm("pair", o.Number+", "+t.Name, f, data)
}

// comesBack keeps the cable end up whose form could not be kept, even if it is
// done by now.
func (data *pairPage) comesBack(f *form) {
	for i := range data.Ends {
		if e := &data.Ends[i]; f.Bad() && e.Tag == f.Get("end") {
			e.todo = pairRead
			if f.Get("answer") == "on" {
				e.todo = pairPut
			}
			data.Now = e
		}
	}
}

// pick chooses the cable end that is up: the one asked for, else the first that
// wants something; and says what the one just read is.
func (data *pairPage) pick(cable, said string) {
	for i := range data.Ends {
		e := &data.Ends[i]
		if e.Tag == said {
			data.Said = e.Line
		}
		if e.todo != pairDone && (data.Now == nil || e.Tag == cable) {
			data.Now = e
		}
	}
}

// fillPairWalk says where on the walk the opening is, and what its tape says.
func (v *visit) fillPairWalk(data *pairPage, t *installation.Tour, o *installation.Opening, stop string) {
	here := stopNamed(o, stop)
	at := stopPage{Tour: data.Tour}
	v.fillWalk(&at, t, o)
	data.Place, data.Count, data.Next, data.NextRoom = at.Place, at.Count, at.Next, at.NextRoom
	data.WantLetters = here == nil || len(here.Letters) == 0
	if here != nil {
		v.fillAgain(&at, o, here)
		data.Again, data.Others = at.Again, at.Others
	}
}

// pairing says how far a pairing tour has come. It draws from the 96 values of
// a decade (IEC 60063), since each cable end met first takes one.
func (v *visit) pairing(t *installation.Tour) trace.Pairing {
	return v.found.Trace.PairingOf(t, trace.SetOf(t, "E96"))
}

// pairTags are the cables of an opening; one without a name where none is on
// record.
func pairTags(o *installation.Opening) []string {
	var out []string
	for _, c := range o.Cables {
		out = append(out, c.Tag)
	}
	if len(out) == 0 {
		out = append(out, "")
	}
	return out
}

// pairEnd says how far one cable end has come.
func (v *visit) pairEnd(t *installation.Tour, o *installation.Opening, tag, stop string) pairEnd {
	hot := observation.Point{At: o.Thing, Cable: tag, Wire: observation.Hot}
	a := asked{A: hot, B: beside(hot, observation.EGC)}
	e := pairEnd{Tag: tag, Name: cableName(tag), Reading: a.name(), hot: hot, Say: hot.String() + " to its own ground",
		Href: "tour/" + t.ID.String() + "/" + string(o.Thing) + "?cable=" + queryEscape(tag) + "&stop=" + queryEscape(stop)}
	if l := v.found.Trace.Line(hot); l != nil && l.Source.Kind == trace.FromEnd {
		line := v.statement(l)
		e.Line = &line
	}
	last, read := lastOhm(t, o, a)
	on, bears := resistorsOn(t)[hot]
	switch {
	case e.Line != nil:
		e.State = statePaired
	case bears:
		e.State = on.String() + stateOn
	case read && last.Open:
		e.todo, e.State = pairPut, stateOpen
	case read:
		e.todo, e.State = pairRead, sayFitsNone(last)
	case cannotAt(t, o, a):
		e.State = stateCannot
	default:
		e.todo, e.State = pairRead, stateUnread
	}
	return e
}

// lastOhm is the latest reading of this pair of conductors on a tour.
func lastOhm(t *installation.Tour, o *installation.Opening, a asked) (quantity.Resistance, bool) {
	var out quantity.Resistance
	found := false
	for _, s := range o.Stops {
		for _, e := range s.Ohms {
			b := e.Body.(observation.Ohm)
			if slices.Contains(e.Under, t.ID) && (b.A == a.A && b.B == a.B || b.A == a.B && b.B == a.A) {
				out, found = b.Ohm, true
			}
		}
	}
	return out, found
}

// cannotAt reports whether this reading could not be taken on a tour.
func cannotAt(t *installation.Tour, o *installation.Opening, a asked) bool {
	for _, s := range o.Stops {
		for _, e := range s.Cannot {
			if slices.Contains(e.Under, t.ID) && e.Body.(observation.CannotRead).What == askWords(a) {
				return true
			}
		}
	}
	return false
}

// keepPut keeps the resistor that was put on a cable end: the value the page
// named, or another one typed. A value is on one cable end alone.
func (v *visit) keepPut(f *form, t *installation.Tour, o *installation.Opening, stop string) string {
	if t.Means != observation.ByPairing {
		f.fault("put", sayNoPairing)
		return ""
	}
	a, field := readingNamed(o, f.Get("reading")), "put"
	if strings.TrimSpace(f.Get("other")) != "" {
		field = "other"
	}
	value, ok := f.ohm(field)
	if !ok {
		return ""
	}
	if value.Open {
		f.fault(field, sayNoResistor)
		return ""
	}
	for at, ohm := range resistorsOn(t) {
		if ohm == value.Ohm && at != a.A {
			f.fault(field, sayUsed(ohm.String(), v.found.PointName(at)))
			return ""
		}
	}
	body := observation.Resistor{On: a.A, Ohm: value.Ohm}
	if _, ok := v.record(f, observation.Observation{Stop: stop, Under: []observation.ID{t.ID}, Body: body}, map[string]string{"ohm": field, "on": field}); !ok {
		return ""
	}
	return sayPutOn(value.Ohm.String(), a.A.String())
}

// keepCables keeps the cables that enter an opening by their number alone; what
// is in them is for the opening's own page.
func (v *visit) keepCables(f *form, o *installation.Opening, stop string) string {
	n := atoi(f.Get("enter"))
	if n < 1 || n > mostEnter || len(o.Cables) > 0 {
		f.fault("enter", sayEnter)
		return ""
	}
	for i := range n {
		if _, ok := v.record(f, observation.Observation{Stop: stop, Subject: o.Thing, Body: observation.CableEnd{Tag: fmt.Sprint(i + 1)}}, nil); !ok {
			return ""
		}
	}
	return counted(n, "cable")
}

// Puts reports whether a resistor goes on next.
func (e pairEnd) Puts() bool { return e.todo == pairPut }

// Again reports whether the end was read and has to be read once more.
func (e pairEnd) Again() bool { return e.todo == pairRead && e.State != stateUnread }
