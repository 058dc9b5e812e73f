package web

import (
	"slices"

	"asfound/evidence"
	"asfound/installation"
	"asfound/observation"
	"asfound/trace"
)

type takeOffPage struct {
	Form       *form
	Tour, Name string
	Live       string
	Put, After int
	Left       int
	Removed    bool
	Pairing    bool
	Joins      []navItem
	Where      []string
	On         string // "3 resistors"
	Need       []needRow
	More       []statement // the rest of them; what each lacks stands on its own page
	Unread     []navItem   // openings at which nothing was read, or with no other end found
}

// needRow is a line not settled yet that more readings of the tour can settle,
// and what it lacks.
type needRow struct {
	statement
	Lacks string
}

// mostNeeds is how many lines are shown before the rest is folded away.
const mostNeeds = 8

// showTakeOff ends a tour: the last read-back, then the resistors come off.
func showTakeOff(v *visit) error { return takeOffWith(v, v.form()) }

func takeOffWith(v *visit, f *form) error {
	t, err := v.tour()
	if err != nil {
		return err
	}
	data := takeOffPage{Form: f, Tour: t.ID.String(), Name: t.Name, Live: v.tourStop(t), Removed: t.Removed, After: len(readAt(t, true))}
	for _, p := range v.backOrder(t) {
		data.Where = append(data.Where, v.putName(p))
	}
	data.Put, data.Joins = len(data.Where), v.joinsOf(t)
	data.On = counted(data.Put, "resistor")
	data.Left = max(0, data.Put-data.After)
	if t.Means == observation.ByPairing { // its resistors were read at the other end
		data.Left, data.Pairing = 0, true
	}
	if !t.Removed {
		var lines []*trace.Line
		lines, data.Unread = v.stillNeed(t)
		few := min(mostNeeds, len(lines))
		for _, l := range lines[:few] { // what a line lacks takes long to work out
			data.Need = append(data.Need, needRow{v.statement(l), l.Lacks()})
		}
		data.More = v.statements(lines[few:])
	}
	return v.renderForm("takeoff", "Take off, "+t.Name, f, data)
}

// stillNeed lists what the resistors of a tour are still needed for, in walking
// order: its lines that are not settled, and openings at which nothing was read.
// Of a pairing tour, those are resistors whose other end was not found.
func (v *visit) stillNeed(t *installation.Tour) (lines []*trace.Line, unread []navItem) {
	for _, room := range v.walk(t) {
		for _, at := range room.Openings {
			here := v.found.Trace.At(at)
			if o := v.found.Opening(at); len(here) == 0 && o.NotReached == nil && t.Means != observation.ByPairing {
				unread = append(unread, navItem{Href: "tour/" + t.ID.String() + "/" + string(at), Name: o.Number})
			}
			for _, l := range here {
				if l.Verdict.Standing != evidence.Settled && v.readUnder(t, l) {
					lines = append(lines, l)
				}
			}
		}
	}
	if t.Means == observation.ByPairing {
		for _, put := range v.pairing(t).Out {
			unread = append(unread, navItem{Href: "tour/" + t.ID.String() + "/" + string(put.On.At), Name: v.found.Name(put.On.At)})
		}
	}
	return lines, unread
}

// readUnder reports whether a line rests on a reading of the tour.
func (v *visit) readUnder(t *installation.Tour, l *trace.Line) bool {
	return slices.ContainsFunc(l.RestsOn, func(id observation.ID) bool {
		e, ok := v.job.Site.Event(id)
		return ok && slices.Contains(e.Under, t.ID)
	})
}

// addTakeOff records that the tour is taken down.
func addTakeOff(v *visit) error {
	f := v.typed()
	t, err := v.tour()
	if err != nil {
		return err
	}
	if _, ok := v.record(f, observation.Observation{Under: []observation.ID{t.ID}, Body: observation.Removed{Note: f.Get("note")}}, nil); !ok {
		return takeOffWith(v, f)
	}
	return v.goTo("tour/" + v.args["tour"])
}
