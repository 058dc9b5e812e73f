package ready

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"

	"asfound/installation"
	"asfound/observation"
	"asfound/trace"
)

// Panel lists by what a panel can still be live when it is off. An empty list
// never comes out of a panel whose feeder is not on record.
func Panel(in *installation.Installation, tr *trace.Trace, p *installation.Panel) []Way {
	w := newWays(in, tr)
	w.unfed(p)
	w.live(func(t observation.Thing) bool { return t == p.Thing || w.holds(p, t) })
	w.feeders(in.Upstream(p.Thing), "")
	w.feeders(in.Backfeeds(p.Thing), p.Name)
	w.passing(p)
	w.cables(p)
	w.spaces(p)
	w.circuits(p)
	return w.sorted()
}

// unfed says of which panel, here or on the way here, and of which source, no
// feeder is on record.
func (w *ways) unfed(p *installation.Panel) {
	if !w.fed(p.Thing) {
		say := "What feeds panel " + p.Name + " is not on record: treat it as live"
		if p.FedFrom != "" {
			say += ". Its label says it is fed from " + p.FedFrom
		}
		w.add(Way{Sort: NotKnown, Say: say, At: p.Thing, Unfed: true})
	}
	for _, s := range w.in.Sources {
		if w.in.Unled(s.Thing) {
			w.add(Way{Sort: NotKnown, Say: "What source " + s.Name + " feeds is not on record: it may feed this panel", At: s.Thing, Of: entries(s.Story, all[observation.Source])})
		}
	}
	var said []observation.Thing
	for _, f := range w.in.Upstream(p.Thing) {
		up := w.in.Panel(f.From)
		if up == nil || up == p || w.fed(up.Thing) || slices.Contains(said, up.Thing) {
			continue
		}
		said = append(said, up.Thing)
		w.add(Way{Sort: NotKnown, Say: "What feeds panel " + up.Name + ", and through it panel " + p.Name + ", is not on record", At: up.Thing, Unfed: true})
	}
}

// fed reports whether a feeder to a panel is on record.
func (w *ways) fed(panel observation.Thing) bool {
	return slices.ContainsFunc(w.in.Feeders, func(f *installation.Feeder) bool { return f.To == panel })
}

// feeders says the feeders on the way, with the sources they begin at. Back is
// the panel into which they would feed back.
func (w *ways) feeders(feeders []*installation.Feeder, back string) {
	for _, f := range feeders {
		x := Way{Sort: Feed, Known: f.How.String(), At: f.From, Of: entries(f.Story, all[observation.Feeder])}
		x.Say = joined(w.in.FromName(f.Feeder)+" feeds panel "+w.in.Name(f.To), f.Wires, f.Way)
		if back != "" {
			x.Sort, x.Say = Back, x.Say+": power can come back from there into panel "+back
		}
		if f.From == "" {
			x.Sort, x.Say = NotKnown, joined("A feeder comes to panel "+w.in.Name(f.To)+" from a place not known", f.Wires, f.Way)
		}
		w.add(x)
		if s := w.in.Source(f.From); s != nil && !w.has(s.Thing) {
			w.add(Way{Sort: Supply, Say: sourceWords(s), At: s.Thing, Of: entries(s.Story, all[observation.Source])})
		}
	}
}

func (w *ways) has(source observation.Thing) bool {
	return slices.ContainsFunc(w.out, func(x Way) bool { return x.Sort == Supply && x.At == source })
}

// sourceWords says a source: what opens it, and whether it starts by itself.
func sourceWords(s *installation.Source) string {
	opens := "what opens it is not on record"
	if s.Disconnect != "" {
		opens = "opened by " + s.Disconnect
	}
	starts := ""
	switch {
	case s.Starts == observation.Yes:
		starts = "it can start by itself"
	case s.Starts == observation.NotKnown && s.Of != observation.Utility && s.Of != observation.Temporary:
		starts = "whether it can start by itself is not known"
	}
	name := s.Name
	if name != string(s.Of) && s.Of != observation.OtherSource {
		name += " (" + string(s.Of) + ")"
	}
	return joined("Source "+name, opens, starts)
}

// passing says what passes through the cabinet without landing.
func (w *ways) passing(p *installation.Panel) {
	for _, e := range p.Story {
		b, ok := e.Body.(observation.PassThrough)
		if !ok || !e.Live() {
			continue
		}
		in, out := "", ""
		if b.From != "" {
			in = "in by " + b.From
		}
		if b.To != "" {
			out = "out by " + b.To
		}
		verb := " pass through this cabinet"
		if b.Count == 1 {
			verb = " passes through this cabinet"
		}
		w.add(Way{Sort: Passing, Say: joined(counted(b.Count, "conductor")+verb, in, out) + ": they may be fed from elsewhere, and be live with this panel off", Of: []observation.ID{e.ID}})
	}
}

