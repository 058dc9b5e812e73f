package web

import (
	"slices"

	"asfound/evidence"
	"asfound/observation"
	"asfound/trace"
)

type clashPage struct {
	Title    string
	Readings []entryView
	Sets     [][]string
	More     bool
	Settle   string
	Minutes  string
	Href     string
	Leaves   int
	Live     string // why nothing may be read now
	// Undecided says that no single reading tells the ways apart.
	Undecided bool
	Lines     []statement
}

// showClash names the readings that cannot all be right, the least sets of
// doubts that would explain them, and the one reading that decides best.
func showClash(v *visit) error {
	for _, c := range v.found.Trace.Clashes {
		if c.Key == v.query("key") {
			return v.clash(c)
		}
	}
	return v.cleared(observation.Thing(v.query("key")))
}

// clearedPage is a clash that was: what was read there, and what it says now.
type clearedPage struct {
	Agree    string
	Place    navItem
	Readings []entryView
	Lines    []statement
}

// cleared shows an opening whose readings clashed once and agree by now.
func (v *visit) cleared(at observation.Thing) error {
	o := v.found.Opening(at)
	if o == nil {
		return notFound{sayNoClash}
	}
	data := clearedPage{Agree: sayAgree, Place: v.placeItem(at), Lines: v.statements(v.found.Trace.At(at))}
	for _, l := range v.found.Trace.At(at) {
		if l.Verdict.Standing == evidence.Clash {
			return notFound{sayNoClash}
		}
	}
	for _, s := range o.Stops {
		for _, e := range slices.Concat(s.Ohms, s.Cannot) {
			data.Readings = append(data.Readings, v.entry(e))
		}
	}
	return v.render("cleared", sayAgree, data)
}

func (v *visit) clash(c *trace.Clash) error {
	data := clashPage{Title: v.clashTitle(c), Readings: v.entries(c.Readings), Sets: doubtWords(c.Sets), More: c.More,
		Minutes: sayMinutes(c.Settle.Minutes), Leaves: c.Settle.Leaves, Lines: v.statements(c.Lines)}
	data.Settle = settleWords(v.found.PointName(c.Settle.At), c.Settle.Back)
	data.Href = v.settleHref(c.Settle)
	if t := v.openTour(); t != nil {
		data.Live = v.tourStop(t)
	}
	data.Undecided = c.Settle.Leaves >= len(c.Sets)
	return v.render("clash", titleClash, data)
}

// settleHref is where the deciding reading is entered.
func (v *visit) settleHref(s trace.Settle) string {
	t := v.openTour()
	switch {
	case t == nil:
		return "tour"
	case s.Back:
		return "readback/" + t.ID.String()
	}
	return "tour/" + t.ID.String() + "/" + string(s.At.At) + "?again=yes"
}

// clashOf finds a clash that an entry is part of.
func (v *visit) clashOf(id observation.ID) *trace.Clash {
	for _, l := range v.found.Trace.Leans(id) {
		if l.Verdict.Standing != evidence.Clash {
			continue
		}
		for _, c := range v.found.Trace.Clashes {
			for _, at := range c.Lines {
				if at == l {
					return c
				}
			}
		}
	}
	return nil
}
