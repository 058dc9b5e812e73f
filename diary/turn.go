package diary

import (
	"slices"
	"strings"

	"asfound/evidence"
	"asfound/observation"
	"asfound/site"
	"asfound/trace"
)

// Turn is what a day changed: the site in the morning against the evening.
type Turn struct {
	Morning, Evening map[evidence.Standing]int // lines of each standing
	Found            []string                  // what is odd or clashes, and did not in the morning
	Gone             []string                  // what was odd or clashed in the morning, and does no more
	Locks            []Lock                    // that stand in the evening
}

// Lock is a lock on record as put on and not as taken off.
type Lock struct {
	At observation.Thing
	observation.Event
}

// TurnOf compares two states of the site.
func TurnOf(morning, evening *site.AsFound) Turn {
	out := Turn{Morning: morning.Trace.Standing(), Evening: evening.Trace.Standing()}
	was, is := open(morning), open(evening)
	for _, say := range is {
		if !slices.Contains(was, say) {
			out.Found = append(out.Found, say)
		}
	}
	for _, say := range was {
		if !slices.Contains(is, say) {
			out.Gone = append(out.Gone, say)
		}
	}
	for _, p := range evening.Panels {
		out.stand(p.Thing, p.Standing())
	}
	for _, s := range evening.Sources {
		out.stand(s.Thing, s.Standing())
	}
	return out
}

func (t *Turn) stand(at observation.Thing, locks []observation.Event) {
	for _, e := range locks {
		t.Locks = append(t.Locks, Lock{at, e})
	}
}

// open lists what is odd and what clashes, each in one sentence: first what has
// to be found before anything is energized, then clashes, then the rest.
func open(a *site.AsFound) []string {
	var first, clashes, after []string
	for _, o := range a.Trace.Oddities {
		if urgent[o.Kind] {
			first = append(first, o.Say)
		} else {
			after = append(after, o.Say)
		}
	}
	for _, c := range a.Trace.Clashes {
		var at []string
		for _, l := range c.Lines {
			if name := a.Name(l.End.At); !slices.Contains(at, name) {
				at = append(at, name)
			}
		}
		clashes = append(clashes, "The readings at "+strings.Join(at, ", ")+" cannot all be right")
	}
	slices.Sort(clashes)
	return slices.Concat(first, slices.Compact(clashes), after)
}

// urgent are the oddities that can hurt somebody when power comes on.
var urgent = map[trace.OddityKind]bool{trace.HotClosed: true, trace.AlwaysLive: true, trace.CrossLegJoin: true, trace.JoinedCircuits: true,
	trace.BarFault: true, trace.OutsideFeed: true, trace.ForeignFeed: true}

// Lines is how many lines there are.
func Lines(standing map[evidence.Standing]int) int {
	n := 0
	for _, count := range standing {
		n += count
	}
	return n
}
