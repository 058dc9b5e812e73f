package installation

import (
	"slices"

	"asfound/observation"
)

// Safety is what was recorded of the power at a panel or source: locks put on
// and taken off, tests for the absence of voltage, power put on, people told.
type Safety struct {
	LockOuts  []observation.Event // put on, oldest first, released ones included
	Releases  []observation.Event
	Dead      []observation.Event // absence-of-voltage tests, whatever they showed
	Energized []observation.Event
	Told      []observation.Event
}

func safety(live []observation.Event) Safety {
	return Safety{LockOuts: of[observation.LockOut](live), Releases: of[observation.Released](live), Dead: of[observation.ProvenDead](live),
		Energized: of[observation.Energized](live), Told: of[observation.Told](live)}
}

// Release returns the event that took a lock off, or nil while it stands.
func (s *Safety) Release(lock observation.ID) *observation.Event {
	for i, e := range s.Releases {
		if slices.Contains(e.Body.(observation.Released).Locks, lock) {
			return &s.Releases[i]
		}
	}
	return nil
}

// Standing lists the locks that are on record as put on and not as taken off.
func (s *Safety) Standing() []observation.Event {
	var out []observation.Event
	for _, e := range s.LockOuts {
		if s.Release(e.ID) == nil {
			out = append(out, e)
		}
	}
	return out
}

// Locked reports whether a lock on the whole supply stands.
func (s *Safety) Locked() bool {
	return slices.ContainsFunc(s.Standing(), func(e observation.Event) bool {
		return len(e.Body.(observation.LockOut).Spaces) == 0
	})
}

// SafetyOf returns what was recorded of the power at a panel or source, or nil.
func (in *Installation) SafetyOf(t observation.Thing) *Safety {
	switch x := in.things[t].(type) {
	case *Panel:
		return &x.Safety
	case *Source:
		return &x.Safety
	}
	return nil
}

// DeadSince returns the test that shows a panel dead: an absence-of-voltage test
// of the whole panel that holds and that nothing voids.
func (in *Installation) DeadSince(p *Panel) (observation.Event, bool) {
	against := in.against(p)
	for _, e := range slices.Backward(p.Dead) {
		if showsDead(e) && voids(against, e) == nil {
			return e, true
		}
	}
	return observation.Event{}, false
}

// Held reports whether a panel is on record as locked out and proven dead: a lock
// on its whole supply stands, and the test that counts is known to come after it.
func (in *Installation) Held(p *Panel) bool {
	test, dead := in.DeadSince(p)
	return dead && slices.ContainsFunc(p.Standing(), func(lock observation.Event) bool {
		return len(lock.Body.(observation.LockOut).Spaces) == 0 && test.Follows(lock)
	})
}

// VoidedBy returns what came after the latest absence-of-voltage test of a panel
// that holds, or may have, so that the test counts no more; nil when some test
// counts or there is none.
func (in *Installation) VoidedBy(p *Panel) *observation.Event {
	if _, dead := in.DeadSince(p); dead {
		return nil
	}
	for _, test := range slices.Backward(p.Dead) {
		if by := in.Voids(p, test); showsDead(test) && by != nil {
			return by
		}
	}
	return nil
}

// Voids returns the latest event that came after an absence-of-voltage test of a
// panel, or may have, and speaks against it; nil while nothing does. It does
// not ask whether the test held.
func (in *Installation) Voids(p *Panel, test observation.Event) *observation.Event {
	return voids(in.against(p), test)
}

func voids(against []observation.Event, test observation.Event) *observation.Event {
	for _, e := range slices.Backward(against) {
		if e.ID != test.ID && !test.Follows(e) {
			return &e
		}
	}
	return nil
}

// showsDead reports whether an absence-of-voltage test holds for a whole panel.
func showsDead(test observation.Event) bool {
	d := test.Body.(observation.ProvenDead)
	return d.Holds() && len(d.Spaces) == 0
}

// against lists what speaks against a panel being dead, in the order of clocks:
// tests that do not hold, locks taken off and power put on, here or where power
// can come from.
func (in *Installation) against(p *Panel) []observation.Event {
	out := slices.Concat(p.Releases, in.energizing(p))
	for _, e := range p.Dead {
		if !e.Body.(observation.ProvenDead).Holds() {
			out = append(out, e)
		}
	}
	in.eachSupply(func(at observation.Thing, s *Safety) {
		for _, e := range s.Releases {
			if at != p.Thing && in.reaches(p, at, s.spacesOf(e.Body.(observation.Released).Locks)) {
				out = append(out, e)
			}
		}
	})
	slices.SortFunc(out, byClock)
	return out
}

// spacesOf lists the spaces that locks were on; none is the whole.
func (s *Safety) spacesOf(locks []observation.ID) []int {
	var out []int
	found := 0
	for _, e := range s.LockOuts {
		if !slices.Contains(locks, e.ID) {
			continue
		}
		found++
		spaces := e.Body.(observation.LockOut).Spaces
		if len(spaces) == 0 {
			return nil
		}
		out = append(out, spaces...)
	}
	if found < len(locks) {
		return nil // a lock that is not on record any more may have been on the whole
	}
	return out
}

// takes reports whether power on these spaces where the feeder begins reaches it:
// it does unless other spaces are named than the feeder's, and both its ends were
// tested. Marks may lie.
func (f *Feeder) takes(spaces []int, in *Installation) bool {
	if len(spaces) == 0 || f.Space == 0 || f.How != observation.BasisTested {
		return true
	}
	return slices.ContainsFunc(spaces, func(s int) bool {
		p := in.Panel(f.From)
		return s == f.Space || p != nil && (p.UpperHalf(s) == f.Space || p.UpperHalf(f.Space) == s)
	})
}

// Upstream lists the feeders on record through which power can reach a panel,
// the nearest first, however they are known.
func (in *Installation) Upstream(panel observation.Thing) []*Feeder {
	var out []*Feeder
	reached := []observation.Thing{panel}
	for i := 0; i < len(reached); i++ {
		for _, f := range in.Feeders {
			if f.To != reached[i] {
				continue
			}
			out = append(out, f)
			if f.From != "" && !slices.Contains(reached, f.From) {
				reached = append(reached, f.From)
			}
		}
	}
	return out
}

// Downstream lists the feeders on record that carry power on from a panel or
// source, the nearest first.
func (in *Installation) Downstream(from observation.Thing) []*Feeder {
	var out []*Feeder
	reached := []observation.Thing{from}
	for i := 0; i < len(reached); i++ {
		for _, f := range in.Feeders {
			if f.From != reached[i] {
				continue
			}
			out = append(out, f)
			if !slices.Contains(reached, f.To) {
				reached = append(reached, f.To)
			}
		}
	}
	return out
}
