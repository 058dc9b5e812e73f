package ready

import (
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

// unfed says of which panel, here or on the way here, no feeder is on record.
func (w *ways) unfed(p *installation.Panel) {
	fed := func(t observation.Thing) bool {
		return slices.ContainsFunc(w.in.Feeders, func(f *installation.Feeder) bool { return f.To == t })
	}
	if !fed(p.Thing) {
		say := "What feeds panel " + p.Name + " is not on record: treat it as live"
		if p.FedFrom != "" {
			say += ". Its label says it is fed from " + p.FedFrom
		}
		w.add(Way{Sort: NotKnown, Say: say, At: p.Thing, Unfed: true})
	}
	var said []observation.Thing
	for _, f := range w.in.Upstream(p.Thing) {
		up := w.in.Panel(f.From)
		if up == nil || up == p || fed(up.Thing) || slices.Contains(said, up.Thing) {
			continue
		}
		said = append(said, up.Thing)
		w.add(Way{Sort: NotKnown, Say: "What feeds panel " + up.Name + ", and through it panel " + p.Name + ", is not on record", At: up.Thing, Unfed: true})
	}
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
	for _, c := range p.Cables {
		if landed(p, c) {
			continue
		}
		of := entries(p.Story, func(b observation.CableEnd) bool { return b.Tag == c.Tag })
		mark := ""
		if c.Mark != "" {
			mark = "marked “" + c.Mark + "”"
		}
		name := joined("Cable "+c.Tag, mark)
		if ends := w.otherEnds(p.Thing, c.Tag); len(ends) > 0 {
			for _, l := range ends {
				w.add(Way{Sort: Circuit, Say: name + " lies loose in this cabinet and goes to " + w.in.Name(l.End.At) + ": what feeds that box comes back here", Known: trace.SayStanding(l.Verdict),
					At: l.End.At, Lines: []*trace.Line{l}, Of: of})
			}
			continue
		}
		w.add(Way{Sort: NotKnown, Say: name + " lies loose in this cabinet and where its other end is was not read: treat it as live", At: p.Thing, Of: of})
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
	var other []observation.Point
	by := map[observation.Point][]*trace.Line{}
	for _, o := range w.in.Openings {
		if !w.holds(p, o.Thing) {
			continue
		}
		lines := w.at[o.Thing]
		if len(lines) == 0 {
			unread++
		}
		for _, l := range lines {
			switch {
			case firm(l) && l.Source.Kind == trace.Outside:
				w.add(Way{Sort: NotKnown, Say: "The " + l.End.String() + " at " + o.Number + " leads to something that is not on the list", Known: trace.SayStanding(l.Verdict), At: o.Thing, Lines: []*trace.Line{l}})
			case firm(l) && l.Source.Kind == trace.FromSpace:
				for _, at := range append([]observation.Point{l.Source.At}, l.Source.Also...) {
					if at.At != p.Thing && by[at] == nil {
						other = append(other, at)
					}
					if at.At != p.Thing {
						by[at] = append(by[at], l)
					}
				}
			}
		}
	}
	for _, at := range other {
		w.foreign(p, at, by[at])
	}
	if unread > 0 {
		w.add(Way{Sort: NotKnown, Say: "Nothing was read at " + counted(unread, "opening") + " in its building: what feeds them is not known", At: p.Building})
	}
}

// foreign says one circuit of another panel, weakest line first.
func (w *ways) foreign(p *installation.Panel, at observation.Point, lines []*trace.Line) {
	var names []string
	weakest := lines[0]
	back := false
	for _, l := range lines {
		if name := w.in.Name(l.End.At); !slices.Contains(names, name) {
			names = append(names, name)
		}
		if l.Verdict.Standing < weakest.Verdict.Standing {
			weakest = l
		}
		back = back || on(l.Source, p.Thing)
	}
	x := Way{Sort: Circuit, Known: trace.SayStanding(weakest.Verdict), At: at.At, Lines: lines,
		Say: w.in.PointName(at) + " comes into " + listed(names) + ": it stays live with panel " + p.Name + " off"}
	if back {
		x.Sort, x.Say = Back, w.in.PointName(at)+" is joined with a circuit of panel "+p.Name+" at "+listed(names)+": it feeds back into this panel"
	}
	w.add(x)
}
