package trace

import (
	"cmp"
	"slices"
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
	weighed map[observation.Point]evidence.Weighed
	sources map[string]Source // by answer key
	clashes map[observation.Point]clashing
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
}

// reading is an ohm reading between an end and the ground or neutral beside it.
type reading struct {
	event observation.Event
	body  observation.Ohm
	other observation.Wire // EGC or Neutral
	stop  *installation.Stop
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
	mark    string // names the readings, for telling whether anything changed
}

// collect sorts the readings of an opening by conductor end. Readings under no
// tour, or between two conductors of other uses, name no source and are left to
// the story.
func collect(o *installation.Opening, lists map[observation.ID]*list) collected {
	c := collected{opening: o}
	byPoint := map[observation.Point]*end{}
	for _, stop := range o.Stops {
		for _, e := range stop.Ohms {
			body := e.Body.(observation.Ohm)
			l := listUnder(e, lists)
			if l == nil {
				continue
			}
			hot, other := body.A, body.B
			if isReturn(hot.Wire) {
				hot, other = other, hot
			}
			if !isReturn(other.Wire) || l.tour.NeutralJoined != observation.Yes && other.Wire == observation.Neutral {
				continue
			}
			s := l.read(body.Ohm)
			if isReturn(hot.Wire) {
				c.sides = append(c.sides, side{e, stop, s, hot.Cable})
				continue
			}
			x := byPoint[hot]
			if x == nil {
				x = &end{point: hot, opening: o}
				byPoint[hot] = x
				c.ends = append(c.ends, x)
			}
			first := len(x.readings) == 0 || x.readings[len(x.readings)-1].stop != stop
			x.readings = append(x.readings, reading{event: e, body: body, other: other.Wire, stop: stop, list: l, shown: s,
				again: !first && body.Reprobed != observation.Yes})
		}
	}
	var mark strings.Builder
	mark.WriteString(string(o.Thing) + " " + o.Number + ":")
	for _, stop := range o.Stops {
		for _, e := range slices.Concat(stop.Letters, stop.Ohms) {
			mark.WriteString(e.ID.String() + " ")
		}
	}
	c.mark = mark.String()
	for _, x := range c.ends {
		x.named = x.names()
	}
	slices.SortFunc(c.ends, func(a, b *end) int {
		return cmp.Or(strings.Compare(a.point.Cable, b.point.Cable), strings.Compare(string(a.point.Wire), string(b.point.Wire)))
	})
	return c
}

func isReturn(w observation.Wire) bool { return w == observation.EGC || w == observation.Neutral }

func listUnder(e observation.Event, lists map[observation.ID]*list) *list {
	for _, id := range e.Under {
		if l := lists[id]; l != nil {
			return l
		}
	}
	return nil
}

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
		for _, pair := range r.shown.pairs {
			add(pair[0])
			add(pair[1])
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
