package web

import (
	"net/url"
	"slices"
	"strings"
	"time"

	"asfound/diary"
	"asfound/observation"
)

// sought is what somebody wants to see of the journal; what is empty leaves
// nothing out.
type sought struct {
	Words, By, Place, Kind string
	Stop                   string // one visit
	From, To               string // days
	Gone                   string // withdrawn ones alone
	Differ                 string // readings of one point on which people differ
}

// seek reads what is sought from the address.
func (v *visit) seek() sought {
	q := func(name string) string { return strings.TrimSpace(v.query(name)) }
	return sought{Words: q("words"), By: q("by"), Place: q("place"), Kind: q("kind"), Stop: q("stop"), From: q("from"), To: q("to"), Gone: q("gone"), Differ: q("differ")}
}

// href is the address of what is sought, with a page of it.
func (s sought) href(page string) string {
	q := url.Values{}
	for _, f := range s.fields() {
		if *f.of != "" {
			q.Set(f.name, *f.of)
		}
	}
	if page != "" {
		q.Set("page", page)
	}
	if len(q) == 0 {
		return "journal"
	}
	return "journal?" + q.Encode()
}

type soughtField struct {
	name string
	of   *string
}

// fields are the names in an address; a change through them changes s.
func (s *sought) fields() []soughtField {
	return []soughtField{{"words", &s.Words}, {"by", &s.By}, {"place", &s.Place}, {"kind", &s.Kind}, {"stop", &s.Stop},
		{"from", &s.From}, {"to", &s.To}, {"gone", &s.Gone}, {"differ", &s.Differ}}
}

// filter is one thing that is sought, as the page names it, and the address
// without it.
type filter struct{ Say, Href string }

// filters lists what is sought, each with the touch that takes it away.
func (v *visit) filters(s sought) []filter {
	var out []filter
	for i, f := range s.fields() {
		if *f.of != "" {
			without := s
			*without.fields()[i].of = ""
			out = append(out, filter{Say: v.filterWords(f.name, *f.of), Href: without.href("")})
		}
	}
	return out
}

func (v *visit) filterWords(name, value string) string {
	switch name {
	case "words":
		return "“" + value + "”"
	case "place":
		return v.placeWords(value)
	case "kind":
		return kindWord(value)
	case "stop":
		return sayOneStop
	case "from":
		return "from " + value
	case "to":
		return "to " + value
	case "gone":
		return sayGoneOnly
	case "differ":
		return sayDiffer
	}
	return value
}

// placeWords names a place that stands in an address by its lasting name.
func (v *visit) placeWords(value string) string {
	if t := observation.Thing(value); v.found.Story(t) != nil {
		return placeTitle(v.found.Installation, t)
	}
	return value
}

// span is the days that are sought, the end left out; a field that holds no day
// gets a sentence.
func (v *visit) span(f *form, s sought) (from, to time.Time) {
	read := func(name, text string) time.Time {
		if text == "" {
			return time.Time{}
		}
		day, ok := diary.Parse(text, v.ask.Now.Location())
		if !ok {
			f.fault(name, sayDate)
		}
		return day
	}
	from, to = read("from", s.From), read("to", s.To)
	if !to.IsZero() {
		if to.Before(from) {
			f.fault("to", sayDayOrder)
		}
		to = diary.Next(to)
	}
	return from, to
}

// pick lists the events that are sought, the newest first.
func (v *visit) pick(f *form, s sought, x indexed) []*observation.Event {
	from, to := v.span(f, s)
	words := strings.Fields(strings.ToLower(s.Words))
	var places map[observation.Thing]bool
	if s.Place != "" {
		places = v.within(s.Place)
	}
	var only map[observation.ID]bool
	if s.Gone != "" {
		only = v.withdrawn(x.events)
	}
	var out []*observation.Event
	for _, i := range slices.Backward(x.order) {
		e := &x.events[i]
		switch {
		case s.By != "" && e.Who != s.By, s.Kind != "" && e.Kind != s.Kind, s.Stop != "" && e.Stop != s.Stop,
			places != nil && !places[e.Place()], only != nil && !only[e.ID], !spans(from, to, e), !says(x.lines[i], words):
		default:
			out = append(out, e)
		}
	}
	return out
}

func spans(from, to time.Time, e *observation.Event) bool {
	if from.IsZero() && to.IsZero() {
		return true
	}
	when := e.When()
	return !when.Before(from) && (to.IsZero() || when.Before(to))
}

// says reports whether every word occurs in a line.
func says(line string, words []string) bool {
	for _, w := range words {
		if !strings.Contains(line, w) {
			return false
		}
	}
	return true
}

// withdrawn are the events that a withdrawal which counts has taken back.
func (v *visit) withdrawn(events []observation.Event) map[observation.ID]bool {
	out := map[observation.ID]bool{}
	for _, e := range events {
		if _, ok := e.Body.(observation.Withdrawal); !ok {
			continue
		}
		for _, id := range e.Seen {
			if kept, ok := v.job.Site.Event(id); ok && len(kept.WithdrawnBy) > 0 {
				out[id] = true
			}
		}
	}
	return out
}

// within is a place with everything in it. The place is a lasting name, else a
// name as people type it: that of a building, room, opening, panel or source, or
// a part of one when none is called so.
func (v *visit) within(typed string) map[observation.Thing]bool {
	out := map[observation.Thing]bool{}
	if t := observation.Thing(typed); v.found.Story(t) != nil {
		out[t] = true
	} else {
		v.called(out, func(name string) bool { return strings.EqualFold(name, typed) })
	}
	if len(out) == 0 {
		part := strings.ToLower(typed)
		v.called(out, func(name string) bool { return strings.Contains(strings.ToLower(name), part) })
	}
	for _, r := range v.found.Rooms {
		out[r.Thing] = out[r.Thing] || out[r.Building]
	}
	for _, o := range v.found.Openings {
		out[o.Thing] = out[o.Thing] || out[o.Room]
	}
	for _, p := range v.found.Panels {
		out[p.Thing] = out[p.Thing] || out[p.Building] || out[p.Room]
	}
	for _, s := range v.found.Sources {
		out[s.Thing] = out[s.Thing] || out[s.Building]
	}
	for _, d := range v.found.Drawn {
		out[d.Thing] = out[d.Thing] || out[d.Room]
	}
	delete(out, "")
	return out
}

// called marks the places whose names fit.
func (v *visit) called(out map[observation.Thing]bool, fits func(string) bool) {
	for _, b := range v.found.Buildings {
		out[b.Thing] = fits(b.Name)
	}
	for _, r := range v.found.Rooms {
		out[r.Thing] = fits(r.Name)
	}
	for _, o := range v.found.Openings {
		out[o.Thing] = fits(o.Number)
	}
	for _, p := range v.found.Panels {
		out[p.Thing] = fits(p.Name)
	}
	for _, s := range v.found.Sources {
		out[s.Thing] = fits(s.Name)
	}
	for t, fit := range out {
		if !fit {
			delete(out, t)
		}
	}
}
