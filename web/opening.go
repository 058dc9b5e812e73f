package web

import (
	"strconv"
	"strings"

	"asfound/drawing"
	"asfound/installation"
	"asfound/observation"
	"asfound/pattern"
)

type openingPage struct {
	Form          *form
	Thing         observation.Thing
	Number, State string
	Letters       string
	Same          string
	Room          navItem
	Facts         string
	Lines         []statement
	Again         []string
	Oddities      []string
	Cables        []observation.CableEnd
	Conductors    []string
	Entries       []entryView
	Photos        []observation.Photo
	Read, Pair    string
	Kept          bool
	Rooms         []option
	More          []navItem
	Sets          []option
	Mend          string   // the tag of the cable that is put right
	SameCable     *navItem // the cable on record whose tag was typed
	Spot          string   // where it is in its room
}

// showOpening says what is known of an opening, and takes in more.
func showOpening(v *visit) error { return openingWith(v, v.form()) }

func openingWith(v *visit, f *form) error {
	o := v.found.Opening(v.arg("opening"))
	if o == nil {
		return notFound{sayNoThing}
	}
	data := openingPage{Form: f, Thing: o.Thing, Number: o.Number, State: v.openingState(o), Letters: pattern.Letters(o.Number),
		Room: navItem{Href: "room/" + string(o.Room), Name: v.found.Name(o.Room)}, Facts: openingFacts(o),
		Lines: v.statements(v.found.Trace.At(o.Thing)), Cables: o.Cables, Photos: photosOf(o.Story), Kept: v.query("kept") != ""}
	if n := len(v.found.Numbered(o.Number)); n > 1 {
		data.Same = sayShares(o.Number, n)
	}
	for _, a := range v.found.Trace.Again {
		if a.At == o.Thing {
			data.Again = append(data.Again, a.Say)
		}
	}
	for _, odd := range v.found.Trace.Oddities {
		if odd.Place == o.Thing {
			data.Oddities = append(data.Oddities, odd.Say)
		}
	}
	for _, c := range o.Cables {
		data.Conductors = append(data.Conductors, conductorWords(c))
	}
	for i := len(o.Story) - 1; i >= 0; i-- {
		data.Entries = append(data.Entries, v.entry(o.Story[i].Event))
	}
	if t := v.openTour(); t != nil {
		data.Read = "tour/" + t.ID.String() + "/" + string(o.Thing)
	}
	if t := v.standingTour(observation.ByPairing); t != nil {
		data.Pair = "tour/" + t.ID.String() + "/" + string(o.Thing)
	}
	data.Rooms = v.roomOptions("")
	data.More = []navItem{{Href: "live/" + string(o.Thing), Name: doorLive}, {Href: "raceway/" + string(o.Thing), Name: doorRaceway}, {Href: "joined/" + string(o.Thing), Name: doorJoined}}
	data.Sets = usualConductors
	data.Mend, data.SameCable = v.mendsCable(f, o.Cables, "opening/"+string(o.Thing))
	fillOpening(f, o)
	fillSpot(f, o)
	data.Spot = drawing.SpotName(o.Spot)
	return v.renderForm("opening", placeTitle(v.found.Installation, o.Thing), f, data)
}

// freeNumber faults the field of a number that another opening bears: both tapes
// would bear the same letters, and a reading could not be told from the other's.
func (v *visit) freeNumber(f *form, number string) {
	if same := v.found.Numbered(number); len(same) > 0 {
		f.fault("number", sayNumberUsed(same[0].Number, v.found.Name(same[0].Room)))
	}
}

// fillOpening prefills the forms of an opening with what is on record.
func fillOpening(f *form, o *installation.Opening) {
	f.set("number", o.Number).set("use", string(o.Use)).set("note", o.Note).set("tag", nextCable(o.Cables))
	if o.Gangs > 0 {
		f.set("gangs", strconv.Itoa(o.Gangs))
	}
	f.set("room", string(o.Room)).set("order", strconv.Itoa(o.Order))
	f.setInches("height", o.Height)
	f.setInches("depth", o.Depth)
}

func openingFacts(o *installation.Opening) string {
	parts := []string{useWord(o.Use)}
	if o.Gangs > 0 {
		parts = append(parts, counted(o.Gangs, "gang"))
	}
	return strings.Join(nonEmpty(append(parts, o.Note)...), ", ")
}

// addCable records a cable where it enters the opening.
func addCable(v *visit) error {
	f := v.typed()
	var cables []observation.CableEnd
	if o := v.found.Opening(v.arg("opening")); o != nil {
		cables = o.Cables
	}
	if !v.keepCable(f, v.arg("opening"), cables, conductorsOf(f)) {
		return openingWith(v, f)
	}
	return v.goTo("opening/" + v.args["opening"] + "?kept=1")
}

// conductorsOf reads the conductors: a usual set by one touch, or typed with
// commas between.
func conductorsOf(f *form) []observation.Conductor {
	text := f.Get("conductors")
	if typed := f.Get("conductors_typed"); strings.TrimSpace(typed) != "" {
		text = typed
	}
	var out []observation.Conductor
	for _, name := range strings.Split(text, ",") {
		if name = strings.ToLower(strings.TrimSpace(name)); name == "" {
			continue
		}
		if name == "ground" {
			name = string(observation.EGC)
		}
		c := observation.Conductor{Wire: observation.Wire(name)}
		if name == string(observation.Hot) {
			c.State = observation.ConductorState(f.Get("hot_state"))
		}
		out = append(out, c)
	}
	return out
}

// addMissing records that an opening could not be read or was not reached.
func addMissing(v *visit) error {
	f := v.typed()
	why := strings.TrimSpace(f.Get("why"))
	var body observation.Body = observation.NotReached{Why: why}
	if f.Get("answer") == "cannot" {
		if why == "" {
			why = sayNotGiven
		}
		body = observation.CannotRead{What: f.Get("what"), Why: why}
	}
	if _, ok := v.record(f, observation.Observation{Subject: v.arg("opening"), Body: body}, nil); !ok {
		return openingWith(v, f)
	}
	return v.goTo("opening/" + v.args["opening"] + "?kept=1")
}
