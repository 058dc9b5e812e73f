package ready

import (
	"fmt"
	"slices"
	"strconv"

	"asfound/installation"
	"asfound/observation"
	"asfound/trace"
)

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
