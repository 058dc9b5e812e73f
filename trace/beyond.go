package trace

import (
	"slices"

	"asfound/evidence"
	"asfound/installation"
	"asfound/observation"
)

// Beyond a switch that is not in yet, an end reads open until feed and leg are
// joined in the switch box. Then it reads as the feed does.

// madeJoins lists the joins of feed and leg that are on record and live.
func madeJoins(in *installation.Installation) []observation.Event {
	var out []observation.Event
	for _, o := range in.Openings {
		out = append(out, o.Joints...)
	}
	return out
}

// beyond leaves out the open readings of an end from before a join was made,
// when all that was read before it was open and a value was read after it: they
// were right, and say nothing of what the end is on now. Where the order is not
// certain they stay, and clash.
func (x *end) beyond(in *installation.Installation) {
	for _, j := range madeJoins(in) {
		before := func(r reading) bool { return j.Follows(r.event) }
		named := slices.ContainsFunc(x.readings, func(r reading) bool { return r.shown.kind == showsNamed && r.event.Follows(j) })
		if !named || slices.ContainsFunc(x.readings, func(r reading) bool { return before(r) && r.shown.kind != showsOpen }) {
			continue
		}
		if kept := slices.DeleteFunc(slices.Clone(x.readings), before); len(kept) > 0 && len(kept) < len(x.readings) {
			x.readings, x.after = kept, true
		}
	}
}

// through adds the joins that a line may lean on to what it rests on: those made
// before it was read, in boxes that its circuit feeds. In a box with two
// circuits the wrong feed may have been joined; the line is no firmer than likely
// until that leg was read twice and shows the circuit of its feed.
func (l *Line) through(t *Trace, in *installation.Installation) {
	x := l.group.end(l.End)
	if l.Source.Kind != FromSpace && l.Source.Kind != FromEnd || x == nil || !x.after && l.joinedHere(in) == nil {
		return
	}
	for _, o := range in.Openings {
		for _, j := range o.Joints {
			b := j.Body.(observation.Joined)
			feed := t.byEnd[b.Feed]
			if l.End == b.Feed || !x.readAfter(j) || feed != nil && !feed.Source.shares(l.Source) {
				continue
			}
			l.RestsOn = append(slices.Clone(l.RestsOn), j.ID)
			if l.Verdict.Standing == evidence.Settled && l.End != b.Leg && t.twoCircuits(o) && !t.legRead(b, j) {
				l.Verdict.Standing = evidence.Likely
				l.lacks = "The leg at " + o.Number + " read twice: two circuits are in that box."
			}
		}
	}
}

// joinedHere is the join whose leg this end is, or nil.
func (l *Line) joinedHere(in *installation.Installation) *observation.Event {
	for _, j := range in.Opening(l.End.At).Joints {
		if j.Body.(observation.Joined).Leg == l.End {
			return &j
		}
	}
	return nil
}

// readAfter reports whether all readings of an end follow an event.
func (x *end) readAfter(e observation.Event) bool {
	return !slices.ContainsFunc(x.readings, func(r reading) bool { return !r.event.Follows(e) })
}

// shares reports whether two sources have a conductor in common.
func (s Source) shares(other Source) bool {
	mine := append([]observation.Point{s.At}, s.Also...)
	return other.At == s.At && s.Kind == other.Kind || slices.ContainsFunc(other.Also, func(p observation.Point) bool { return slices.Contains(mine, p) }) ||
		slices.Contains(s.Also, other.At)
}

// twoCircuits reports whether the ends of an opening are on different sources.
func (t *Trace) twoCircuits(o *installation.Opening) bool {
	var first *Line
	for _, l := range t.byPlace[o.Thing] {
		switch {
		case l.Source.Kind != FromSpace && l.Source.Kind != FromEnd:
		case first == nil:
			first = l
		case !first.Source.shares(l.Source):
			return true
		}
	}
	return false
}

// legRead reports whether the leg of a join was read twice after it and shows
// what its feed does.
func (t *Trace) legRead(b observation.Joined, j observation.Event) bool {
	feed, leg := t.byEnd[b.Feed], t.byEnd[b.Leg]
	if feed == nil || leg == nil || !feed.Source.shares(leg.Source) {
		return false
	}
	n := 0
	for _, r := range leg.group.end(b.Leg).readings {
		if r.shown.kind == showsNamed && r.event.Follows(j) {
			n++
		}
	}
	return n >= 2
}
