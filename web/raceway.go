package web

import (
	"slices"
	"strconv"
	"strings"

	"asfound/installation"
	"asfound/observation"
)

type racewayPage struct {
	Form    *form
	Thing   observation.Thing
	Place   navItem
	Kept    string
	Mend    string // the tag of the one on record that is put right
	Same    *navItem
	Tags    []string
	Types   []option
	Sides   []option
	Entries []entryView
}

// racewayTypes and racewaySides are what a form offers; a type may be another
// one that is typed.
var (
	racewayTypes = newOptions("EMT", "EMT", "PVC", "PVC", "ENT", "ENT", "FMC", "FMC", "LFMC", "LFMC", "RMC", "RMC", "", "Not looked")
	racewaySides = newOptions("top", "Top", "bottom", "Bottom", "left", "Left", "right", "Right", "back", "Back", "", "Not looked")
)

// showRaceway takes in a raceway where it enters an opening or a panel.
func showRaceway(v *visit) error { return racewayWith(v, v.form()) }

func racewayWith(v *visit, f *form) error {
	at := v.arg("thing")
	if v.found.Opening(at) == nil && v.found.Panel(at) == nil {
		return notFound{sayNoThing}
	}
	data := racewayPage{Form: f, Thing: at, Place: v.placeItem(at), Kept: v.query("kept"),
		Types: racewayTypes, Sides: racewaySides, Entries: v.recorded(at, observation.Raceway{}.Kind())}
	for _, r := range raceways(v.found.Story(at)) {
		data.Tags = append(data.Tags, r.Tag)
	}
	mend := v.query("mend")
	if old := racewayTagged(v.found.Story(at), mend); old != nil {
		data.Mend = old.Tag
		fillRaceway(f, *old)
	}
	if old := racewayTagged(v.found.Story(at), f.Get("tag")); f.Bad() && old != nil && data.Mend == "" {
		data.Same = &navItem{Href: "raceway/" + string(at) + "?mend=" + queryEscape(old.Tag), Name: old.Tag}
	}
	f.set("tag", nextRaceway(v.found.Story(at)))
	return v.renderForm("raceway", "Raceway, "+data.Place.Name, f, data)
}

// placeItem is a thing's heading with its address.
func (v *visit) placeItem(t observation.Thing) navItem {
	return navItem{Href: v.thingHref(t), Name: placeTitle(v.found.Installation, t)}
}

// recorded lists the entries of one kind about a thing, the latest first.
func (v *visit) recorded(t observation.Thing, kind string) []entryView {
	var out []entryView
	for _, e := range slices.Backward(v.found.Story(t)) {
		if e.Kind == kind {
			out = append(out, v.entry(e.Event))
		}
	}
	return out
}

// raceways are those on record in a story.
func raceways(story installation.Story) []observation.Raceway {
	var out []observation.Raceway
	for _, e := range story {
		if r, ok := e.Body.(observation.Raceway); ok && e.Live() {
			out = append(out, r)
		}
	}
	return out
}

// racewayTagged is the one with this tag, or nil. Capitals or not is one tag.
func racewayTagged(story installation.Story, tag string) *observation.Raceway {
	for _, r := range raceways(story) {
		if sameName(r.Tag, tag) {
			return &r
		}
	}
	return nil
}

// fillRaceway prefills what puts a raceway right.
func fillRaceway(f *form, r observation.Raceway) {
	f.set("tag", r.Tag).set("side", r.Side).set("note", r.Note)
	if offers(racewayTypes, r.Type) {
		f.set("type", r.Type)
	} else {
		f.set("type_typed", r.Type)
	}
	f.setInches("size", r.Size)
	if r.Count > 0 {
		f.set("count", strconv.Itoa(r.Count))
	}
}

// offers reports whether a value is one of the options.
func offers(options []option, value string) bool {
	return slices.ContainsFunc(options, func(o option) bool { return o.Value == value })
}

// nextRaceway is the tag of the next raceway that enters: R1, R2, R3.
func nextRaceway(story installation.Story) string {
	return "R" + firstFree(func(n string) bool { return racewayTagged(story, "R"+n) != nil })
}

// addRaceway keeps it. One whose tag is on record is refused, unless the form
// says that it stands in the place of that one.
func addRaceway(v *visit) error {
	f := v.typed()
	at := v.arg("thing")
	r := observation.Raceway{Tag: strings.TrimSpace(f.Get("tag")), Type: f.Get("type"), Size: f.inches("size"), Side: f.Get("side"),
		Count: f.count("count", sayConductors), Note: f.Get("note")}
	if !offers(racewayTypes, r.Type) {
		f.fault("type", sayRacewayType)
	}
	if !offers(racewaySides, r.Side) {
		f.fault("side", saySide)
	}
	if typed := strings.TrimSpace(f.Get("type_typed")); typed != "" {
		r.Type = typed
		if offers(racewayTypes, strings.ToUpper(typed)) {
			r.Type = strings.ToUpper(typed)
		}
	}
	mend := v.query("mend")
	if old := racewayTagged(v.found.Story(at), r.Tag); old != nil && !sameName(old.Tag, mend) {
		f.fault("tag", sayOnRecord("Raceway "+old.Tag))
	}
	seen := replaces(v.found.Story(at), func(old observation.Raceway) bool { return mend != "" && sameName(old.Tag, mend) })
	if _, ok := v.record(f, observation.Observation{Subject: at, Seen: seen, Body: r}, map[string]string{"type": "type_typed"}); !ok {
		return racewayWith(v, f)
	}
	return v.goTo("raceway/" + string(at) + "?kept=" + queryEscape(r.Tag))
}
