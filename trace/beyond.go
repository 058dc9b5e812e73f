package trace

import (
	"slices"
	"strconv"

	"asfound/evidence"
	"asfound/installation"
	"asfound/observation"
)

// made is a feed joined to a leg on purpose, in a switch box whose switch is not
// in yet: what lies beyond reads open before it, and as the feed does after it.
type made struct {
	event   observation.Event
	body    observation.Joined
	opening *installation.Opening
}

// madeIn lists the joins on record and live.
func madeIn(in *installation.Installation) []made {
	var out []made
	for _, o := range in.Openings {
		for _, e := range o.Joints {
			out = append(out, made{e, e.Body.(observation.Joined), o})
		}
	}
	return out
}

// beyond leaves out the open readings of ends from before a join was made, where
// all that was read before it was open, and what was read after it is what the
// feed of the join reads as: those readings were right, and say nothing of what
// the end is on now. Where the order is not certain, or the feed reads as
// something else, they stay, and clash. What it changes, it copies.
func beyond(in *installation.Installation, all []collected) []collected {
	joins := madeIn(in)
	if len(joins) == 0 {
		return all
	}
	feeds := map[observation.Point][]observation.Point{}
	for _, c := range all {
		for _, x := range c.ends {
			feeds[x.point] = x.named
		}
	}
	out := slices.Clone(all)
	for i, c := range out {
		for k, x := range c.ends {
			for _, j := range joins {
				if kept := x.since(j, feeds[j.body.Feed]); kept != nil {
					own := *x
					own.readings, own.left = kept, x.readings[:len(x.readings)-len(kept)]
					own.after = append(slices.Clone(x.after), j.event.ID)
					x = &own
				}
			}
			if x != c.ends[k] {
				out[i].ends = slices.Clone(out[i].ends)
				out[i].ends[k] = x
				for _, j := range x.after {
					out[i].mark += " after " + j.String()
				}
				out[i].mark += " " + strconv.Itoa(len(x.readings))
			}
		}
	}
	return out
}

// since gives the readings of an end that do not precede a join, if it may lie
// beyond it and some reading does; else nil.
func (x *end) since(j made, feed []observation.Point) []reading {
	if len(x.named) == 0 || len(feed) == 0 || x.readings[0].shown.kind != showsOpen {
		return nil
	}
	var kept []reading
	named := false
	for _, r := range x.readings {
		if len(kept) == 0 && j.event.Follows(r.event) {
			if r.shown.kind != showsOpen {
				return nil
			}
			continue
		}
		kept = append(kept, r)
		if r.shown.kind == showsNamed {
			if !r.event.Follows(j.event) || !slices.Contains(feed, r.shown.named) {
				return nil
			}
			named = true
		}
	}
	if !named || len(kept) == len(x.readings) {
		return nil
	}
	return kept
}

// through holds lines that the joins of feeds and legs bear on. A line may lie
// beyond any join made before it was read. Where another circuit of that box may
// have been joined instead of the feed noted, the line is no firmer than likely
// until the leg was read twice and shows its feed, or was read on two visits and
// shows something that the line does not.
func (t *Trace) through(in *installation.Installation) {
	for _, j := range madeIn(in) {
		feed, leg := t.byEnd[j.body.Feed], t.byEnd[j.body.Leg]
		others, all := t.othersIn(j)
		twice := readTwice(j, leg)
		sure := twice && feed != nil && feed.firm() && (leg.Source.Kind == Nothing || feed.Source.shares(leg.Source))
		visits := twice && leg.group.end(j.body.Leg).stops() >= 2
		for _, l := range t.Lines {
			x := l.group.end(l.End)
			if l.Source.Kind != FromSpace && l.Source.Kind != FromEnd || x == nil || x.before(j.event) || l.End == j.body.Feed {
				continue
			}
			if l == leg || slices.Contains(x.after, j.event.ID) {
				l.RestsOn = append(slices.Clone(l.RestsOn), j.event.ID)
			}
			if sure || visits && l != leg && !l.Source.shares(leg.Source) {
				continue // what is beyond the leg shows what the leg shows
			}
			as := feed != nil && feed.firm() && feed.Source.shares(l.Source)
			if as && l != leg || !as && !all && !slices.ContainsFunc(others, l.Source.shares) && l != leg {
				continue
			}
			l.unsure("The leg of the join at " + j.opening.Number + " read twice: it shows which feed was really joined.")
		}
	}
	for _, l := range t.Lines {
		if x := l.group.end(l.End); x != nil && len(x.after) > 0 && x.stops() < 2 {
			l.unsure("A second visit: it read open before feed and leg were joined.")
		}
	}
}

// unsure takes a settled line back to likely.
func (l *Line) unsure(lacks string) {
	if l.Verdict.Standing == evidence.Settled {
		l.Verdict.Standing, l.lacks = evidence.Likely, lacks
	}
}

// othersIn lists what could have been joined at a box instead of the feed noted:
// the sources of its other ends. All is that some of them is not known.
func (t *Trace) othersIn(j made) (others []Source, all bool) {
	known := map[string]bool{}
	for _, l := range t.byPlace[j.opening.Thing] {
		known[l.End.Cable] = true
		if l.End == j.body.Feed || l.End == j.body.Leg {
			continue
		}
		switch {
		case l.Source.Kind == Nothing && l.firm():
		case (l.Source.Kind == FromSpace || l.Source.Kind == FromEnd) && l.firm():
			others = append(others, l.Source)
		default:
			all = true
		}
	}
	for _, c := range j.opening.Cables {
		all = all || !known[c.Tag]
	}
	return others, all
}

// readTwice reports whether it is known what is beyond a join: its leg was read
// twice after it, beyond a likely doubt, or nothing reaches the leg.
func readTwice(j made, leg *Line) bool {
	switch {
	case leg == nil || !leg.firm():
		return false
	case leg.Source.Kind == Nothing:
		return true
	}
	n := 0
	for _, r := range leg.group.end(j.body.Leg).readings {
		if r.shown.kind == showsNamed && r.event.Follows(j.event) && slices.Contains(leg.Source.all(), r.shown.named) {
			n++
		}
	}
	return n >= 2
}

// before reports whether all readings of an end are known to precede an event.
func (x *end) before(e observation.Event) bool {
	return !slices.ContainsFunc(x.readings, func(r reading) bool { return !e.Follows(r.event) })
}

// stops counts the visits at which an end was read.
func (x *end) stops() int {
	var seen []*installation.Stop
	for _, r := range x.readings {
		if !slices.Contains(seen, r.stop) {
			seen = append(seen, r.stop)
		}
	}
	return len(seen)
}

// all lists the conductors of a source.
func (s Source) all() []observation.Point { return append([]observation.Point{s.At}, s.Also...) }

// shares reports whether two sources have a conductor in common.
func (s Source) shares(other Source) bool {
	return slices.ContainsFunc(s.all(), func(p observation.Point) bool { return p != observation.Point{} && slices.Contains(other.all(), p) })
}
