package web

import (
	"slices"
	"strconv"

	"asfound/diary"
	"asfound/installation"
	"asfound/observation"
)

type storyPage struct {
	Thing        observation.Thing
	Title        string
	Was          []string // earlier names
	Back         navItem
	Days         []storyDay
	Count        int
	Older, Newer string
	Journal      string
	Form         *form
}

type storyDay struct {
	Name, Href string
	Entries    []storyEntry
}

// storyEntry is an entry with what became of it and what rests on it.
type storyEntry struct {
	entryView
	Time    string
	Photo   *observation.Photo
	Fate    []entryView // what withdrew or replaced it
	Leaning string
}

// showStory is everything that happened to an opening, room or panel, the oldest
// first.
func showStory(v *visit) error {
	thing := v.arg("thing")
	if v.found.Story(thing) == nil {
		return notFound{sayNoThing}
	}
	title := sayStoryOf(placeTitle(v.found.Installation, thing))
	data := storyPage{Thing: thing, Title: title, Was: v.earlierNames(thing), Back: navItem{Href: v.thingHref(thing), Name: placeTitle(v.found.Installation, thing)},
		Journal: journalOf(thing), Form: v.form()}
	entries := v.happened(thing)
	data.Count = len(entries)
	pages := max(1, (len(entries)+entriesOnPage-1)/entriesOnPage)
	page := min(max(1, atoi(v.query("page"))), pages)
	at := func(page int) string { return "story/" + string(thing) + "?page=" + strconv.Itoa(page) }
	if page > 1 {
		data.Older = at(page - 1)
	}
	if page < pages {
		data.Newer = at(page + 1)
	}
	for _, e := range entries[(page-1)*entriesOnPage : min(page*entriesOnPage, len(entries))] {
		day := diary.Name(e.When().In(v.ask.Now.Location()))
		if n := len(data.Days); n == 0 || data.Days[n-1].Href != "day/"+day {
			data.Days = append(data.Days, storyDay{Name: v.dayName(day), Href: "day/" + day})
		}
		last := &data.Days[len(data.Days)-1]
		last.Entries = append(last.Entries, v.storyEntry(e))
	}
	return v.render("story", title, data)
}

func (v *visit) storyEntry(e installation.Entry) storyEntry {
	out := storyEntry{entryView: v.entry(e.Event), Time: e.When().In(v.ask.Now.Location()).Format("15:04"),
		Fate: append(v.entries(e.WithdrawnBy), v.entries(e.ReplacedBy)...)}
	if p, ok := e.Body.(observation.Photo); ok {
		out.Photo = &p
	}
	if n := len(v.found.Trace.Leans(e.ID)); n > 0 {
		out.Leaning = sayLeaning(n)
	}
	return out
}

// happened lists what was recorded of a thing and in it, by when it was taken:
// of a room its openings and panels too, of a panel the resistors put on there,
// of an opening the drawing it was found on.
func (v *visit) happened(t observation.Thing) []installation.Entry {
	seen := map[observation.ID]bool{}
	var out []installation.Entry
	add := func(story installation.Story, fits func(installation.Entry) bool) {
		for _, e := range story {
			if !seen[e.ID] && fits(e) {
				seen[e.ID] = true
				out = append(out, e)
			}
		}
	}
	every := func(installation.Entry) bool { return true }
	places := v.within(string(t))
	for at := range places {
		if places[at] {
			add(v.found.Story(at), every)
		}
	}
	for _, tour := range v.found.Tours {
		add(tour.Story, func(e installation.Entry) bool { return places[e.Place()] })
	}
	for _, d := range v.found.Drawn {
		add(d.Story, func(e installation.Entry) bool {
			b, ok := e.Body.(observation.Reconciled)
			return ok && b.As == t
		})
	}
	slices.SortFunc(out, func(a, b installation.Entry) int {
		if c := a.When().Compare(b.When()); c != 0 {
			return c
		}
		return a.ID.Compare(b.ID)
	})
	return out
}

// earlierNames says which names a thing bore before, and until when.
func (v *visit) earlierNames(t observation.Thing) []string {
	var out []string
	for _, was := range v.found.Story(t).Was() {
		out = append(out, sayWas(was.Name, was.Until.When().In(v.ask.Now.Location())))
	}
	return out
}
