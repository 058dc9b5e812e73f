package web

import (
	"strings"

	"asfound/drawing"
	"asfound/installation"
	"asfound/observation"
	"asfound/ready"
)

// wayView is one way by which voltage can be at a place, leading to what says so
// or to where it is to be recorded.
type wayView struct {
	Href, Say, Known string
	More             []navItem // further entries and lines that say so
}

type doorPage struct {
	Panel    navItem
	Name     string
	Thing    observation.Thing
	State    string
	IsDead   bool
	Missing  []wayView // what is not on record
	Live     []wayView
	Standing []entryView
	Tests    []testView
	Sheets   []Sheet
}

// showDoor says what can still be live in a panel when it is off: short enough
// for its door.
func showDoor(v *visit) error {
	p := v.found.Panel(v.arg("panel"))
	if p == nil {
		return notFound{sayNoThing}
	}
	data := doorPage{Panel: v.placeItem(p.Thing), Name: p.Name, Thing: p.Thing, State: v.deadWords(p), Tests: v.tests(p), Sheets: v.sheetsOf(p.Thing)}
	_, data.IsDead = v.found.DeadSince(p)
	data.Missing, data.Live = v.ways(ready.Panel(v.found.Installation, v.found.Trace, p))
	for _, e := range v.locksFor(p) {
		data.Standing = append(data.Standing, v.entry(e))
	}
	return v.render("door", "What can still be live, panel "+p.Name, data)
}

// locksFor are the locks that stand at a panel and where power can come from.
func (v *visit) locksFor(p *installation.Panel) []observation.Event {
	out := p.Standing()
	seen := map[observation.Thing]bool{p.Thing: true}
	for _, feeders := range [][]*installation.Feeder{v.found.Upstream(p.Thing), v.found.Backfeeds(p.Thing)} {
		for _, f := range feeders {
			if s := v.found.SafetyOf(f.From); s != nil && !seen[f.From] {
				seen[f.From] = true
				out = append(out, s.Standing()...)
			}
		}
	}
	return out
}

type livePage struct {
	Opening  navItem
	Thing    observation.Thing
	Number   string
	Missing  []wayView
	Live     []wayView
	Panels   []navItem
	Tests    []entryView
	Oddities []string
}

// showLive says what can still be live in a box when its circuit is off.
func showLive(v *visit) error {
	o := v.found.Opening(v.arg("opening"))
	if o == nil {
		return notFound{sayNoThing}
	}
	data := livePage{Opening: v.placeItem(o.Thing), Thing: o.Thing, Number: o.Number, Tests: v.recorded(o.Thing, observation.ProvenDead{}.Kind())}
	ways := ready.Opening(v.found.Installation, v.found.Trace, o)
	data.Missing, data.Live = v.ways(ways)
	seen := map[observation.Thing]bool{}
	for _, w := range ways {
		if p := v.found.Panel(w.At); p != nil && w.Sort == ready.Circuit && !seen[w.At] {
			seen[w.At] = true
			data.Panels = append(data.Panels, navItem{Href: "door/" + string(w.At), Name: "Panel " + p.Name})
		}
	}
	return v.render("live", "What can still be live, "+o.Number, data)
}

// ways splits what is not on record from what is.
func (v *visit) ways(ways []ready.Way) (missing, live []wayView) {
	const most = 6 // links to what says so
	for _, w := range ways {
		view := wayView{Say: w.Say, Known: w.Known}
		var links []navItem
		for _, l := range w.Lines {
			links = append(links, navItem{Href: lineHref(l.End), Name: drawing.EndName(v.found.Installation, v.found.Trace, l.End)})
		}
		for _, id := range w.Of {
			links = append(links, navItem{Href: "entry/" + id.String(), Name: "entry " + id.String()})
		}
		if place := v.wayHref(w); len(links) == 0 && place != "" {
			links = append(links, navItem{Href: place})
		}
		if len(links) > 0 {
			view.Href, view.More = links[0].Href, links[1:min(len(links), most)]
		}
		if w.Sort == ready.NotKnown {
			missing = append(missing, view)
		} else {
			live = append(live, view)
		}
	}
	return missing, live
}

// wayHref is where that is recorded which is not known.
func (v *visit) wayHref(w ready.Way) string {
	if w.Unfed {
		return "feeder/" + string(w.At)
	}
	return v.thingHref(w.At)
}

// sheetsOf are the sheets about a thing.
func (v *visit) sheetsOf(t observation.Thing) []Sheet {
	var out []Sheet
	if v.job.Sheets != nil {
		for _, s := range v.job.Sheets.List(v.found) {
			if s.About == t && t != "" {
				out = append(out, s)
			}
		}
	}
	return out
}

// doors are links to pages about a panel or source: page, thing, page, thing.
func doors(pairs ...any) []navItem {
	names := map[string]string{"told": doorTold, "release": doorRelease, "energize": doorEnergize, "safety": doorSafety, "lockout": doorLockOut, "dead": doorDead,
		"sources": doorSources, "feeder": doorFeeders, "door": doorLive}
	var out []navItem
	for i := 0; i+1 < len(pairs); i += 2 {
		page, _ := pairs[i].(string)
		thing, _ := pairs[i+1].(observation.Thing)
		out = append(out, navItem{Href: strings.TrimSuffix(page+"/"+string(thing), "/"), Name: names[page]})
	}
	return out
}
