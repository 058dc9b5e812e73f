// Package diary tells what happened on one day of a job: who was where from when
// to when, what was read, found, locked, noted and put off, and what stood in
// the evening against the morning.
//
// A day is that of the place: its entries are those taken on it, late ones
// included. What stood is told from the site as this device knew it by then, so
// that an entry typed in a day later changes the list and not what was known.
// The package words nothing but the steps that were put off; pages and sheets do
// the rest.
//
// Start with Of, then Turn.
package diary

import (
	"slices"
	"time"

	"asfound/installation"
	"asfound/observation"
)

// Day is what happened on one day.
type Day struct {
	Begin, End time.Time // midnight to midnight, at the place
	Entries    []installation.Entry
	People     []Presence
	Rooms      []Visit // in walking order
	Panels     []observation.Thing
	Read       []observation.Thing // openings at which something was read, in the order of the visits
	LocksOn    []observation.Event
	LocksOff   []observation.Event // releases; each may name several locks
	Notes      []observation.Event
	PutOff     []observation.Event // steps put off and not taken up again
	Photos     int
	Put        int // openings put on record for the first time
	Withdrawn  int // entries of this day that do not count any more
}

// Presence is when a person recorded first and last.
type Presence struct {
	Who         string
	First, Last time.Time
	Entries     int
}

// Visit is a room somebody recorded something in, and at how many of its openings.
type Visit struct {
	Room     observation.Thing
	Openings int
}

// Name is how a day stands in an address: "2027-01-20".
func Name(day time.Time) string { return day.Format(time.DateOnly) }

// Parse reads the name of a day at a place.
func Parse(name string, at *time.Location) (day time.Time, ok bool) {
	day, err := time.ParseInLocation(time.DateOnly, name, at)
	return day, err == nil
}

// Next is the midnight after a day's.
func Next(day time.Time) time.Time {
	return time.Date(day.Year(), day.Month(), day.Day()+1, 0, 0, 0, 0, day.Location())
}

// midnight is the beginning of the day of a moment.
func midnight(t time.Time, at *time.Location) time.Time {
	y, m, d := t.In(at).Date()
	return time.Date(y, m, d, 0, 0, 0, 0, at)
}

// Days lists the days with entries, the newest first.
func Days(entries []installation.Entry, at *time.Location) []time.Time {
	seen := map[[3]int]bool{}
	var out []time.Time
	for _, e := range entries {
		y, m, d := e.When().In(at).Date()
		if key := [3]int{y, int(m), d}; !seen[key] {
			seen[key] = true
			out = append(out, midnight(e.When(), at))
		}
	}
	slices.SortFunc(out, func(a, b time.Time) int { return b.Compare(a) })
	return out
}

// Of tells a day from all entries of the job.
func Of(in *installation.Installation, entries []installation.Entry, day time.Time) Day {
	out := Day{Begin: midnight(day, day.Location())}
	out.End = Next(out.Begin)
	for _, e := range entries {
		if when := e.When(); !when.Before(out.Begin) && when.Before(out.End) {
			out.Entries = append(out.Entries, e)
		}
	}
	slices.SortStableFunc(out.Entries, func(a, b installation.Entry) int { return a.When().Compare(b.When()) })
	visited := map[observation.Thing]bool{}
	for _, e := range out.Entries {
		out.meet(e)
		if !e.Live() {
			out.Withdrawn++
			continue
		}
		out.take(in, e)
		if at := e.Stood(); at != "" {
			visited[at] = true
		}
	}
	out.visits(in, visited)
	return out
}

func (d *Day) meet(e installation.Entry) {
	i := slices.IndexFunc(d.People, func(p Presence) bool { return p.Who == e.Who })
	if i < 0 {
		i = len(d.People)
		d.People = append(d.People, Presence{Who: e.Who, First: e.When()})
	}
	d.People[i].Last = e.When()
	d.People[i].Entries++
}

// take sorts one entry that counts.
func (d *Day) take(in *installation.Installation, e installation.Entry) {
	switch b := e.Body.(type) {
	case observation.Ohm:
		if in.Opening(b.A.At) != nil && !slices.Contains(d.Read, b.A.At) {
			d.Read = append(d.Read, b.A.At)
		}
	case observation.Opening:
		if e.Subject == "" {
			d.Put++
		}
	case observation.LockOut:
		d.LocksOn = append(d.LocksOn, e.Event)
	case observation.Released:
		d.LocksOff = append(d.LocksOff, e.Event)
	case observation.Note:
		d.Notes = append(d.Notes, e.Event)
	case observation.Photo:
		d.Photos++
	case observation.Decision:
		if b.Answer == observation.NotNow {
			d.PutOff = append(d.PutOff, e.Event)
		}
	}
}

// visits gathers the things visited by rooms and panels.
func (d *Day) visits(in *installation.Installation, visited map[observation.Thing]bool) {
	for _, room := range in.Rooms {
		v := Visit{Room: room.Thing}
		for _, o := range in.In(room.Thing) {
			if visited[o.Thing] {
				v.Openings++
			}
		}
		if v.Openings > 0 || visited[room.Thing] {
			d.Rooms = append(d.Rooms, v)
		}
	}
	for _, p := range in.Panels {
		if visited[p.Thing] {
			d.Panels = append(d.Panels, p.Thing)
		}
	}
}
