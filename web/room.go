package web

import (
	"strconv"
	"strings"
	"unicode"

	"asfound/installation"
	"asfound/observation"
	"asfound/pattern"
)

type roomPage struct {
	Form         *form
	Thing        observation.Thing
	Name         string
	Building     navItem
	Openings     []openingRow
	Kept, Letter string
	Photos       []observation.Photo
	Mended       bool
	Buildings    []option
	Measures     measures
	Covered      string
}

type openingRow struct {
	Href, Number, Use string
	Lines             []statement
	State             string
}

// showRoom lists a room's openings and takes in the next one.
func showRoom(v *visit) error { return roomWith(v, v.form()) }

func roomWith(v *visit, f *form) error {
	r := v.found.Room(v.arg("room"))
	if r == nil {
		return notFound{sayNoThing}
	}
	data := roomPage{Form: f, Thing: r.Thing, Name: r.Name, Photos: photosOf(r.Story),
		Building: navItem{Href: "building/" + string(r.Building), Name: v.found.Name(r.Building)}}
	for _, o := range v.found.In(r.Thing) {
		data.Openings = append(data.Openings, v.openingRow(o))
	}
	if o := v.found.Opening(observation.Thing(v.query("kept"))); o != nil {
		data.Kept, data.Letter = keptOpening(v.found.Installation, o), pattern.Letters(o.Number)
	}
	f.set("number", nextNumber(v.found.Installation, r))
	fillRoom(f, r)
	fillMeasures(f, r)
	data.Measures, data.Covered = v.measuresOf(r), v.covered(r.Thing)
	data.Mended, data.Buildings = v.query("mended") != "", v.buildingOptions()
	return v.renderForm("room", r.Name, f, data)
}

func keptOpening(in *installation.Installation, o *installation.Opening) string {
	if n := len(in.Numbered(o.Number)); n > 1 {
		return saySame(o.Number, n)
	}
	return "Kept " + o.Number + "."
}

// openingState says what is missing at an opening.
func (v *visit) openingState(o *installation.Opening) string {
	switch {
	case o.NotReached != nil:
		return "not reached"
	case len(o.Stops) == 0:
		return "not read yet"
	}
	last := o.Stops[len(o.Stops)-1]
	if len(last.Ohms) == 0 && len(last.Cannot) > 0 {
		return "could not be read"
	}
	return ""
}

func photosOf(story installation.Story) []observation.Photo {
	var out []observation.Photo
	for _, e := range story {
		if p, ok := e.Body.(observation.Photo); ok && e.Live() {
			out = append(out, p)
		}
	}
	return out
}

// addOpening records an opening at the end of the walk through the room. Two
// openings may bear one number; that is said and kept.
func addOpening(v *visit) error {
	f := v.typed()
	o := openingOf(f)
	o.Room, o.Order = v.arg("room"), 1
	for _, other := range v.found.In(o.Room) {
		o.Order = max(o.Order, other.Order+1)
	}
	id, ok := v.record(f, observation.Observation{Body: o}, nil)
	if !ok {
		return roomWith(v, f)
	}
	return v.goTo("room/" + v.args["room"] + "?kept=" + id.String())
}

// openingOf reads an opening from the form of a room or of the opening itself.
func openingOf(f *form) observation.Opening {
	if number := f.Get("number"); strings.TrimSpace(number) != "" && !strings.ContainsFunc(number, func(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) }) {
		f.fault("number", sayNoFigure)
	}
	return observation.Opening{Number: strings.TrimSpace(f.Get("number")), Use: observation.OpeningUse(f.Get("use")),
		Gangs: f.count("gangs", sayGangs), Note: f.Get("note")}
}

func atoi(text string) int {
	n, err := strconv.Atoi(strings.TrimSpace(text))
	if err != nil {
		return 0
	}
	return n
}
