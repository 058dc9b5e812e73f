package installation

import (
	"cmp"
	"slices"

	"asfound/observation"
)

// make builds a thing from all that is about it, or nil when no live event
// records that it is there.
func (f *Fold) make(t observation.Thing) any {
	story := f.story(t)
	var live []observation.Event
	for _, e := range story {
		if e.Live() {
			live = append(live, e.Event)
		}
	}
	for _, e := range slices.Backward(live) {
		switch b := e.Body.(type) { // the latest record of the thing itself counts
		case observation.Building:
			return &Building{Thing: t, Building: b, Paths: of[observation.Path](live), Story: story}
		case observation.Room:
			return &Room{Thing: t, Room: b, Checks: of[observation.RoomCheck](live), Size: latest[observation.RoomSize](live),
				Doorways: of[observation.Doorway](live), Story: story}
		case observation.Opening:
			return makeOpening(t, b, live, story)
		case observation.Panel:
			return makePanel(t, b, live, story)
		case observation.Tour:
			return makeTour(t, b, live, story)
		case observation.Source:
			return &Source{Thing: t, Source: b, Safety: safety(live), Story: story}
		case observation.Feeder:
			return &Feeder{Thing: t, Feeder: b, Story: story}
		case observation.Drawn:
			return makeDrawn(t, b, live, story)
		}
	}
	if len(story) > 0 && story[0].ID.Thing() == t {
		return &Gone{Story: story}
	}
	return nil
}

// story sorts the events about a thing into their one order.
func (f *Fold) story(t observation.Thing) Story {
	events := f.at[t]
	if !slices.IsSortedFunc(events, compareKept) {
		slices.SortFunc(events, compareKept)
	}
	out := make(Story, len(events))
	for i, k := range events {
		out[i] = f.entry(k)
	}
	return out
}

func compareKept(a, b *kept) int { return byClock(a.Event, b.Event) }

// of picks the events whose body is a B.
func of[B observation.Body](events []observation.Event) []observation.Event {
	var out []observation.Event
	for _, e := range events {
		if _, ok := e.Body.(B); ok {
			out = append(out, e)
		}
	}
	return out
}

// latest returns the last body of type B, or nil.
func latest[B observation.Body](events []observation.Event) *B {
	for _, e := range slices.Backward(events) {
		if b, ok := e.Body.(B); ok {
			return &b
		}
	}
	return nil
}

// cables keeps the latest record of each tag.
func cables(events []observation.Event) []observation.CableEnd {
	byTag := map[string]observation.CableEnd{}
	for _, e := range events {
		if c, ok := e.Body.(observation.CableEnd); ok {
			byTag[c.Tag] = c
		}
	}
	var out []observation.CableEnd
	for _, c := range byTag {
		out = append(out, c)
	}
	slices.SortFunc(out, func(a, b observation.CableEnd) int { return compareNames(a.Tag, b.Tag) })
	return out
}

func makeOpening(t observation.Thing, b observation.Opening, live []observation.Event, story Story) *Opening {
	o := &Opening{Thing: t, Opening: b, Cables: cables(live), Joints: of[observation.Joined](live),
		Spot: latest[observation.Spot](live), Story: story}
	if plate := latest[observation.Plate](live); plate != nil {
		o.Plate = plate.On
	}
	stops := map[string]*Stop{}
	for _, e := range live {
		switch e.Body.(type) {
		case observation.Letters, observation.Ohm, observation.CannotRead:
			o.NotReached = nil
			o.stop(stops, e)
		case observation.NotReached:
			o.NotReached = &e
		}
	}
	return o
}

// stop hangs a reading on its stop; those recorded without one may all be of the
// same visit.
func (o *Opening) stop(stops map[string]*Stop, e observation.Event) {
	id := cmp.Or(e.Stop, "no visit named, "+e.Who)
	s := stops[id]
	if s == nil {
		s = &Stop{ID: id, Who: e.Who, First: e}
		stops[id] = s
		o.Stops = append(o.Stops, s)
	}
	switch e.Body.(type) {
	case observation.Letters:
		s.Letters = append(s.Letters, e)
	case observation.Ohm:
		s.Ohms = append(s.Ohms, e)
	case observation.CannotRead:
		s.Cannot = append(s.Cannot, e)
	}
}

func makePanel(t observation.Thing, b observation.Panel, live []observation.Event, story Story) *Panel {
	p := &Panel{Thing: t, Panel: b, Seen: map[int]observation.Space{}, Cables: cables(live),
		Isolations: of[observation.Isolation](live), Safety: safety(live), Cabinet: latest[observation.Cabinet](live), Story: story}
	for _, e := range live {
		switch b := e.Body.(type) {
		case observation.Space:
			p.Seen[b.Number] = b
		case observation.PassThrough:
			p.Passes = append(p.Passes, b)
		}
	}
	return p
}

func makeTour(thing observation.Thing, b observation.Tour, live []observation.Event, story Story) *Tour {
	id, _ := observation.ParseID(string(thing)) // a thing is the text of an ID
	t := &Tour{ID: id, Tour: b, Resistors: of[observation.Resistor](live), ReadBacks: of[observation.ReadBack](live), Story: story}
	t.TakenOff = of[observation.Removed](live)
	t.Removed = len(t.TakenOff) > 0
	return t
}

func makeDrawn(t observation.Thing, b observation.Drawn, live []observation.Event, story Story) *Drawn {
	d := &Drawn{Thing: t, Drawn: b, Story: story}
	if outcomes := of[observation.Reconciled](live); len(outcomes) > 0 {
		d.Outcome = &outcomes[len(outcomes)-1]
	}
	return d
}
