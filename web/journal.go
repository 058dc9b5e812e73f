package web

import (
	"net/url"
	"slices"
	"strconv"
	"strings"

	"asfound/diary"
	"asfound/observation"
)

// entriesOnPage is how many entries a page of the journal lists.
const entriesOnPage = 100

type journalPage struct {
	Form          *form
	Visits        []visitView
	Count, Page   int
	Pages         int
	Newer, Older  string
	People        []option
	Kinds         []option
	Places        []string
	Filters       []filter
	Stop          string
	Took          string // a note was kept
	FirstN, LastN int
}

// showJournal lists every entry, the newest first, withdrawn ones too, or those
// that are sought.
func showJournal(v *visit) error { return journalWith(v, v.form()) }

func journalWith(v *visit, f *form) error {
	events, err := v.job.book.all(v.job.Entries)
	if err != nil {
		return err
	}
	x := v.job.index.look(events, v.found)
	s := v.seek()
	data := journalPage{Form: f, Filters: v.filters(s), Stop: s.Stop, Places: v.placeNames(), Took: v.query("kept")}
	f.set("words", s.Words).set("by", s.By).set("kind", s.Kind).set("place", v.placeWords(s.Place)).set("from", s.From).set("to", s.To).
		set("gone", s.Gone).set("differ", s.Differ)
	picked := v.pick(f, s, x)
	data.Kinds = append([]option{{Say: sayEveryKind}}, kindOptions(x.kinds)...)
	data.People = []option{{Say: sayEverybody}}
	for _, who := range f.People {
		data.People = append(data.People, option{Value: who, Say: who})
	}
	groups := visits(picked, v.ask.Now.Location())
	if s.Differ != "" {
		groups = v.differing(picked)
	}
	v.fillJournal(&data, s, groups)
	return v.renderForm("journal", titleJournal, f, data)
}

func kindOptions(kinds []string) []option {
	var out []option
	for _, k := range kinds {
		out = append(out, option{Value: k, Say: kindWord(k)})
	}
	slices.SortFunc(out, func(a, b option) int { return strings.Compare(a.Say, b.Say) })
	return out
}

// placeNames are offered for the field of the place; an opening is typed.
func (v *visit) placeNames() []string {
	var out []string
	add := func(name string) {
		if !slices.Contains(out, name) {
			out = append(out, name)
		}
	}
	for _, b := range v.found.Buildings {
		add(b.Name)
	}
	for _, r := range v.found.Rooms {
		add(r.Name)
	}
	for _, p := range v.found.Panels {
		add(p.Name)
	}
	return out
}

// fillJournal lists one page of entries under their visits. A visit that goes on
// over the end of a page has its heading again on the next.
func (v *visit) fillJournal(data *journalPage, s sought, groups []*visited) {
	for _, g := range groups {
		data.Count += len(g.events)
	}
	data.Pages = max(1, (data.Count+entriesOnPage-1)/entriesOnPage)
	data.Page = min(max(1, atoi(v.query("page"))), data.Pages)
	first := (data.Page - 1) * entriesOnPage
	last := min(first+entriesOnPage, data.Count)
	data.FirstN, data.LastN = min(first+1, last), last
	at, day := 0, ""
	for _, g := range groups {
		from, to := max(first-at, 0), min(last-at, len(g.events))
		at += len(g.events)
		if from >= to {
			continue
		}
		view := v.visitView(g)
		if g.day != day {
			day = g.day
			view.Day, view.DayHref = v.dayName(day), "day/"+day
		}
		for _, e := range g.events[from:to] {
			view.Entries = append(view.Entries, v.entry(*e))
		}
		data.Visits = append(data.Visits, view)
	}
	if data.Page > 1 {
		data.Newer = s.href(strconv.Itoa(data.Page - 1))
	}
	if data.Page < data.Pages {
		data.Older = s.href(strconv.Itoa(data.Page + 1))
	}
}

// dayName is a day of an address as people say it.
func (v *visit) dayName(name string) string {
	day, ok := diary.Parse(name, v.ask.Now.Location())
	if !ok {
		return name
	}
	return dayWords(day)
}

// journalOf is the address of what was recorded at a place and in it.
func journalOf(at observation.Thing) string { return sought{Place: string(at)}.href("") }

func queryEscape(s string) string { return url.QueryEscape(s) }
