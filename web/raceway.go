package web

import (
	"slices"
	"strings"

	"asfound/installation"
	"asfound/observation"
)

type racewayPage struct {
	Form    *form
	Thing   observation.Thing
	Place   navItem
	Kept    string
	Entries []entryView
}

// showRaceway takes in a raceway where it enters an opening or a panel.
func showRaceway(v *visit) error { return racewayWith(v, v.form()) }

func racewayWith(v *visit, f *form) error {
	at := v.arg("thing")
	if v.found.Opening(at) == nil && v.found.Panel(at) == nil {
		return notFound{sayNoThing}
	}
	data := racewayPage{Form: f, Thing: at, Place: v.placeItem(at), Kept: v.query("kept"),
		Entries: v.recorded(at, observation.Raceway{}.Kind())}
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

// nextRaceway is the tag of the next raceway that enters: R1, R2, R3.
func nextRaceway(story installation.Story) string {
	taken := map[string]bool{}
	for _, e := range story {
		if r, ok := e.Body.(observation.Raceway); ok && e.Live() {
			taken[r.Tag] = true
		}
	}
	return "R" + firstFree(func(n string) bool { return taken["R"+n] })
}

// addRaceway keeps it. One with the same tag was seen before: this one stands in
// its place.
func addRaceway(v *visit) error {
	f := v.typed()
	at := v.arg("thing")
	r := observation.Raceway{Tag: strings.TrimSpace(f.Get("tag")), Type: f.Get("type"), Size: f.inches("size"), Side: f.Get("side"),
		Count: f.count("count", sayConductors), Note: f.Get("note")}
	if typed := strings.TrimSpace(f.Get("type_typed")); typed != "" {
		r.Type = typed
	}
	seen := replaces(v.found.Story(at), func(old observation.Raceway) bool { return old.Tag == r.Tag })
	if _, ok := v.record(f, observation.Observation{Subject: at, Seen: seen, Body: r}, map[string]string{"type": "type_typed"}); !ok {
		return racewayWith(v, f)
	}
	return v.goTo("raceway/" + string(at) + "?kept=" + queryEscape(r.Tag))
}
