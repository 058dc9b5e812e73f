package trace

import (
	"fmt"
	"slices"
	"strings"

	"asfound/evidence"
	"asfound/installation"
	"asfound/observation"
)

// firm reports whether a line's answer may be spoken of: settled or likely.
func (l *Line) firm() bool {
	return l.Verdict.Standing == evidence.Settled || l.Verdict.Standing == evidence.Likely
}

// oddities lists what the lines and joins show to be wrong or unusual.
func (t *Trace) oddities(in *installation.Installation) []Oddity {
	var out []Oddity
	add := func(kind OddityKind, place observation.Thing, lines []*Line, format string, args ...any) {
		out = append(out, Oddity{Kind: kind, Place: place, Lines: lines, Say: fmt.Sprintf(format, args...)})
	}
	for _, o := range in.Openings {
		t.oddOpening(in, o, add)
	}
	for _, j := range t.Joins {
		oddJoin(in, j, add)
	}
	for _, e := range always(in) {
		add(AlwaysLive, e, nil, "Voltage was found at %s. Stop: find what feeds it and lock it out before anything else.", in.Name(e))
	}
	t.oneLater(in, add)
	for _, g := range t.granted {
		add(OneExplanation, g.lines[0].End.At, g.lines, "What was read here and at %s is explained by one thing alone: %s. See to that first.",
			counted(len(g.lines)-1, "other conductor"), g.Words)
	}
	swapped(in, t, add)
	numbers := map[string]int{}
	for _, o := range in.Openings {
		numbers[strings.ToUpper(o.Number)]++
		if n := numbers[strings.ToUpper(o.Number)]; n == 2 {
			add(DuplicateNumber, o.Thing, nil, "Two openings bear the number %s. Give one of them another.", o.Number)
		}
	}
	return out
}

// closedWords is what a hot that reads no more than conductors means.
const closedWords = "a load is still connected there, or a fault. Do not energize its circuit before it is found"

type adder func(kind OddityKind, place observation.Thing, lines []*Line, format string, args ...any)

func (t *Trace) oddOpening(in *installation.Installation, o *installation.Opening, add adder) {
	lines := t.At(o.Thing)
	first, two := (*Line)(nil), false
	for _, l := range lines {
		name := o.Number
		if len(lines) > 1 {
			name = "the " + l.End.String() + " at " + name
		}
		if l.Closed {
			add(HotClosed, o.Thing, []*Line{l}, "The %s at %s reads closed: %s.", l.End, o.Number, closedWords)
		}
		if !l.firm() {
			continue
		}
		switch l.Source.Kind {
		case Nothing:
			add(NothingHere, o.Thing, []*Line{l}, "Nothing on the list reaches %s: not connected, or not spliced yet.", name)
		case Outside:
			if l.Closed {
				continue
			}
			add(OutsideFeed, o.Thing, []*Line{l}, "%s leads to something not on the list. Find it before anything is energized.", o.Number)
		case FromSpace:
			here, there := in.BuildingOf(o.Thing), in.BuildingOf(l.Source.At.At)
			if here != nil && there != nil && here != there {
				add(ForeignFeed, o.Thing, []*Line{l}, "%s in building %s is on %s in building %s.", o.Number, here.Name, in.PointName(l.Source.At), there.Name)
			}
			if first != nil && first.Source.At != l.Source.At && !two {
				two = true
				add(TwoCircuits, o.Thing, []*Line{first, l}, "%s holds two circuits: %s and %s. Both have to be off before work there.",
					o.Number, in.PointName(first.Source.At), in.PointName(l.Source.At))
			} else if first == nil {
				first = l
			}
		}
	}
}

func oddJoin(in *installation.Installation, j *Join, add adder) {
	if j.Verdict.Standing != evidence.Likely && j.Verdict.Standing != evidence.Settled || j.Kind != Joined {
		return
	}
	name := in.Name(j.Panel)
	switch {
	case j.Bar == observation.AgainstEGC:
		add(BarFault, j.Panel, nil, "%s-%d is joined to the ground bar. Do not energize it.", name, j.A)
	case j.Bar == observation.AgainstNeutral:
		add(BarFault, j.Panel, nil, "%s-%d is joined to the neutral bar. Do not energize it.", name, j.A)
	case j.Cross == observation.Yes:
		add(CrossLegJoin, j.Panel, nil, "%s-%d and %s-%d are joined and on opposite legs: closing both is a short. Do not energize either.", name, j.A, name, j.B)
	default:
		add(JoinedCircuits, j.Panel, nil, "%s-%d and %s-%d are joined: one is live when the other is off.", name, j.A, name, j.B)
	}
}

// always lists the places where an absence-of-voltage test found voltage, and
// none that holds is known to have come after it.
func always(in *installation.Installation) []observation.Thing {
	var out []observation.Thing
	for _, o := range in.Openings {
		if foundLive(o.Story) {
			out = append(out, o.Thing)
		}
	}
	for _, p := range in.Panels {
		if foundLive(p.Story) {
			out = append(out, p.Thing)
		}
	}
	return out
}

func foundLive(story installation.Story) bool {
	var tests []observation.Event
	for i := range story {
		if _, ok := story[i].Body.(observation.ProvenDead); ok && story[i].Live() {
			tests = append(tests, story[i].Event)
		}
	}
	return slices.ContainsFunc(tests, func(e observation.Event) bool {
		return e.Body.(observation.ProvenDead).Absent == observation.No && !slices.ContainsFunc(tests, func(later observation.Event) bool {
			return showsNone(later) && later.Follows(e)
		})
	})
}

// showsNone reports whether a test holds, and for the whole of its place.
func showsNone(test observation.Event) bool {
	b := test.Body.(observation.ProvenDead)
	return b.Holds() && len(b.Spaces) == 0
}

// swapped finds two spaces of a panel each of whose labels names the rooms that
// the other feeds. It is a hint to look: labels settle nothing.
func swapped(in *installation.Installation, t *Trace, add adder) {
	for _, p := range in.Panels {
		branches := p.Branches()
		for i, a := range branches {
			for _, b := range branches[i+1:] {
				la, lb := p.Seen[a].Label, p.Seen[b].Label
				if la == "" || lb == "" {
					continue
				}
				if t.feeds(in, p.Thing, a, lb) && t.feeds(in, p.Thing, b, la) && !t.feeds(in, p.Thing, a, la) && !t.feeds(in, p.Thing, b, lb) {
					add(SwappedLabels, p.Thing, append(t.On(p.Thing, a), t.On(p.Thing, b)...),
						"The labels of %s-%d and %s-%d look exchanged.", p.Name, a, p.Name, b)
				}
			}
		}
	}
}

// feeds reports whether a space feeds an opening of a room the label names.
func (t *Trace) feeds(in *installation.Installation, panel observation.Thing, space int, label string) bool {
	for _, l := range t.On(panel, space) {
		if o := in.Opening(l.End.At); o != nil && l.firm() {
			if r := in.Room(o.Room); r != nil && strings.Contains(strings.ToLower(label), strings.ToLower(r.Name)) {
				return true
			}
		}
	}
	return false
}
