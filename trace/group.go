package trace

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"asfound/evidence"
	"asfound/installation"
	"asfound/observation"
)

// A group is a set of openings whose readings bear on each other, because they
// name the same resistors. Its problem holds all that was read there.
type group struct {
	problem *evidence.Problem
	ends    []*end
	at      map[observation.Point]*end
	weighed map[observation.Point]evidence.Weighed
	sources map[string]Source // by answer key
	found   map[observation.Point]clashing
	few     map[observation.Point][]evidence.Explanation // one of the least, or two
}

// end is a conductor end with the readings about it.
type end struct {
	point    observation.Point
	opening  *installation.Opening
	readings []reading
	question evidence.Var
	answers  []evidence.Answer
	named    []observation.Point // the conductors its readings name, in the order named
	rests    []observation.ID
	alone    bool             // no other end of the opening was read
	silent   bool             // nothing of its cable arrives
	after    []observation.ID // joins before which it read open
	left     []reading        // those open readings, left out
	joined   map[observation.ID][]joinedPair
}

// reading is an ohm reading between an end and the ground or neutral beside it.
type reading struct {
	event observation.Event
	body  observation.Ohm
	other observation.Wire // EGC or Neutral
	stop  *installation.Stop
	tour  *installation.Tour // as it was when the reading was sorted: for its means
	list  *list
	shown shown
	again bool // the leads were not lifted since the reading before
}

// side is a reading between ground and neutral of one cable.
type side struct {
	event observation.Event
	stop  *installation.Stop
	shown shown
	cable string
}

// collected is everything read at one opening.
type collected struct {
	opening *installation.Opening
	ends    []*end
	sides   []side
	unsure  []unsure
	mark    string // names the readings, for telling whether anything changed
}

// unsure is a reading that names a resistor of which it is not certain where it
// was by then, or that was taken after power was put on. It says nothing, and is
// not forgotten.
type unsure struct {
	point   observation.Point
	id      observation.ID
	powered bool
	shown   Source // what it named, of one taken after power was put on
}

// collect sorts the readings of an opening by conductor end. Readings under no
// tour, or between two conductors of other uses, name no source and are left to
// the story; so are those that rest on a set-up which was withdrawn, or that
// name a resistor of which it is not certain where it was by then, or that came
// after the tour's power was put on.
func (tr *Tracer) collect(in *installation.Installation, o *installation.Opening) collected {
	c := collected{opening: o}
	byPoint := map[observation.Point]*end{}
	for _, stop := range o.Stops {
		for _, e := range stop.Ohms {
			tour := tourOf(in, e)
			if tour == nil || !in.Rests(e) {
				continue
			}
			if in.Over(tour, e) {
				if in.Powered(tour, e) {
					c.powered(e, tr.listAt(in, e))
				}
				continue
			}
			c.take(byPoint, stop, e, tour, tr.listAt(in, e))
		}
	}
	for _, x := range c.ends {
		x.silent = c.silent(x)
	}
	c.mark = stopsMark(o)
	for _, x := range c.ends {
		x.named = x.names()
	}
	slices.SortFunc(c.ends, func(a, b *end) int {
		return cmp.Or(strings.Compare(a.point.Cable, b.point.Cable), strings.Compare(string(a.point.Wire), string(b.point.Wire)))
	})
	return c
}

// stopsMark names all that an opening brings to a problem.
func stopsMark(o *installation.Opening) string {
	var mark strings.Builder
	mark.WriteString(string(o.Thing) + " " + o.Number + " in " + string(o.Room) + " " + strconv.Itoa(len(o.Cables)) + ":")
	for _, stop := range o.Stops {
		for _, e := range slices.Concat(stop.Letters, stop.Ohms) {
			mark.WriteString(e.ID.String() + " ")
		}
	}
	return mark.String()
}

