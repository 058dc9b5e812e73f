package web

import "asfound/observation"

type lookPage struct {
	Form       *form
	Tour, Name string
	Room       observation.Thing
	RoomName   string
	Openings   []lookRow
	Looked     string
	Kept       bool
	Next       string
}

type lookRow struct {
	Thing  observation.Thing
	Number string
	On     bool
}

// showLook is the look around a room for the pencil marks on its tapes.
func showLook(v *visit) error { return lookWith(v, v.form()) }

func lookWith(v *visit, f *form) error {
	t, err := v.tour()
	if err != nil {
		return err
	}
	r := v.found.Room(v.arg("room"))
	if r == nil {
		return notFound{sayNoThing}
	}
	data := lookPage{Form: f, Tour: t.ID.String(), Name: t.Name, Room: r.Thing, RoomName: r.Name, Looked: v.lookedWords(t, r.Thing), Kept: v.query("kept") != ""}
	for _, o := range v.found.In(r.Thing) {
		data.Openings = append(data.Openings, lookRow{Thing: o.Thing, Number: o.Number, On: f.Has("without", string(o.Thing))})
	}
	return v.renderForm("look", "Look around "+r.Name, f, data)
}

// addLook keeps what was seen: every mark there, or the openings without one.
func addLook(v *visit) error {
	f := v.typed()
	t, err := v.tour()
	if err != nil {
		return err
	}
	body := observation.RoomCheck{All: observation.Known(f.Get("all"))}
	for _, thing := range f.values["without"] {
		if v.found.Opening(observation.Thing(thing)) != nil {
			body.Without = append(body.Without, observation.Thing(thing))
		}
	}
	if len(body.Without) > 0 && body.All == observation.Yes {
		f.fault("all", sayMarks)
	}
	if _, ok := v.record(f, observation.Observation{Under: []observation.ID{t.ID}, Subject: v.arg("room"), Body: body}, nil); !ok {
		return lookWith(v, f)
	}
	return v.goTo("tour/" + v.args["tour"])
}
