package web

import (
	"cmp"
	"strings"

	"asfound/installation"
	"asfound/observation"
)

type sourcesPage struct {
	Form    *form
	Sources []sourceRow
	Kept    string
	Sorts   []option
	Sites   []option
}

type sourceRow struct {
	Href, Name, Say, Feeds string
	Locks                  string
}

// showSources lists what can put voltage on the property, and takes in more.
func showSources(v *visit) error { return sourcesWith(v, v.form()) }

func sourcesWith(v *visit, f *form) error {
	data := sourcesPage{Form: f, Kept: v.query("kept"), Sorts: sourceOptions(), Sites: append([]option{{Say: sayNotKnown}}, v.buildingOptions()...)}
	for _, s := range v.found.Sources {
		data.Sources = append(data.Sources, sourceRow{Href: "source/" + string(s.Thing), Name: s.Name, Feeds: v.feedsWords(s.Thing), Locks: lockWords(len(s.Standing())),
			Say: strings.Join(nonEmpty(sourceOfWord(s.Source), opensWords(s.Source), startsWords(s.Source)), ", ")})
	}
	return v.renderForm("sources", titleSources, f, data)
}

// addSource keeps one: its sort is enough, and is its name then.
func addSource(v *visit) error {
	f := v.typed()
	body := sourceOf(f)
	id, ok := v.record(f, observation.Observation{Body: body}, nil)
	if !ok {
		return sourcesWith(v, f)
	}
	return v.goTo("source/" + id.String() + "?kept=yes")
}

func sourceOf(f *form) observation.Source {
	of := observation.SourceOf(f.Get("of"))
	if of == "" {
		f.fault("of", sayNoSourceSort)
	}
	return observation.Source{Of: of, Name: cmp.Or(strings.TrimSpace(f.Get("name")), string(of)), Building: observation.Thing(f.Get("building")),
		Disconnect: strings.TrimSpace(f.Get("disconnect")), Starts: observation.Known(f.Get("starts")), Note: strings.TrimSpace(f.Get("note"))}
}

type sourcePage struct {
	Form    *form
	Thing   observation.Thing
	Name    string
	Say     string
	Feeds   []navItem
	Locks   []entryView
	Kept    bool
	Sorts   []option
	Sites   []option
	Work    []navItem
	Entries []entryView
}

// showSource is one source, what it feeds, and what puts its record right.
func showSource(v *visit) error { return sourceWith(v, v.form()) }

func sourceWith(v *visit, f *form) error {
	s := v.found.Source(v.arg("source"))
	if s == nil {
		return notFound{sayNoThing}
	}
	t := string(s.Thing)
	data := sourcePage{Form: f, Thing: s.Thing, Name: s.Name, Kept: v.query("kept") != "", Sorts: sourceOptions(),
		Sites: append([]option{{Say: sayNotKnown}}, v.buildingOptions()...), Say: strings.Join(nonEmpty(sourceWord(s.Of), startsWords(s.Source), s.Note), ", "),
		Work: []navItem{{Href: "lockout/" + t, Name: doorLockOut}, {Href: "told/" + t, Name: doorTold}, {Href: "release/" + t, Name: doorRelease}, {Href: "energize/" + t, Name: doorEnergize}}}
	for _, feeder := range v.found.Feeders {
		if feeder.From == s.Thing {
			data.Feeds = append(data.Feeds, v.placeItem(feeder.To))
		}
	}
	for _, e := range s.Standing() {
		data.Locks = append(data.Locks, v.entry(e))
	}
	for i := len(s.Story) - 1; i >= 0; i-- {
		data.Entries = append(data.Entries, v.entry(s.Story[i].Event))
	}
	f.set("of", string(s.Of)).set("name", s.Name).set("building", string(s.Building)).set("disconnect", s.Disconnect).set("starts", string(s.Starts)).set("note", s.Note)
	return v.renderForm("source", "Source "+s.Name, f, data)
}

// mendSource records the source again.
func mendSource(v *visit) error {
	f := v.typed()
	s := v.found.Source(v.arg("source"))
	if s == nil {
		return notFound{sayNoThing}
	}
	o := observation.Observation{Subject: s.Thing, Seen: replaces(s.Story, every[observation.Source]), Body: sourceOf(f)}
	if _, ok := v.record(f, o, nil); !ok {
		return sourceWith(v, f)
	}
	return v.goTo("source/" + v.args["source"] + "?kept=yes")
}

// feedsWords says what a source or panel feeds: "feeds A1 and C1".
func (v *visit) feedsWords(from observation.Thing) string {
	var names []string
	for _, f := range v.found.Feeders {
		if f.From == from {
			names = append(names, v.found.Name(f.To))
		}
	}
	if len(names) == 0 {
		return ""
	}
	return "feeds " + listWords(names)
}

// fedWords says what feeds a panel.
func (v *visit) fedWords(p *installation.Panel) string {
	var from []string
	for _, f := range v.found.Feeders {
		if f.To == p.Thing {
			from = append(from, v.found.FromName(f.Feeder)+" ("+f.How.String()+")")
		}
	}
	if len(from) == 0 {
		return sayUnfed
	}
	return "fed from " + listWords(from)
}

// lockWords counts the locks that stand.
func lockWords(n int) string {
	switch n {
	case 0:
		return ""
	case 1:
		return "1 lock stands"
	}
	return counted(n, "lock") + " stand"
}
