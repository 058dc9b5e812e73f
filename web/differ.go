package web

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"asfound/observation"
	"asfound/quantity"
)

// taken is a reading with the point and the set-ups it belongs to.
type taken struct {
	*observation.Event
	key, title string
	ohm        quantity.Resistance
	letters    string
}

// differing gathers readings of one point, under the same set-ups, on which
// people differ: more than their meters may, or by open against a value. What
// was withdrawn is left out.
func (v *visit) differing(events []*observation.Event) []*visited {
	by := map[string][]taken{}
	var order []string
	for _, e := range events {
		t, ok := v.takenOf(e)
		if !ok {
			continue
		}
		if by[t.key] == nil {
			order = append(order, t.key)
		}
		by[t.key] = append(by[t.key], t)
	}
	var out []*visited
	for _, key := range order {
		if g := v.differs(by[key]); g != nil {
			out = append(out, g)
		}
	}
	return out
}

// differs gathers the readings of a point when two people differ.
func (v *visit) differs(all []taken) *visited {
	if !slices.ContainsFunc(all, func(t taken) bool { return t.Who != all[0].Who }) {
		return nil
	}
	var live []taken
	for _, t := range all {
		if kept, ok := v.job.Site.Event(t.ID); ok && kept.Live() {
			live = append(live, t)
		}
	}
	ends := extremes(live)
	for i, a := range ends {
		for _, b := range ends[i+1:] {
			if a.Who != b.Who && v.unlike(a, b) {
				g := &visited{at: live[0].Place(), title: live[0].title}
				for _, t := range live {
					g.events = append(g.events, t.Event)
				}
				return g
			}
		}
	}
	return nil
}

// extremes keeps of each person the lowest and the highest value, one open, and
// each pair of letters: when any two readings differ, two of these do.
func extremes(all []taken) []taken {
	type kind struct{ who, what string }
	at := map[kind]int{}
	var out []taken
	keep := func(t taken, what string, better func(before taken) bool) {
		k := kind{t.Who, what}
		if i, had := at[k]; !had {
			at[k] = len(out)
			out = append(out, t)
		} else if better(out[i]) {
			out[i] = t
		}
	}
	for _, t := range all {
		switch {
		case t.letters != "" || t.ohm.Open:
			keep(t, "same "+t.letters, func(taken) bool { return false })
		default:
			keep(t, "lowest", func(before taken) bool { return t.ohm.Ohm < before.ohm.Ohm })
			keep(t, "highest", func(before taken) bool { return t.ohm.Ohm > before.ohm.Ohm })
		}
	}
	return out
}

// takenOf is an event as a reading of a point; ok is false for any other.
func (v *visit) takenOf(e *observation.Event) (t taken, ok bool) {
	t.Event = e
	in := v.found.Installation
	switch b := e.Body.(type) {
	case observation.Ohm:
		t.ohm, t.title = b.Ohm, fmt.Sprintf("%s, %s to %s", in.Name(b.A.At), b.A, wireWord(b.B.Wire))
		t.key = fmt.Sprint("ohm ", b.A.At, b.A, b.B, e.Under)
	case observation.ReadBack:
		t.ohm, t.title = b.Ohm, in.PointName(b.At)+" read back"
		t.key = fmt.Sprint("back ", b.At.At, b.At, b.After, e.Under)
	case observation.Isolation:
		t.ohm, t.title = b.Ohm, "Panel "+in.Name(e.Subject)+", "+isolationWords(b.A, b.Against, b.B, false)
		t.key = fmt.Sprint("isolation ", e.Subject, b.A, b.Against, b.B)
	case observation.Letters:
		t.letters, t.title, t.key = strings.ToUpper(b.Letters), in.Name(e.Subject)+", letters on the tape", fmt.Sprint("letters ", e.Subject)
	default:
		return t, false
	}
	return t, true
}

// unlike reports whether two readings of one point differ by more than two
// meters may.
func (v *visit) unlike(a, b taken) bool {
	if a.letters != b.letters {
		return true
	}
	if a.ohm.Open || b.ohm.Open {
		return a.ohm.Open != b.ohm.Open
	}
	x, y := float64(a.ohm.Ohm), float64(b.ohm.Ohm)
	relative, ohm := 0.05, 0.5 // of a meter nobody named: a guess on the wide side
	if t := v.tourUnder(*a.Event); t != nil {
		relative, ohm = t.MeterRelative, float64(t.MeterOhm)
	}
	return math.Abs(x-y) > 2*(relative*max(x, y)+ohm)
}
