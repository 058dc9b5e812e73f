package trace

import (
	"slices"
	"strings"

	"asfound/evidence"
	"asfound/installation"
	"asfound/observation"
)

// clashes names, for each opening with a line that clashes, the least sets of
// doubts and the one reading that decides best. Where only one set is left, its
// doubts are granted, and what clashed is undecided between the answers left.
func (t *Trace) clashes(in *installation.Installation) []*Clash {
	var out []*Clash
	done := map[observation.Thing]bool{}
	for _, l := range t.Lines {
		if l.Verdict.Standing != evidence.Clash || done[l.End.At] || l.mirrors != nil {
			continue
		}
		if !l.group.clashes(l) {
			l.Verdict.Standing = evidence.Undecided // what clashes is elsewhere
			continue
		}
		if set, only := l.group.only(l); only {
			l.Verdict.Standing = evidence.Undecided
			t.grant(set, l)
			continue
		}
		done[l.End.At] = true
		out = append(out, t.clash(in, l))
	}
	return out
}

func (t *Trace) clash(in *installation.Installation, l *Line) *Clash {
	c := &Clash{Key: string(l.End.At)}
	for _, other := range t.At(l.End.At) {
		if other.Verdict.Standing == evidence.Clash {
			c.Lines = append(c.Lines, other)
		}
	}
	found := l.group.clash(l)
	c.Sets, c.More, c.Readings, c.Settle = found.sets, found.more, found.readings, found.settle
	return c
}

// granted is a doubt without which nothing explains the readings about a line.
type granted struct {
	evidence.Doubt
	lines []*Line
}

// grant keeps the doubts of the only explanation left, with the line it is of.
func (t *Trace) grant(set []evidence.Doubt, l *Line) {
	for _, d := range set {
		i := slices.IndexFunc(t.granted, func(g *granted) bool { return g.Key == d.Key })
		if i < 0 {
			i = len(t.granted)
			t.granted = append(t.granted, &granted{Doubt: d})
		}
		t.granted[i].lines = append(t.granted[i].lines, l)
	}
}

// clashing is what a group's readings say of one end that clashes. It depends
// on the group alone, which is kept from one Trace to the next.
type clashing struct {
	sets     [][]evidence.Doubt
	more     bool
	readings []observation.ID
	settle   Settle
}

// clashes reports whether something read about a line's end itself has to be
// doubted.
func (g *group) clashes(l *Line) bool {
	return g.problem.Bears(g.end(l.End).question)
}

// only gives the doubts that every explanation of least cost takes as true about
// a line's end, if there is one such set alone.
func (g *group) only(l *Line) ([]evidence.Doubt, bool) {
	sets, known := g.few[l.End]
	if !known {
		sets = g.problem.Least(g.end(l.End).question, 2)
		g.few[l.End] = sets
	}
	if len(sets) != 1 {
		return nil, false
	}
	return sets[0].Doubts, true
}

func (g *group) clash(l *Line) clashing {
	if found, ok := g.found[l.End]; ok {
		return found
	}
	x := g.end(l.End)
	sets := g.problem.Least(x.question, mostSets+1)
	found := clashing{more: len(sets) > mostSets}
	sets = sets[:min(len(sets), mostSets)]
	for _, s := range sets {
		found.sets = append(found.sets, s.Doubts)
		for _, d := range s.Doubts {
			for _, of := range d.Of {
				if id, err := observation.ParseID(of); err == nil {
					found.readings = append(found.readings, id)
				}
			}
		}
	}
	for _, other := range g.ends { // a doubted reading is seen beside the others of its end
		for _, r := range other.readings {
			if other == x || slices.Contains(found.readings, r.event.ID) {
				for _, r := range other.readings {
					found.readings = append(found.readings, r.event.ID)
				}
				break
			}
		}
	}
	slices.SortFunc(found.readings, observation.ID.Compare)
	found.readings = slices.Compact(found.readings)
	found.settle = settle(l, x, sets)
	g.found[l.End] = found
	return found
}

// settle chooses the reading that leaves the fewest explanations in the worst
// case: the end read again, or a resistor read back.
func settle(l *Line, x *end, sets []evidence.Explanation) Settle {
	byAnswer := map[string]int{}
	for _, s := range sets {
		byAnswer[s.Answer]++
	}
	best := Settle{At: l.End, Leaves: most(byAnswer), Minutes: minutesReading}
	for _, r := range x.readings {
		if r.shown.kind != showsNamed {
			continue
		}
		p, ok := r.list.putOn(r.shown.named, r.event)
		if !ok || !p.atPanel() {
			continue
		}
		doubted := map[string]int{}
		for _, s := range sets {
			key := "as noted"
			for _, d := range s.Doubts {
				if (d.Kind == evidence.SetUp || d.Kind == evidence.Change) && strings.HasSuffix(d.Key, p.event.ID.String()) {
					key = "elsewhere"
				}
			}
			doubted[key]++
		}
		if n := most(doubted); n < best.Leaves {
			best = Settle{At: p.on, Back: true, Leaves: n, Minutes: minutesReadBack}
		}
	}
	return best
}

func most(parts map[string]int) int {
	n := 0
	for _, k := range parts {
		n = max(n, k)
	}
	return n
}
