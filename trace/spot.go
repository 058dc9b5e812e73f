package trace

import (
	"fmt"

	"asfound/evidence"
	"asfound/installation"
	"asfound/observation"
	"asfound/pattern"
)

// mostAgain is how many readings of one end a stop is asked for, beyond the
// first two: past it the person moves on and the line stays as it is.
const mostAgain = 4

// Spot says what to read again, or put right, at an opening while somebody
// stands there. It looks at that opening alone and is quick.
func (tr *Tracer) Spot(in *installation.Installation, opening observation.Thing) []Again {
	o := in.Opening(opening)
	if o == nil || len(o.Stops) == 0 {
		return nil
	}
	tr.renew(in)
	return tr.spot(in, o, nil)
}

// spot asks about the latest stop at an opening.
func (tr *Tracer) spot(in *installation.Installation, o *installation.Opening, t *Trace) []Again {
	stop := o.Stops[len(o.Stops)-1]
	var out []Again
	for _, e := range stop.Letters {
		if typed := e.Body.(observation.Letters).Letters; !pattern.LettersMatch(o.Number, typed) {
			out = append(out, Again{At: o.Thing, Of: []observation.ID{e.ID},
				Say: fmt.Sprintf("The letters %s are not those of %s. Look at the tape: is this the opening?", typed, o.Number)})
		}
	}
	c, ok := tr.read[o]
	if !ok {
		c = tr.collect(in, o)
		tr.read[o] = c
	}
	for _, x := range c.ends {
		if a, ask := tr.spotEnd(in, c, x, stop, t); ask {
			out = append(out, a)
		}
	}
	return out
}

// spotEnd asks for one more reading of an end, for the first reason there is.
func (tr *Tracer) spotEnd(in *installation.Installation, c collected, x *end, stop *installation.Stop, t *Trace) (Again, bool) {
	var here []reading
	for _, r := range x.readings {
		if r.stop == stop {
			here = append(here, r)
		}
	}
	if len(here) == 0 || len(here) >= 2+mostAgain || here[0].tour.Means == observation.ByPairing {
		return Again{}, false
	}
	last := here[len(here)-1]
	a := Again{At: x.point.At, A: x.point, B: x.fewest(here), Of: []observation.ID{last.event.ID}}
	ask := func(format string, args ...any) (Again, bool) {
		a.Say = fmt.Sprintf(format, args...)
		return a, true
	}
	best, n, against := tally(here)
	switch {
	case last.shown.kind == showsOther:
		if as, fits := last.list.unit(last.body.Ohm); fits {
			return ask("%s fits nothing. Was it %s? Check the unit and read again.", last.body.Ohm, as)
		}
		if n-against < 2 {
			return ask("%s is not on the list. Lift both leads and read again.", last.body.Ohm)
		}
	case last.shown.kind == showsClosed && n-against < 2:
		return ask("%s is lower than any resistor: a load is still connected, or a fault. Look before you read again.", last.body.Ohm)
	case best.kind == showsOpen:
		return tr.spotOpen(c, x, stop, n, against, a)
	case n-against < 2 && len(here) > 1:
		return ask("These readings do not agree. Lift both leads and read again.")
	case n-against < 2:
		a.B = x.beside(observation.Neutral)
		return ask("Now hot to neutral.")
	case n < 3 && t != nil && stranger(in, t, x, best):
		return ask("%s was not seen near here before. Read once more.", in.PointName(best.named))
	}
	return Again{}, false
}

// spotOpen asks what an open reading needs: whether ground and neutral arrive
// at all, and enough readings that it cannot be by mistake.
func (tr *Tracer) spotOpen(c collected, x *end, stop *installation.Stop, n, against int, a Again) (Again, bool) {
	sides := 0
	for _, s := range c.sides {
		if s.stop == stop && s.cable == x.point.Cable {
			sides++
		}
	}
	hots, looks := tr.enoughOpen(len(x.readings[0].list.puts))
	ground, neutral := x.beside(observation.EGC), x.beside(observation.Neutral)
	switch {
	case n+against == 1:
		a.B, a.Say = neutral, "Open. Now hot to neutral."
	case sides == 0:
		a.A, a.B, a.Say = ground, neutral, "Open. Read ground to neutral: do they arrive here at all?"
	case n-against < hots:
		a.Say = "Open. Lift both leads and read again."
	case sides < looks:
		a.A, a.B, a.Say = ground, neutral, "Read ground to neutral once more."
	default:
		return Again{}, false
	}
	return a, true
}

// beside is the ground or neutral of an end's cable.
func (x *end) beside(w observation.Wire) observation.Point {
	p := x.point
	p.Wire = w
	return p
}

// fewest is the ground or the neutral, whichever fewer of the readings went to.
func (x *end) fewest(here []reading) observation.Point {
	n := 0
	for _, r := range here {
		if r.other == observation.Neutral {
			n++
		}
	}
	if 2*n < len(here) {
		return x.beside(observation.Neutral)
	}
	return x.beside(observation.EGC)
}

// enoughOpen is how many open readings of a hot, and how many closed ones from
// ground to neutral, leave a small chance that one of n circuits arrives after
// all: a third of that allowed for settled to each.
func (tr *Tracer) enoughOpen(n int) (hots, looks int) {
	enough := func(each float64) (k int) {
		for p := float64(max(n, 1)); p > evidence.SettledChance/3; p *= each {
			k++
		}
		return max(k, 2)
	}
	return enough(tr.rates.Value * misreadOpen), enough(tr.rates.Value * misreadOther)
}

// tally finds what most readings of a stop show, how many do, and how many the
// strongest other has.
func tally(rs []reading) (best shown, n, against int) {
	for _, r := range rs {
		if r.shown.kind == showsOther || r.shown.kind == showsClosed {
			continue
		}
		count, other := 0, 0
		for _, s := range rs {
			if s.shown.kind == r.shown.kind && s.shown.named == r.shown.named {
				count++
			} else if s.shown.kind != showsOther {
				other++
			}
		}
		if count > n {
			best, n, against = r.shown, count, other
		}
	}
	return best, n, against
}

// stranger reports whether a circuit was read on others, none of them in this
// room or the rooms next to it. Habit: it asks for a reading and settles nothing.
func stranger(in *installation.Installation, t *Trace, x *end, best shown) bool {
	if best.kind != showsNamed || best.named.Space == 0 {
		return false
	}
	rooms := map[observation.Thing]int{}
	for i, r := range in.Rooms {
		rooms[r.Thing] = i
	}
	here := in.Room(x.opening.Room)
	if panel := in.Panel(best.named.At); panel != nil && here != nil && panel.Building != here.Building {
		return true
	}
	others := 0
	for _, l := range t.On(best.named.At, best.named.Space) {
		o := in.Opening(l.End.At)
		if o == nil || o == x.opening {
			continue
		}
		others++
		if d := rooms[o.Room] - rooms[x.opening.Room]; d >= -1 && d <= 1 {
			return false
		}
	}
	return others > 0
}