// cables says which cables lie loose in the cabinet, and where their other ends
// are as far as that was read.
func (w *ways) cables(p *installation.Panel) {
	var lost []string
	var of []observation.ID
	for _, c := range p.Cables {
		if landed(p, c) {
			continue
		}
		name, entry := c.Tag, entries(p.Story, func(b observation.CableEnd) bool { return b.Tag == c.Tag })
		if c.Mark != "" {
			name += " (marked “" + c.Mark + "”)"
		}
		ends := w.otherEnds(p.Thing, c.Tag)
		for _, l := range ends {
			w.add(Way{Sort: Circuit, Say: "Cable " + name + " lies loose in this cabinet and goes to " + w.in.Name(l.End.At) + ": what feeds that box comes back here", Known: trace.SayStanding(l.Verdict),
				At: l.End.At, Lines: []*trace.Line{l}, Of: entry})
		}
		if len(ends) == 0 {
			lost, of = append(lost, name), append(of, entry...)
		}
	}
	switch len(lost) {
	case 0:
	case 1:
		w.add(Way{Sort: NotKnown, Say: "Cable " + lost[0] + " lies loose in this cabinet, and its other end was not found: treat it as live", At: p.Thing, Of: of})
	default:
		w.add(Way{Sort: NotKnown, Say: fmt.Sprintf("%d cables lie loose in this cabinet, and their other ends were not found: %s. Treat each as live", len(lost), listed(lost)), At: p.Thing, Of: of})
	}
}

// landed reports whether a cable of the panel is on a space, or every conductor
// of it on a terminal.
func landed(p *installation.Panel, c observation.CableEnd) bool {
	for _, s := range p.Seen {
		if s.Cable != "" && s.Cable == c.Tag {
			return true
		}
	}
	return len(c.Conductors) > 0 && !slices.ContainsFunc(c.Conductors, func(w observation.Conductor) bool { return w.State != observation.Landed })
}

// otherEnds are the lines that say where a cable of a panel ends.
func (w *ways) otherEnds(panel observation.Thing, tag string) []*trace.Line {
	var out []*trace.Line
	for _, l := range w.tr.Lines {
		if firm(l) && l.Source.Kind == trace.FromEnd && l.Source.At.At == panel && l.Source.At.Cable == tag {
			out = append(out, l)
		}
	}
	return out
}

// spaces says which spaces nobody looked at, which bear a feeder whose other end
// is not on record, and from which nothing was read.
func (w *ways) spaces(p *installation.Panel) {
	unseen := 0
	var loose, unread []string
	for n := 1; n <= p.Spaces; n++ {
		s, seen := p.Seen[n]
		upper := p.UpperHalf(n)
		switch {
		case !seen && upper == 0:
			unseen++
		case s.Lands == observation.LandsFeeder && upper == 0 && !w.feederOn(p, n):
			loose = append(loose, installation.SpaceName(p, n))
		case s.Lands == observation.LandsBranch && !w.read(trace.SpacePoint(p.Thing, n)):
			unread = append(unread, strconv.Itoa(n))
		}
	}
	if len(loose) > 0 {
		w.add(Way{Sort: NotKnown, Say: "A feeder lands on " + listed(loose) + ", and its other end is not on record", At: p.Thing})
	}
	if len(unread) > 0 {
		space := "spaces "
		if len(unread) == 1 {
			space = "space "
		}
		w.add(Way{Sort: NotKnown, Say: "Where the conductors on " + space + listed(unread) + " lead was not read: something else may feed them there", At: p.Thing})
	}
	if unseen > 0 {
		w.add(Way{Sort: NotKnown, Say: fmt.Sprintf("Nobody looked at %d of its %d spaces: what lands there is not known", unseen, p.Spaces), At: p.Thing})
	}
}

// read reports whether some line's answer is, or is joined with, a space.
func (w *ways) read(space observation.Point) bool {
	return slices.ContainsFunc(w.tr.Lines, func(l *trace.Line) bool {
		return firm(l) && l.Source.Kind == trace.FromSpace && (l.Source.At == space || slices.Contains(l.Source.Also, space))
	})
}

func (w *ways) feederOn(p *installation.Panel, space int) bool {
	return slices.ContainsFunc(w.in.Feeders, func(f *installation.Feeder) bool {
		return f.From == p.Thing && (f.Space == space || p.UpperHalf(f.Space) == space)
	})
}

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
