package installation

import (
	"slices"
	"strconv"
	"strings"
	"sync"

	"asfound/observation"
)

// eachSupply goes through the panels and sources with what was recorded of the
// power there, in the order of their lists.
func (in *Installation) eachSupply(do func(at observation.Thing, s *Safety)) {
	for _, p := range in.Panels {
		do(p.Thing, &p.Safety)
	}
	for _, s := range in.Sources {
		do(s.Thing, &s.Safety)
	}
}

// energizing lists the events by which power was put on where it can reach a
// panel, the panel itself included.
func (in *Installation) energizing(p *Panel) []observation.Event {
	var out []observation.Event
	in.eachSupply(func(at observation.Thing, s *Safety) {
		for _, e := range s.Energized {
			if at == p.Thing || in.reaches(p, at, e.Body.(observation.Energized).Spaces) {
				out = append(out, e)
			}
		}
	})
	return out
}

// reaches reports whether power on these spaces of another panel, or of a
// source, can come to a panel by the feeders on record: down to it, or back
// through what it feeds. A source of which nobody knows what it feeds may reach
// every panel, and every source and panel may reach one of which nobody knows
// what feeds it.
func (in *Installation) reaches(p *Panel, at observation.Thing, spaces []int) bool {
	if in.Unled(at) || in.unfedUpTo(p.Thing, at) {
		return true
	}
	back := in.Backfeeds(p.Thing)
	for _, f := range slices.Concat(in.Upstream(p.Thing), back) {
		if f.From == at && f.takes(spaces, in) {
			return true
		}
	}
	return len(spaces) == 0 && slices.ContainsFunc(back, func(f *Feeder) bool { return f.To == at })
}

// Unled reports whether a thing is a source with no feeder on record that begins
// at it.
func (in *Installation) Unled(t observation.Thing) bool {
	return in.Source(t) != nil && !slices.ContainsFunc(in.Feeders, func(f *Feeder) bool { return f.From == t })
}

// Unfed reports whether it is not known what feeds a panel, or a panel upstream of
// it.
func (in *Installation) Unfed(panel observation.Thing) bool { return in.unfedUpTo(panel, "") }

// unfedUpTo is Unfed without what is further upstream than at: power put on there
// comes down from there.
func (in *Installation) unfedUpTo(panel, at observation.Thing) bool {
	seen := []observation.Thing{panel}
	for i := 0; i < len(seen); i++ {
		if seen[i] == at || in.Panel(seen[i]) == nil {
			continue
		}
		fed := false
		for _, f := range in.Feeders {
			if f.To != seen[i] {
				continue
			}
			if f.From == "" {
				return true
			}
			fed = true
			if !slices.Contains(seen, f.From) {
				seen = append(seen, f.From)
			}
		}
		if !fed {
			return true
		}
	}
	return false
}

// Backfeeds lists the feeders on record by which power can come back into a
// panel: what else comes to the panels that it feeds, or that are fed from what
// feeds it, and what feeds that. What is upstream of it is not among them.
func (in *Installation) Backfeeds(panel observation.Thing) []*Feeder {
	up := in.Upstream(panel)
	out := in.comesBack(panel)
	for _, f := range up {
		if in.Panel(f.From) != nil {
			out = append(out, in.comesBack(f.From)...)
		}
	}
	var once []*Feeder
	for _, f := range out {
		if !slices.Contains(once, f) && !slices.Contains(up, f) {
			once = append(once, f)
		}
	}
	return once
}

// comesBack lists the feeders that come to what a panel feeds from elsewhere,
// and what feeds those.
func (in *Installation) comesBack(panel observation.Thing) []*Feeder {
	below := []observation.Thing{panel}
	for _, f := range in.Downstream(panel) {
		below = append(below, f.To)
	}
	var out []*Feeder
	for _, f := range in.Feeders {
		if f.To != panel && slices.Contains(below, f.To) && !slices.Contains(below, f.From) {
			out = append(out, f)
		}
	}
	for _, f := range slices.Clone(out) {
		if f.From != "" {
			out = append(out, in.Upstream(f.From)...)
		}
	}
	return out
}

// Effect is what putting power on would do, or has done.
type Effect struct {
	Reached []*Panel // by the feeders on record, the panel itself included
	Unled   bool     // what it feeds is not on record: it may reach every panel
	Unfed   []*Panel // those of Reached of which it is not known what feeds them
	Voided  []Tested // tests that would count no more
	Tours   []*Tour  // standing, with resistors put on at a panel that is reached or at cable ends
	Locks   []Locked // standing on the supply of a panel that is reached, or on the spaces named
}

// Tested is an absence-of-voltage test of a panel, with what became of it.
type Tested struct {
	Panel *Panel
	Test  observation.Event
	By    *observation.Event // what came after it, or may have, and speaks against it
}

// Counts reports whether the test shows the panel dead.
func (t Tested) Counts() bool { return t.By == nil && showsDead(t.Test) }

// Tests lists the absence-of-voltage tests of a panel, oldest first.
func (in *Installation) Tests(p *Panel) []Tested {
	var out []Tested
	against := in.against(p)
	for _, e := range p.Dead {
		out = append(out, Tested{p, e, voids(against, e)})
	}
	return out
}

// Locked is a lock at a panel or source.
type Locked struct {
	At   observation.Thing
	Lock observation.Event
}

