package web

import (
	"cmp"
	"slices"

	"asfound/days"
	"asfound/installation"
	"asfound/observation"
	"asfound/step"
)

type nextPage struct {
	Who     string
	At      string
	AtHref  string
	Card    *stepView
	Chosen  *choiceView // the card is what the person chose, not what was ranked first
	Instead []stepView
	People  []string
	Kept    string
	From    string // the place that the address named
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

// choiceView is a step that the person passed over.
type choiceView struct{ ID, Say, When string }

type stepView struct {
	step.Step
	Href, Button, Time string
}

// showNext is the one thing to do now, for whoever asks, with two others.
func showNext(v *visit) error { return nextWith(v, v.form()) }

func nextWith(v *visit, f *form) error {
	card := v.card()
	data := nextPage{Who: v.who, People: v.people(), Kept: v.query("kept"), From: v.query("at"), Form: f, Off: v.putOffs(), Reasons: notNowReasons}
	if data.AtHref = v.thingHref(card.At); data.AtHref != "" {
		data.At = placeTitle(v.found.Installation, card.At)
	}
	if c := card.Instead; c != nil {
		data.Chosen = &choiceView{ID: c.ID.String(), Say: stepKeyWords(v.found.Installation, c.Proposed), When: dayAndTime(c.When, v.ask.Now)}
	}
	for i, s := range card.Best {
		if view := v.stepView(s); i == 0 {
			data.Card = &view
		} else {
			data.Instead = append(data.Instead, view)
		}
	}
	for _, s := range card.Off {
		if off := offBy(data.Off, s.Key); off != nil {
			data.Passed = append(data.Passed, passedView{v.stepView(s), *off})
		}
	}
	slices.SortStableFunc(data.Passed, func(a, b passedView) int { return cmp.Compare(a.Off.place, b.Off.place) })
	return v.renderForm("next", titleNext, f, data)
}

// card is what days proposes to the person who asks, from where he says he is.
func (v *visit) card() days.Card {
	return days.Next(v.found, days.Person{Name: v.who, At: observation.Thing(v.query("at"))})
}

func (v *visit) stepView(s step.Step) stepView {
	return stepView{Step: s, Href: v.stepHref(s), Button: stepButton(s.Kind), Time: sayTime(s)}
}

// stepHref is the page on which a step is entered.
func (v *visit) stepHref(s step.Step) string {
	tour, thing := v.stepTour(s), observation.Thing(s.Place)
	switch s.Kind {
	case step.Sources:
		return "sources"
	case step.FindFeed:
		if v.found.Opening(thing) != nil {
			return "live/" + s.Place
		}
		return "feeder/" + s.Place
	case step.LookFor:
		if b := v.found.BuildingOf(thing); b != nil {
			return "differences?building=" + string(b.Thing)
		}
		return "differences"
	case step.Release:
		return "release/" + s.Place
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
	if p := v.found.Panel(thing); p != nil && s.Kind == step.Spaces && v.nextSpace(p, 0) > 0 {
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

// stepTour is the tour a step is part of; one that names none is part of the
// latest that stands.
func (v *visit) stepTour(s step.Step) *installation.Tour {
	if id, err := observation.ParseID(s.Tour); err == nil && v.found.Tour(id) != nil {
		return v.found.Tour(id)
	}
	return v.openTour()
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

// thingHref is the page of a building, room, opening, panel, source or tour.
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
	case v.found.Source(t) != nil:
		return "source/" + string(t)
	case v.found.DrawnAs(t) != nil:
		return "differences"
	}
	if id, err := observation.ParseID(string(t)); err == nil && v.found.Tour(id) != nil {
		return "tour/" + string(t)
	}
	return ""
}
