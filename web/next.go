package web

import (
	"cmp"
	"slices"

	"asfound/installation"
	"asfound/observation"
	"asfound/step"
)

type nextPage struct {
	Who     string
	At      string
	AtHref  string
	Card    *stepView
	Instead []stepView
	People  []string
	Kept    string
	Form    *form
	Passed  []passedView // proposed, and put off: in the order of being put off
	Off     []offView    // all that is put off
	Reasons []string
}

// passedView is a step that is proposed though somebody put it off.
type passedView struct {
	stepView
	Off offView
}

type stepView struct {
	step.Step
	Href, Button, Time string
}

// showNext is the one thing to do now, for whoever asks, with two others.
func showNext(v *visit) error { return nextWith(v, v.form()) }

func nextWith(v *visit, f *form) error {
	at := v.standsAt()
	data := nextPage{Who: v.who, People: v.people(), Kept: v.query("kept"), Form: f, Off: v.putOffs(), Reasons: notNowReasons}
	if at != "" {
		data.At, data.AtHref = placeTitle(v.found.Installation, at), v.thingHref(at)
	}
	var off []string
	for _, o := range data.Off {
		off = append(off, o.Key)
	}
	for _, s := range v.found.Trace.Next(v.found.Installation, at, off...) {
		view := stepView{Step: s, Href: v.stepHref(s), Button: stepButton(s.Kind), Time: sayMinutes(s.Minutes)}
		if off := offBy(data.Off, s.Key); off != nil {
			data.Passed = append(data.Passed, passedView{view, *off})
		} else if data.Card == nil {
			data.Card = &view
		} else {
			data.Instead = append(data.Instead, view)
		}
	}
	slices.SortStableFunc(data.Passed, func(a, b passedView) int { return cmp.Compare(a.Off.place, b.Off.place) })
	return v.renderForm("next", titleNext, f, data)
}

// standsAt is where the person was last, by what he recorded.
func (v *visit) standsAt() observation.Thing {
	if at := v.query("at"); at != "" {
		return observation.Thing(at)
	}
	events, err := v.job.book.all(v.job.Entries)
	if err != nil || v.who == "" {
		return ""
	}
	for _, e := range slices.Backward(events) {
		if at := placeOf(e); e.Who == v.who && at != "" {
			if v.found.Opening(at) != nil || v.found.Panel(at) != nil || v.found.Room(at) != nil {
				return at
			}
		}
	}
	return ""
}

// placeOf is where somebody stood when he recorded an event; what is typed of
// another entry says nothing of that.
func placeOf(e observation.Event) observation.Thing {
	switch e.Body.(type) {
	case observation.Withdrawal, observation.Decision:
		return ""
	}
	return e.Place()
}

// stepHref is the page on which a step is entered.
func (v *visit) stepHref(s step.Step) string {
	tour, thing := v.openTour(), observation.Thing(s.Place)
	switch s.Kind {
	case step.ProveDead:
		return "dead/" + string(v.panelOf(thing))
	case step.Isolate:
		return "isolation/" + s.Place
	case step.Place, step.ReadBack, step.TakeOff, step.LookRound, step.Read:
		if tour == nil {
			return "tour?panel=" + s.Place
		}
		return v.tourStepHref(s, tour)
	}
	if p := v.found.Panel(thing); p != nil && v.nextSpace(p, 0) > 0 {
		return spaceHref(thing, v.nextSpace(p, 0))
	}
	if href := v.thingHref(thing); href != "" {
		return href
	}
	if len(v.found.Buildings) > 0 {
		return "building/" + string(v.found.Buildings[0].Thing)
	}
	return "property"
}

// panelOf is the panel a step is about; a step of a tour that names none is
// about the tour's first panel that is not on record as dead.
func (v *visit) panelOf(thing observation.Thing) observation.Thing {
	if t := v.openTour(); v.found.Panel(thing) == nil && t != nil {
		for _, at := range t.Panels {
			if p := v.found.Panel(at); p != nil {
				if _, dead := v.found.DeadSince(p); !dead {
					return at
				}
			}
		}
	}
	return thing
}

func (v *visit) tourStepHref(s step.Step, tour *installation.Tour) string {
	id := tour.ID.String()
	switch s.Kind {
	case step.Place:
		return "resistors/" + id
	case step.ReadBack:
		return "readback/" + id
	case step.TakeOff:
		return "takeoff/" + id
	case step.LookRound:
		room := observation.Thing(s.Place)
		if o := v.found.Opening(room); o != nil {
			room = o.Room
		}
		return "look/" + id + "/" + string(room)
	}
	if v.found.Opening(observation.Thing(s.Place)) != nil {
		if len(v.found.Trace.At(observation.Thing(s.Place))) > 0 {
			return "tour/" + id + "/" + s.Place + "?again=yes"
		}
		return "tour/" + id + "/" + s.Place
	}
	if openings := v.found.In(observation.Thing(s.Place)); len(openings) > 0 {
		return "tour/" + id + "/" + string(openings[0].Thing)
	}
	return "tour/" + id
}

// openTour is the latest tour by resistors at panels that is not taken down.
func (v *visit) openTour() *installation.Tour { return v.standingTour(observation.ByResistor) }

// standingTour is the latest tour by these means that is not taken down.
func (v *visit) standingTour(means observation.Means) *installation.Tour {
	for _, t := range slices.Backward(v.found.Tours) {
		if !t.Removed && t.Means == means {
			return t
		}
	}
	return nil
}

// thingHref is the page of a building, room, opening, panel or tour.
func (v *visit) thingHref(t observation.Thing) string {
	switch {
	case v.found.Opening(t) != nil:
		return "opening/" + string(t)
	case v.found.Panel(t) != nil:
		return "panel/" + string(t)
	case v.found.Room(t) != nil:
		return "room/" + string(t)
	case v.found.Building(t) != nil:
		return "building/" + string(t)
	}
	if id, err := observation.ParseID(string(t)); err == nil && v.found.Tour(id) != nil {
		return "tour/" + string(t)
	}
	return ""
}
