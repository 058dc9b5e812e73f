package web

import (
	"time"

	"asfound/diary"
	"asfound/installation"
	"asfound/observation"
)

type dayPage struct {
	Title          string
	People         []diary.Presence
	Rooms          []dayRoom
	Panels         []navItem
	Read, Put      string
	Photos         []observation.Photo
	Morning        []tally
	Evening        []tally
	Found, Gone    []string
	Locks          []entryView // that stand in the evening
	LocksOn        []entryView
	LocksOff       []entryView
	Notes, PutOff  []entryView
	Withdrawn      string
	Journal        string
	Earlier, Later string
	Sheet          *Sheet
	at             *time.Location
}

type dayRoom struct {
	navItem
	Openings string
}

// Clock is the time of day at the place of whoever reads.
func (d dayPage) Clock(t time.Time) string { return t.In(d.at).Format("15:04") }

// Entries counts what a person recorded.
func (dayPage) Entries(n int) string { return entriesWord(n) }

// showDay is one day: who was where, what was found, what stood in the morning
// and in the evening.
func showDay(v *visit) error {
	day, ok := diary.Parse(v.args["day"], v.ask.Now.Location())
	if !ok {
		return notFound{sayNoDay}
	}
	entries := v.found.Entries()
	d := diary.Of(v.found.Installation, entries, day)
	if len(d.Entries) == 0 {
		return notFound{sayNoDay}
	}
	name := diary.Name(day)
	data := dayPage{Title: dayWords(day), People: d.People, Read: counted(len(d.Read), "opening"), at: v.ask.Now.Location(),
		Journal: sought{From: name, To: name}.href("")}
	v.fillDay(&data, d)
	if err := v.fillTurn(&data, d); err != nil {
		return err
	}
	v.besideDays(&data, entries, day)
	if s, ok := v.sheet("day-" + name); ok {
		data.Sheet = &s
	}
	return v.render("day", data.Title, data)
}

func (v *visit) fillDay(data *dayPage, d diary.Day) {
	if d.Put > 0 {
		data.Put = counted(d.Put, "opening")
	}
	if d.Withdrawn > 0 {
		data.Withdrawn = entriesWord(d.Withdrawn)
	}
	for _, r := range d.Rooms {
		row := dayRoom{navItem: navItem{Href: "story/" + string(r.Room), Name: v.found.Name(r.Room)}}
		if r.Openings > 0 {
			row.Openings = counted(r.Openings, "opening")
		}
		data.Rooms = append(data.Rooms, row)
	}
	for _, p := range d.Panels {
		data.Panels = append(data.Panels, navItem{Href: "story/" + string(p), Name: v.found.Name(p)})
	}
	data.LocksOn, data.LocksOff, data.Notes, data.PutOff = v.views(d.LocksOn), v.views(d.LocksOff), v.views(d.Notes), v.views(d.PutOff)
	for _, e := range d.Entries {
		if p, ok := e.Body.(observation.Photo); ok && e.Live() {
			data.Photos = append(data.Photos, p)
		}
	}
}

func (v *visit) views(events []observation.Event) []entryView {
	var out []entryView
	for _, e := range events {
		out = append(out, v.entry(e))
	}
	return out
}

// fillTurn tells what stood in the morning against the evening.
func (v *visit) fillTurn(data *dayPage, d diary.Day) error {
	morning, evening, err := v.job.Site.Between(d.Begin, d.End)
	if err != nil {
		return err
	}
	turn := diary.TurnOf(morning, evening)
	data.Morning, data.Evening = tallies(morning.Trace.Lines), tallies(evening.Trace.Lines)
	data.Found, data.Gone = turn.Found, turn.Gone
	for _, l := range turn.Locks {
		data.Locks = append(data.Locks, v.entry(l.Event))
	}
	return nil
}

// besideDays are the days with entries before and after this one.
func (v *visit) besideDays(data *dayPage, entries []installation.Entry, day time.Time) {
	for _, other := range diary.Days(entries, day.Location()) { // the newest first
		switch {
		case other.After(day):
			data.Later = "day/" + diary.Name(other)
		case other.Before(day) && data.Earlier == "":
			data.Earlier = "day/" + diary.Name(other)
		}
	}
}
