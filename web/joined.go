package web

import (
	"strings"

	"asfound/installation"
	"asfound/observation"
)

type joinedPage struct {
	Form    *form
	Thing   observation.Thing
	Place   navItem
	Ends    []option
	Joins   []joinView
	Kept    bool
	Tour    bool
	Entries []entryView
	Read    string
}

// joinView is a join made on purpose whose tour still stands.
type joinView struct {
	ID, Say string
	On      bool
}

// showJoined takes in the set-up by which readings beyond a switch reach the
// panel: feed and leg joined in the switch box, dead.
func showJoined(v *visit) error { return joinedWith(v, v.form()) }

func joinedWith(v *visit, f *form) error {
	o := v.found.Opening(v.arg("opening"))
	if o == nil {
		return notFound{sayNoThing}
	}
	data := joinedPage{Form: f, Thing: o.Thing, Place: v.placeItem(o.Thing), Kept: v.query("kept") != "",
		Entries: v.recorded(o.Thing, observation.Joined{}.Kind())}
	for _, p := range ungrounded(o) {
		data.Ends = append(data.Ends, option{Value: endName(p), Say: p.String()})
	}
	for _, e := range v.joinsAt(o) {
		data.Joins = append(data.Joins, joinView{ID: e.ID.String(), Say: entryWords(v.found.Installation, e)})
	}
	if t := v.openTour(); t != nil {
		data.Tour = true
		data.Read = "tour/" + t.ID.String() + "/" + string(o.Thing)
	}
	return v.renderForm("joined", "Feed joined to leg, "+o.Number, f, data)
}

// ungrounded are the conductors of an opening that a feed or a leg may be.
func ungrounded(o *installation.Opening) []observation.Point {
	var out []observation.Point
	for _, c := range o.Cables {
		for _, w := range c.Conductors {
			if w.Wire != observation.Neutral && w.Wire != observation.EGC {
				out = append(out, observation.Point{At: o.Thing, Cable: c.Tag, Wire: w.Wire})
			}
		}
		if len(c.Conductors) == 0 {
			out = append(out, observation.Point{At: o.Thing, Cable: c.Tag, Wire: observation.Hot})
		}
	}
	return out
}

// endName names a conductor in a form as people may type it: "2, red".
func endName(p observation.Point) string { return p.Cable + ", " + string(p.Wire) }

// endNamed reads a conductor from a form: chosen, or typed with the tag of its
// cable before a comma.
func endNamed(f *form, at observation.Thing, name string) observation.Point {
	text := f.Get(name)
	if typed := strings.TrimSpace(f.Get(name + "_typed")); typed != "" {
		text = typed
	}
	cable, wire, tagged := strings.Cut(text, ",")
	if !tagged {
		cable, wire = "", text
	}
	return observation.Point{At: at, Cable: strings.TrimSpace(cable), Wire: observation.Wire(strings.ToLower(strings.TrimSpace(wire)))}
}

// joinsAt are the joins at an opening that stand: not withdrawn, and made for a
// tour that is not taken down.
func (v *visit) joinsAt(o *installation.Opening) []observation.Event {
	var out []observation.Event
	for _, e := range o.Joints {
		if t := v.tourUnder(e); t != nil && !t.Removed {
			out = append(out, e)
		}
	}
	return out
}

// tourUnder is the tour that an observation was made for, or nil.
func (v *visit) tourUnder(e observation.Event) *installation.Tour {
	for _, id := range e.Under {
		if t := v.found.Tour(id); t != nil {
			return t
		}
	}
	return nil
}

// joinsOf names the openings at which feed and leg are joined for a tour.
func (v *visit) joinsOf(t *installation.Tour) []navItem {
	var out []navItem
	for _, o := range v.found.Openings {
		for _, e := range o.Joints {
			if v.tourUnder(e) == t {
				out = append(out, navItem{Href: "joined/" + string(o.Thing), Name: o.Number})
			}
		}
	}
	return out
}

// addJoined keeps the join, made for the tour that stands.
func addJoined(v *visit) error {
	f := v.typed()
	at, t := v.arg("opening"), v.openTour()
	if t == nil {
		f.fault("tour", sayJoinTour)
		return joinedWith(v, f)
	}
	body := observation.Joined{Feed: endNamed(f, at, "feed"), Leg: endNamed(f, at, "leg"), Note: f.Get("note")}
	for name, p := range map[string]observation.Point{"feed": body.Feed, "leg": body.Leg} {
		if p.Wire == "" {
			f.fault(name, sayWhichEnd)
		}
	}
	o := observation.Observation{Subject: at, Under: []observation.ID{t.ID}, Body: body}
	if _, ok := v.record(f, o, nil); !ok {
		return joinedWith(v, f)
	}
	return v.goTo("joined/" + string(at) + "?kept=yes")
}

// joinViews are the joins at an opening for the page of a visit. Each is ticked:
// it is on record as standing, so what is read now rests on it unless the person
// says otherwise.
func (v *visit) joinViews(f *form, o *installation.Opening) []joinView {
	var out []joinView
	for _, e := range v.joinsAt(o) {
		b := e.Body.(observation.Joined)
		out = append(out, joinView{ID: e.ID.String(), Say: b.Feed.String() + " to " + b.Leg.String(),
			On: f.sent == "" || f.Has("joined", e.ID.String())})
	}
	return out
}

// joinsTicked are the joins that a reading is to rest on.
func (v *visit) joinsTicked(f *form, o *installation.Opening) []observation.ID {
	var out []observation.ID
	for _, e := range v.joinsAt(o) {
		if f.Has("joined", e.ID.String()) {
			out = append(out, e.ID)
		}
	}
	return out
}
