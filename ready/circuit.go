package ready

import (
	"cmp"
	"slices"
	"strconv"

	"asfound/installation"
	"asfound/observation"
	"asfound/trace"
)

// holds reports whether an opening is in the panel's building, or may be on it.
func (w *ways) holds(p *installation.Panel, opening observation.Thing) bool {
	if w.in.Opening(opening) == nil {
		return false
	}
	if b := w.in.BuildingOf(opening); b != nil && b.Thing == p.Building {
		return true
	}
	return slices.ContainsFunc(w.at[opening], func(l *trace.Line) bool { return on(l.Source, p.Thing) })
}

// on reports whether a source is, or is joined with, a space of a panel.
func on(s trace.Source, panel observation.Thing) bool {
	return s.Kind == trace.FromSpace && (s.At.At == panel || slices.ContainsFunc(s.Also, func(p observation.Point) bool { return p.At == panel }))
}

// circuits says which circuits of other panels come into the panel's building or
// openings, and what was read there that names no circuit.
func (w *ways) circuits(p *installation.Panel) {
	unread := 0
	own, rest := &circuits{}, map[observation.Thing]*circuits{}
	for _, o := range w.in.Openings {
		if !w.holds(p, o.Thing) {
			continue
		}
		lines := w.at[o.Thing]
		if len(lines) == 0 {
			unread++
		}
		beside := slices.ContainsFunc(lines, func(l *trace.Line) bool { return on(l.Source, p.Thing) })
		for _, l := range lines {
			switch {
			case firm(l) && l.Source.Kind == trace.Outside:
				w.add(Way{Sort: NotKnown, Say: "The " + l.End.String() + " at " + o.Number + " leads to something that is not on the list", Known: trace.SayStanding(l.Verdict), At: o.Thing, Lines: []*trace.Line{l}})
			case firm(l) && l.Source.Kind == trace.FromSpace:
				for _, at := range append([]observation.Point{l.Source.At}, l.Source.Also...) {
					switch {
					case at.At == p.Thing:
					case beside:
						own.add(at, l)
					default:
						if rest[at.At] == nil {
							rest[at.At] = &circuits{}
						}
						rest[at.At].add(at, l)
					}
				}
			}
		}
	}
	for _, at := range own.at {
		w.foreign(p, at, own.by[at])
	}
	for _, other := range w.in.Panels {
		if c := rest[other.Thing]; c != nil {
			w.elsewhere(p, other, c)
		}
	}
	if unread > 0 {
		w.add(Way{Sort: NotKnown, Say: "Nothing was read at " + counted(unread, "opening") + " in its building: what feeds them is not known", At: p.Building})
	}
}

// circuits are circuits with the lines that are on them, in the order met.
type circuits struct {
	at []observation.Point
	by map[observation.Point][]*trace.Line
}

func (c *circuits) add(at observation.Point, l *trace.Line) {
	if c.by == nil {
		c.by = map[observation.Point][]*trace.Line{}
	}
	if c.by[at] == nil {
		c.at = append(c.at, at)
	}
	c.by[at] = append(c.by[at], l)
}

// elsewhere says together the circuits of another panel that have boxes of their
// own in this panel's building.
func (w *ways) elsewhere(p, other *installation.Panel, c *circuits) {
	var lines []*trace.Line
	var spaces []int
	for _, at := range c.at {
		lines, spaces = append(lines, c.by[at]...), append(spaces, at.Space)
	}
	slices.Sort(spaces)
	names := make([]string, len(spaces))
	for i, s := range spaces {
		names[i] = strconv.Itoa(s)
	}
	what := "Spaces " + listed(names) + " of panel " + other.Name + " feed boxes"
	if len(names) == 1 {
		what = "Space " + names[0] + " of panel " + other.Name + " feeds boxes"
	}
	unless, sure := w.fedHere(p, other)
	if sure {
		return
	}
	w.add(Way{Sort: Circuit, Say: what + " in this panel's building, " + boxes(w.in, lines) + ": they stay live with panel " + p.Name + " off" + unless,
		Known: trace.SayStanding(weakest(lines).Verdict), At: other.Thing, Lines: lines})
}

// fedHere reports whether another panel is fed from this one alone, by feeders
// whose ends were all tested; of feeders known less firmly unless says so.
func (w *ways) fedHere(p, other *installation.Panel) (unless string, sure bool) {
	before := w.in.Upstream(p.Thing)
	below, tested := false, true
	for _, f := range w.in.Upstream(other.Thing) {
		switch {
		case slices.Contains(before, f):
			continue
		case f.From == p.Thing:
			below = true
		case !w.fed(f.From) || slices.ContainsFunc(before, func(u *installation.Feeder) bool { return u.From == f.From }):
			return "", false // it is fed past this panel too
		}
		tested = tested && f.How == observation.BasisTested
	}
	if !below || tested {
		return "", below
	}
	return ", unless panel " + other.Name + " is fed from here alone, which was not tested", false
}

// boxes names the openings of lines, the first of many.
func boxes(in *installation.Installation, lines []*trace.Line) string {
	const most = 6
	var names []string
	for _, l := range lines {
		if name := in.Name(l.End.At); !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	if len(names) > most {
		names = append(names[:most-1], strconv.Itoa(len(names)-most+1)+" more")
	}
	return listed(names)
}

// weakest is the line that stands least firmly.
func weakest(lines []*trace.Line) *trace.Line {
	return slices.MinFunc(lines, func(a, b *trace.Line) int { return cmp.Compare(a.Verdict.Standing, b.Verdict.Standing) })
}

// foreign says one circuit of another panel that comes into boxes beside the
// panel's own.
func (w *ways) foreign(p *installation.Panel, at observation.Point, lines []*trace.Line) {
	x := Way{Sort: Circuit, Known: trace.SayStanding(weakest(lines).Verdict), At: at.At, Lines: lines,
		Say: w.in.PointName(at) + " comes into " + boxes(w.in, lines) + " beside a circuit of this panel: it stays live with panel " + p.Name + " off"}
	if slices.ContainsFunc(lines, func(l *trace.Line) bool { return on(l.Source, p.Thing) }) {
		x.Sort, x.Say = Back, w.in.PointName(at)+" is joined with a circuit of panel "+p.Name+" at "+boxes(w.in, lines)+": it feeds back into this panel"
	}
	w.add(x)
}
