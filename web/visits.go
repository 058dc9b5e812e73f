package web

import (
	"net/url"
	"time"

	"asfound/diary"
	"asfound/observation"
)

// visited is a run of entries as the journal lists them together: those of one
// stop, or what one person recorded at one place in one go.
type visited struct {
	who         string
	at          observation.Thing
	stop, day   string
	first, last time.Time
	title       string // instead of who, when and where
	events      []*observation.Event
}

// oneGo is how long a person may pause at a place and still be on the same visit,
// where no stop was noted (common practice, no source).
const oneGo = 30 * time.Minute

// visits gathers events, the newest first, into the stops of each day.
func visits(events []*observation.Event, at *time.Location) []*visited {
	type key struct {
		who, stop, day string
		at             observation.Thing
	}
	var out []*visited
	open := map[key]*visited{}
	day, begin, end := "", time.Time{}, time.Time{}
	for _, e := range events {
		when := e.When()
		if day == "" || when.Before(begin) || !when.Before(end) {
			y, m, d := when.In(at).Date()
			begin = time.Date(y, m, d, 0, 0, 0, 0, at)
			end = diary.Next(begin)
			day = diary.Name(begin)
		}
		k := key{who: e.Who, stop: e.Stop, day: day}
		if e.Stop == "" {
			k.at = e.Place()
		}
		g := open[k]
		if g == nil || e.Stop == "" && g.first.Sub(when) > oneGo {
			g = &visited{who: e.Who, at: e.Place(), stop: e.Stop, day: day, last: when}
			open[k] = g
			out = append(out, g)
		}
		g.first = when
		g.events = append(g.events, e)
	}
	return out
}

// visitView is a visit as the journal prints it.
type visitView struct {
	Day, DayHref string // at the first visit of a day
	Title, Href  string
	Story        *navItem
	Entries      []entryView
}

func (v *visit) visitView(g *visited) visitView {
	out := visitView{Title: g.title, Href: g.href(), Story: v.storyOf(g.at)}
	if out.Title == "" {
		out.Title = sayVisit(g, v.placeOfVisit(g.at), v.ask.Now.Location())
	}
	return out
}

func (v *visit) placeOfVisit(at observation.Thing) string {
	if v.found.Story(at) == nil {
		return ""
	}
	return placeTitle(v.found.Installation, at)
}

// href is the address of all entries of a visit.
func (g *visited) href() string {
	if g.stop != "" {
		return sought{Stop: g.stop}.href("")
	}
	s := sought{By: g.who, Place: string(g.at), From: g.day, To: g.day}
	return s.href("")
}

// storyOf is the page of everything that happened to a thing; nil for none.
func (v *visit) storyOf(t observation.Thing) *navItem {
	if t == "" || v.found.Story(t) == nil {
		return nil
	}
	return &navItem{Href: "story/" + url.PathEscape(string(t)), Name: v.found.Name(t)}
}
