package web

import (
	"asfound/observation"
	"asfound/trace"
)

type tracePage struct {
	Tallies  []tally
	Clashes  []navItem
	Oddities []string
	Again    []navItem
	Tours    []navItem
	Rooms    []traceRoom
	Only     string
	Untested int
}

type traceRoom struct {
	Name  string
	Lines []statement
}

// showTrace is all statements and how firmly they stand.
func showTrace(v *visit) error {
	t := v.found.Trace
	data := tracePage{Tallies: tallies(t.Lines), Only: v.query("standing")}
	for _, c := range t.Clashes {
		data.Clashes = append(data.Clashes, navItem{Href: "clash?key=" + queryEscape(c.Key), Name: v.clashTitle(c)})
	}
	for _, odd := range t.Oddities {
		data.Oddities = append(data.Oddities, odd.Say)
	}
	for _, a := range t.Again {
		data.Again = append(data.Again, navItem{Href: v.thingHref(a.At), Name: v.found.Name(a.At) + ": " + a.Say})
	}
	for _, tour := range v.found.Tours {
		name := tour.Name
		if tour.Removed {
			name += ", taken down"
		}
		data.Tours = append(data.Tours, navItem{Href: "tour/" + tour.ID.String(), Name: name})
	}
	for _, o := range v.found.Openings {
		if len(t.At(o.Thing)) == 0 {
			data.Untested++
		}
	}
	data.Rooms = v.traceRooms(data.Only)
	return v.render("trace", titleTrace, data)
}

// traceRooms groups the lines by room, in walking order.
func (v *visit) traceRooms(only string) []traceRoom {
	var out []traceRoom
	last := observation.Thing("")
	for _, l := range v.found.Trace.Lines {
		o := v.found.Opening(l.End.At)
		if o == nil || only != "" && standingWord(l.Verdict) != only {
			continue
		}
		if o.Room != last {
			last = o.Room
			out = append(out, traceRoom{Name: v.found.Name(o.Room)})
		}
		at := &out[len(out)-1]
		at.Lines = append(at.Lines, v.statement(l))
	}
	return out
}

// clashTitle names a clash by the conductor ends it is about.
func (v *visit) clashTitle(c *trace.Clash) string {
	if len(c.Lines) == 0 {
		return c.Key
	}
	return v.found.PointName(c.Lines[0].End)
}