// take hangs a reading on its end, or on the sides when it lies between ground
// and neutral.
func (c *collected) take(byPoint map[observation.Point]*end, stop *installation.Stop, e observation.Event, tour *installation.Tour, l *list) {
	body := e.Body.(observation.Ohm)
	hot, other := body.A, body.B
	if isReturn(hot.Wire) {
		hot, other = other, hot
	}
	toNeutral := other.Wire == observation.Neutral || hot.Wire == observation.Neutral
	if !isReturn(other.Wire) || toNeutral && tour.NeutralJoined != observation.Yes {
		return
	}
	s := l.read(body.Ohm)
	if isReturn(hot.Wire) {
		c.sides = append(c.sides, side{e, stop, s, hot.Cable})
		return
	}
	if x, ok := l.find(s.named); ok && s.kind == showsNamed && !x.settledFor(e) {
		c.unsure = append(c.unsure, unsure{point: hot, id: e.ID})
		return
	}
	x := byPoint[hot]
	if x == nil {
		x = &end{point: hot, opening: c.opening}
		byPoint[hot] = x
		c.ends = append(c.ends, x)
	}
	first := len(x.readings) == 0 || x.readings[len(x.readings)-1].stop != stop
	x.readings = append(x.readings, reading{event: e, body: body, other: other.Wire, stop: stop, tour: tour, list: l, shown: s,
		again: !first && body.Reprobed != observation.Yes})
}

// powered keeps a reading from after power was put on for whoever reads the line.
func (c *collected) powered(e observation.Event, l *list) {
	body := e.Body.(observation.Ohm)
	hot := body.A
	if isReturn(hot.Wire) {
		hot = body.B
	}
	if isReturn(hot.Wire) {
		return
	}
	u := unsure{point: hot, id: e.ID, powered: true}
	switch s := l.read(body.Ohm); s.kind {
	case showsNamed:
		u.shown = Source{Kind: kindAt(s.named), At: s.named}
	case showsOpen:
		u.shown = Source{Kind: Nothing}
	}
	c.unsure = append(c.unsure, u)
}

// silent reports whether all that was read of an end is open, and its ground to
// its neutral as well: then no reading to either can tell what the hot is on.
func (c collected) silent(x *end) bool {
	if slices.ContainsFunc(x.readings, func(r reading) bool { return r.shown.kind != showsOpen }) {
		return false
	}
	sides := 0
	for _, s := range c.sides {
		if s.cable != x.point.Cable {
			continue
		}
		if s.shown.kind != showsOpen {
			return false
		}
		sides++
	}
	return sides > 0
}

func isReturn(w observation.Wire) bool { return w == observation.EGC || w == observation.Neutral }

// tourOf is the tour an event names, or nil.
func tourOf(in *installation.Installation, e observation.Event) *installation.Tour {
	for _, id := range e.Under {
		if t := in.Tour(id); t != nil {
			return t
		}
	}
	return nil
}

// mostPairs is how many joined pairs a reading that names no single resistor may
// fit and each still be listed.
const mostPairs = 3

// names lists the conductors that an end's readings name, in the order named.
func (x *end) names() []observation.Point {
	var out []observation.Point
	add := func(p observation.Point) {
		if !slices.Contains(out, p) {
			out = append(out, p)
		}
	}
	for _, r := range x.readings {
		if r.shown.kind == showsNamed {
			add(r.shown.named)
		}
		if r.few() {
			for _, pair := range r.shown.pairs {
				add(pair[0])
				add(pair[1])
			}
		}
	}
	return out
}

// grouped splits the openings into groups that share a named conductor.
func grouped(all []collected) [][]collected {
	owner := map[observation.Point]int{}
	parent := make([]int, len(all))
	var root func(int) int
	root = func(i int) int {
		if parent[i] != i {
			parent[i] = root(parent[i])
		}
		return parent[i]
	}
	for i, c := range all {
		parent[i] = i
		for _, x := range c.ends {
			for _, p := range x.named {
				if j, ok := owner[p]; ok {
					parent[root(i)] = root(j)
				} else {
					owner[p] = i
				}
			}
		}
	}
	at := map[int]int{}
	var out [][]collected
	for i, c := range all {
		r := root(i)
		k, ok := at[r]
		if !ok {
			k = len(out)
			at[r] = k
			out = append(out, nil)
		}
		out[k] = append(out[k], c)
	}
	return out
}
