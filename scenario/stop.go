package scenario

import (
	"math"
	"slices"
	"strconv"

	"asfound/observation"
	"asfound/pattern"
	"asfound/quantity"
	"asfound/trace"
)

// visit is one stop while somebody stands there.
type visit struct {
	id      string
	box     int               // where he stands
	meant   observation.Thing // the opening he was sent to
	written observation.Thing // the one he writes
	letters string            // the ones he notes
	turned  bool              // hot and neutral columns exchanged
	kept    []observation.ID
	read    int // readings taken so far
}

// mostExtra is how many readings beyond the first two a person takes at a stop.
const mostExtra = 4

// stop reads an opening: letters, hot to ground, hot to neutral, and what is
// asked again on the spot.
func (p *player) stop(thing observation.Thing) {
	if p.slip(StepSkipped, p.people.Rates.Skipped) {
		return // walked past
	}
	v := p.arrive(thing)
	p.spend(p.world.Reach(p.people.Costs, v.box))
	p.marked[v.box] = true
	p.readings(v)
	for extra := 0; extra < mostExtra*len(p.view.Boxes[v.box].Ends) && p.err == nil; extra++ {
		again := slices.DeleteFunc(p.tracer.Spot(p.installation(), v.written), func(a trace.Again) bool { return !p.can(v, a) })
		if len(again) == 0 {
			return
		}
		v = p.heed(v, again[0])
	}
}

// can reports whether a reading asked for is possible: a two-pole cable has no
// neutral to read to, and then nothing more is asked of it.
func (p *player) can(v *visit, a trace.Again) bool {
	e, known := p.view.Boxes[v.box].end(a.A.Cable)
	return a.A.Wire == "" || known && !(e.Bare && (a.A.Wire == observation.Neutral || a.B.Wire == observation.Neutral))
}

// arrive starts a stop: what number and letters the person will write.
func (p *player) arrive(thing observation.Thing) *visit {
	p.stops++
	v := &visit{id: "stop " + strconv.Itoa(p.stops), box: p.played.Box[thing], meant: thing, written: thing}
	v.letters = p.lettersOf(thing)
	if p.slip(WrongOpening, p.people.Rates.Opening) {
		v.written = p.wrongOpening(thing)
		if p.slip(WrongLetters, p.people.Rates.Letters) {
			v.letters = p.lettersOf(v.written)
		}
	}
	v.turned = p.slip(ColumnsTurned, p.people.Rates.Columns)
	return v
}

func (p *player) lettersOf(thing observation.Thing) string {
	return pattern.Letters(p.installation().Name(thing))
}

// wrongOpening draws the number written in place of the right one: mostly of
// another opening of the room, else two figures exchanged if there is such an
// opening, else any.
func (p *player) wrongOpening(thing observation.Thing) observation.Thing {
	in := p.installation()
	o := in.Opening(thing)
	rates := p.people.Rates
	switch u := p.rng.Float64(); {
	case u < rates.InRoom:
		if room := in.In(o.Room); len(room) > 1 {
			return room[p.rng.IntN(len(room))].Thing
		}
	case u < rates.InRoom+rates.Exchanged:
		for _, number := range exchanged(o.Number) {
			if other := in.Numbered(number); len(other) > 0 {
				return other[0].Thing
			}
		}
	}
	return in.Openings[p.rng.IntN(len(in.Openings))].Thing
}

// readings takes the letters and the first two readings, any of which may be
// left out.
func (p *player) readings(v *visit) {
	p.spendOn(&p.played.Spent.Checks, p.people.Costs.TwoLetters)
	if !p.slip(StepSkipped, p.people.Rates.Skipped) {
		v.kept = append(v.kept, p.record(observation.Observation{Stop: v.id, Under: []observation.ID{p.tour}, Subject: v.written,
			Body: observation.Letters{Letters: v.letters}}))
	}
	for _, e := range p.view.Boxes[v.box].Ends {
		second := observation.Neutral
		if e.Bare {
			second = observation.EGC
		}
		for _, other := range []observation.Wire{observation.EGC, second} {
			if !p.slip(StepSkipped, p.people.Rates.Skipped) {
				p.ohm(v, e.Tag, observation.Hot, other)
			}
		}
	}
}

// ohm takes one reading between two conductors, writes it down and returns what
// was typed.
func (p *player) ohm(v *visit, tag string, a, b observation.Wire) quantity.Resistance {
	cost := p.people.Costs.OhmAgain
	if v.read == 0 {
		cost = p.people.Costs.Ohm
	}
	v.read++
	p.spend(cost)
	if !p.confirms {
		p.played.Readings++
	}
	r := p.world.Ohm(p.rig, End{v.box, tag}, a, b)
	if p.rng.Float64() < p.people.Misread {
		p.played.Slips[Misread]++
		r = p.shownInstead(v.box)
	}
	if v.turned {
		a, b = otherColumn(a), otherColumn(b)
	}
	typed := p.typed(show(p.rng, r))
	v.kept = append(v.kept, p.record(observation.Observation{Stop: v.id, Under: []observation.ID{p.tour}, Subject: v.written,
		Body: observation.Ohm{A: end(v.written, tag, a), B: end(v.written, tag, b), Ohm: typed, Reprobed: observation.Yes}}))
	return typed
}

func end(opening observation.Thing, tag string, w observation.Wire) observation.Point {
	return observation.Point{At: opening, Cable: tag, Wire: w}
}

func otherColumn(w observation.Wire) observation.Wire {
	switch w {
	case observation.Hot:
		return observation.Neutral
	case observation.Neutral:
		return observation.Hot
	}
	return w
}

// heed does what was asked on the spot. When the letters do not match, the
// person looks at the tape: if he wrote the wrong opening, the stop is withdrawn
// and taken again at the right one.
func (p *player) heed(v *visit, ask trace.Again) *visit {
	if ask.A.Wire == "" {
		if v.written == v.meant {
			return v
		}
		p.withdraw(v.written, "written against the wrong opening", v.kept...)
		again := p.arrive(v.meant)
		p.readings(again)
		return again
	}
	p.checkUnit(v, ask, p.ohm(v, ask.A.Cable, ask.A.Wire, ask.B.Wire))
	return v
}

// checkUnit withdraws the reading a prompt was about when the new one shows
// that it was typed in the wrong unit.
func (p *player) checkUnit(v *visit, ask trace.Again, now quantity.Resistance) {
	for _, e := range p.installation().Opening(v.written).Story {
		o, ohm := e.Body.(observation.Ohm)
		if !ohm || !slices.Contains(ask.Of, e.ID) || o.Ohm.Open || now.Open {
			continue
		}
		if off := math.Abs(math.Log10(float64(o.Ohm.Ohm / now.Ohm))); off > 2.98 && off < 3.02 {
			p.withdraw(v.written, "typed in the wrong unit: read again", e.ID)
		}
	}
}
