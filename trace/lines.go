package trace

import (
	"cmp"
	"slices"

	"asfound/evidence"
	"asfound/installation"
	"asfound/observation"
)

// add takes a solved group's lines into the trace.
func (t *Trace) add(g *group) {
	for _, x := range g.ends {
		v := g.weighed[x.point].Verdict(true)
		l := &Line{End: x.point, Verdict: v, Source: g.sources[v.Best.Key], RestsOn: x.rests, group: g}
		for _, o := range v.Others {
			l.Others = append(l.Others, g.sources[o.Key])
		}
		t.Lines = append(t.Lines, l)
		t.byEnd[x.point] = l
		t.byPlace[x.point.At] = append(t.byPlace[x.point.At], l)
	}
}

// restsOn lists the observations an end's line leans on: its readings, the
// letters and looks of its stops, the tours, resistors and read-backs it names.
func (x *end) restsOn() []observation.ID {
	var out []observation.ID
	for _, s := range x.opening.Stops {
		for _, e := range s.Letters {
			out = append(out, e.ID)
		}
	}
	lists := map[*list]bool{}
	for _, r := range x.readings {
		out = append(out, r.event.ID)
		out = append(out, r.event.Under...)
		lists[r.list] = true
	}
	for l := range lists {
		for _, p := range l.puts {
			if slices.Contains(x.named, p.on) {
				out = append(out, p.event.ID)
			}
		}
		for _, e := range l.tour.ReadBacks {
			if slices.Contains(x.named, e.Body.(observation.ReadBack).At) {
				out = append(out, e.ID)
			}
		}
	}
	slices.SortFunc(out, observation.ID.Compare)
	return slices.Compact(out)
}

// finish orders the lines and works out what follows from them together.
func (t *Trace) finish(in *installation.Installation, tr *Tracer) {
	order := map[observation.Thing]int{}
	for i, o := range in.Openings {
		order[o.Thing] = i
	}
	slices.SortStableFunc(t.Lines, func(a, b *Line) int {
		return cmp.Or(cmp.Compare(order[a.End.At], order[b.End.At]), cmp.Compare(a.End.Cable, b.End.Cable))
	})
	for _, ls := range t.byPlace {
		slices.SortStableFunc(ls, func(a, b *Line) int { return cmp.Compare(a.End.Cable, b.End.Cable) })
	}
	t.Joins = joins(in, tr.rates)
	groups := map[observation.Thing][][]int{}
	for _, p := range in.Panels {
		groups[p.Thing] = t.JoinedGroups(p.Thing)
	}
	for _, l := range t.Lines {
		l.joinedToo(groups)
		l.looks(in)
	}
	t.pair(in)
	for _, l := range t.Lines {
		for _, p := range l.Source.spaces() {
			t.bySpace[p] = append(t.bySpace[p], l)
		}
	}
	t.Clashes = t.clashes(in)
	t.Oddities = t.oddities(in)
	for _, o := range in.Openings {
		if len(o.Stops) > 0 {
			t.Again = append(t.Again, tr.spot(in, o, t)...)
		}
	}
}

// joinedToo adds the spaces found joined with a line's space at the panel.
func (l *Line) joinedToo(groups map[observation.Thing][][]int) {
	if l.Source.Kind != FromSpace {
		return
	}
	for _, g := range groups[l.Source.At.At] {
		if !slices.Contains(g, l.Source.At.Space) {
			continue
		}
		also := slices.Clone(l.Source.Also)
		for _, s := range g {
			p := SpacePoint(l.Source.At.At, s)
			if p != l.Source.At && !slices.Contains(also, p) {
				also = append(also, p)
			}
		}
		l.Source.Also = also
	}
}

// looks adds the room checks that bear on a line to what it rests on.
func (l *Line) looks(in *installation.Installation) {
	o := in.Opening(l.End.At)
	if o == nil || in.Room(o.Room) == nil {
		return
	}
	for _, e := range in.Room(o.Room).Checks {
		if len(e.Under) > 0 && slices.Contains(l.RestsOn, e.Under[0]) {
			l.RestsOn = append(slices.Clone(l.RestsOn), e.ID)
		}
	}
}

// pair mirrors what was read in a pairing tour: the end that carried the
// resistor has its other end where the resistor was read. Its own open reading,
// taken before the resistor was on, is no sign that it is dead.
func (t *Trace) pair(in *installation.Installation) {
	read := map[observation.Point]*Line{}
	for _, l := range t.Lines {
		if l.Source.Kind == FromEnd {
			read[l.Source.At] = l
		}
	}
	for _, tour := range in.Tours {
		if tour.Means != observation.ByPairing {
			continue
		}
		for _, e := range tour.Resistors {
			on := e.Body.(observation.Resistor).On
			l := t.byEnd[on]
			if l == nil || l.Source.Kind == FromEnd || l.Source.Kind == FromSpace {
				continue
			}
			if far := read[on]; far != nil {
				l.Source = Source{Kind: FromEnd, At: far.End}
				l.Others, l.Verdict = nil, far.Verdict
				l.group = far.group
				l.RestsOn = far.RestsOn
				l.mirrors = far
			} else {
				l.Others, l.Source = nil, Source{Kind: NoAnswer}
				l.Verdict.Standing = evidence.Untested
			}
		}
	}
}