// Stops reports whether somebody is on record as working where the power would
// come: resistors are on, or a lock stands.
func (e Effect) Stops() bool { return len(e.Tours) > 0 || len(e.Locks) > 0 }

// Energizing works out what power on these spaces of a panel or source would do;
// no spaces are the whole.
func (in *Installation) Energizing(at observation.Thing, spaces []int) Effect {
	out := Effect{Unled: in.Unled(at)}
	for _, p := range in.Panels {
		if p.Thing != at && !in.reaches(p, at, spaces) {
			continue
		}
		out.Reached = append(out.Reached, p)
		if in.unfedUpTo(p.Thing, at) {
			out.Unfed = append(out.Unfed, p)
		}
		if test, dead := in.DeadSince(p); dead {
			out.Voided = append(out.Voided, Tested{Panel: p, Test: test})
		}
		for _, lock := range p.Standing() {
			if p.Thing == at && holdsOff(lock, spaces) || p.Thing != at && holdsOff(lock, nil) {
				out.Locks = append(out.Locks, Locked{p.Thing, lock})
			}
		}
	}
	if s := in.Source(at); s != nil {
		for _, lock := range s.Standing() {
			out.Locks = append(out.Locks, Locked{at, lock})
		}
	}
	for _, t := range in.Tours {
		if !t.Removed && len(t.Resistors) > 0 && slices.ContainsFunc(out.Reached, t.at) {
			out.Tours = append(out.Tours, t)
		}
	}
	return out
}

// holdsOff reports whether a lock stands in the way of power on these spaces: a
// lock on the whole supply always, one on some spaces when one of them is named.
func holdsOff(lock observation.Event, spaces []int) bool {
	locked := lock.Body.(observation.LockOut).Spaces
	return len(locked) == 0 || slices.ContainsFunc(spaces, func(s int) bool { return slices.Contains(locked, s) })
}

// at reports whether a tour has to do with a panel: it was opened for it, or has
// a resistor on it. The cable ends of a tour without panels may be on any.
func (t *Tour) at(p *Panel) bool {
	return len(t.Panels) == 0 || slices.Contains(t.Panels, p.Thing) || slices.ContainsFunc(t.Resistors, func(e observation.Event) bool {
		return e.Body.(observation.Resistor).On.At == p.Thing
	})
}

// Over reports whether an event does not count for a tour: it is known to come
// after the resistors were taken off, or it was taken under power.
func (in *Installation) Over(t *Tour, e observation.Event) bool {
	return slices.ContainsFunc(t.TakenOff, e.Follows) || in.Powered(t, e)
}

// Powered reports whether an event of a tour may have been taken with a panel of
// the tour no longer dead.
func (in *Installation) Powered(t *Tour, e observation.Event) bool {
	return slices.ContainsFunc(in.Panels, func(p *Panel) bool { return t.at(p) && in.PoweredAt(p, e) })
}

// PoweredAt reports whether an event may have been taken with a panel no longer
// dead: something speaks against that, such as power put on or a test that found
// voltage, is not known to come after the event, and no test that holds is known
// to come between. Before the first test nothing is asked: what was arranged then
// is for the caller.
func (in *Installation) PoweredAt(p *Panel, e observation.Event) bool {
	return slices.ContainsFunc(in.againstOnce(p), func(on observation.Event) bool {
		return on.ID != e.ID && !on.Follows(e) && !slices.ContainsFunc(p.Dead, func(test observation.Event) bool {
			return showsDead(test) && test.Follows(on) && e.Follows(test)
		})
	})
}

// againstOnce is against, worked out once for each panel.
func (in *Installation) againstOnce(p *Panel) []observation.Event {
	in.power.Lock()
	defer in.power.Unlock()
	out, ok := in.power.against[p]
	if !ok {
		if in.power.against == nil {
			in.power.against = map[*Panel][]observation.Event{}
		}
		out = in.against(p)
		in.power.against[p] = out
	}
	return out
}

// power is what speaks against each panel being dead, once asked for.
type power struct {
	sync.Mutex
	against map[*Panel][]observation.Event
}

// PowerMark names all that Powered rests on.
func (in *Installation) PowerMark() string {
	var out strings.Builder
	half := func(at observation.Thing, space int) {
		if p := in.Panel(at); p != nil {
			out.WriteString(strconv.Itoa(space) + "/" + strconv.Itoa(p.UpperHalf(space)) + " ")
		}
	}
	in.eachSupply(func(at observation.Thing, s *Safety) {
		for _, e := range slices.Concat(s.Energized, s.Dead, s.Releases, s.LockOuts) {
			out.WriteString(e.ID.String() + " ")
		}
		for _, e := range s.Energized {
			for _, space := range e.Body.(observation.Energized).Spaces {
				half(at, space)
			}
		}
	})
	for _, f := range in.Feeders {
		out.WriteString(string(f.From) + "/" + string(f.To) + "/" + string(f.How) + " ")
		half(f.From, f.Space)
	}
	return out.String()
}

// FromName says where a feeder comes from: "A1-1", "utility".
func (in *Installation) FromName(f observation.Feeder) string {
	if f.From == "" {
		return "a place not known"
	}
	if p := in.Panel(f.From); p != nil && f.Space > 0 {
		return SpaceName(p, f.Space)
	}
	return in.Name(f.From)
}
