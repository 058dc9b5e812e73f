package installation

import (
	"testing"

	"pgregory.net/rapid"

	"asfound/observation"
)

// supplied is a job of one device with a utility, a panel A1 on it, and a panel A2
// fed from A1's spaces 1 and 3.
type supplied struct {
	events          []observation.Event
	utility, a1, a2 observation.Thing
}

func newPower() *supplied {
	p := &supplied{}
	house := p.record("", observation.Building{Name: "A"}).Thing()
	p.utility = p.record("", observation.Source{Name: "utility", Of: observation.Utility}).Thing()
	p.a1 = p.record("", observation.Panel{Building: house, Name: "A1", Spaces: 12}).Thing()
	p.a2 = p.record("", observation.Panel{Building: house, Name: "A2", Spaces: 12}).Thing()
	p.record(p.a1, observation.Space{Number: 1, Poles: 2, Lands: observation.LandsFeeder})
	p.record("", observation.Feeder{From: p.utility, To: p.a1, How: observation.BasisTested})
	p.record("", observation.Feeder{From: p.a1, Space: 1, To: p.a2, How: observation.BasisTested})
	return p
}

func (p *supplied) record(at observation.Thing, b observation.Body) observation.ID {
	n := uint64(len(p.events) + 1)
	id := observation.ID{Device: "k", Seq: n}
	p.events = append(p.events, observation.Event{ID: id, HLC: n, Kind: b.Kind(),
		Observation: observation.Observation{Who: "Marit Sandvei", Subject: at, Body: b}})
	return id
}

func (p *supplied) dead(at observation.Thing) bool {
	in := fold(p.events)
	_, dead := in.DeadSince(in.Panel(at))
	return dead
}

var holds = observation.ProvenDead{Before: observation.Yes, Absent: observation.Yes, After: observation.Yes}

// The test is void after anything that may have brought power back; NFPA 70E
// 120.5 wants the state verified again then (from memory).
func TestWhatVoidsTheTest(t *testing.T) {
	for name, c := range map[string]struct {
		after func(*supplied)
		dead  bool
	}{
		"nothing":                        {func(*supplied) {}, true},
		"power put on the panel":         {func(p *supplied) { p.record(p.a2, observation.Energized{}) }, false},
		"power put on one of its spaces": {func(p *supplied) { p.record(p.a2, observation.Energized{Spaces: []int{4}}) }, false},
		"power put on what feeds it":     {func(p *supplied) { p.record(p.a1, observation.Energized{}) }, false},
		"the feeder's breaker closed":    {func(p *supplied) { p.record(p.a1, observation.Energized{Spaces: []int{1}}) }, false},
		"its lower half named":           {func(p *supplied) { p.record(p.a1, observation.Energized{Spaces: []int{3}}) }, false},
		"another breaker closed":         {func(p *supplied) { p.record(p.a1, observation.Energized{Spaces: []int{2}}) }, true},
		"the utility connected":          {func(p *supplied) { p.record(p.utility, observation.Energized{}) }, false},
		"a test that does not hold": {func(p *supplied) {
			p.record(p.a2, observation.ProvenDead{Before: observation.Yes, Absent: observation.No})
		}, false},
		"the lock taken off": {func(p *supplied) {
			p.record(p.a2, observation.Released{Locks: []observation.ID{p.events[7].ID}})
		}, false},
		"tested again after power": {func(p *supplied) { p.record(p.a1, observation.Energized{}); p.record(p.a2, holds) }, true},
		"only some spaces tested again": {func(p *supplied) {
			p.record(p.a1, observation.Energized{})
			part := holds
			part.Spaces = []int{2}
			p.record(p.a2, part)
		}, false},
	} {
		t.Run(name, func(t *testing.T) {
			p := newPower()
			p.record(p.a2, observation.LockOut{Device: "lock 4"})
			p.record(p.a2, holds)
			c.after(p)
			if got := p.dead(p.a2); got != c.dead {
				t.Errorf("dead is %v, want %v", got, c.dead)
			}
			in := fold(p.events)
			if by := in.VoidedBy(in.Panel(p.a2)); (by == nil) != c.dead {
				t.Errorf("voided by %v, though dead is %v", by, c.dead)
			}
		})
	}
}

// Marks may lie: a feeder known from a label alone may begin at any space.
func TestALabelledFeederBeginsAnywhere(t *testing.T) {
	p := newPower()
	for i, e := range p.events {
		if f, ok := e.Body.(observation.Feeder); ok && f.To == p.a2 {
			f.How = observation.BasisLabel
			p.events[i].Body = f
		}
	}
	p.record(p.a2, holds)
	p.record(p.a1, observation.Energized{Spaces: []int{2}})
	if p.dead(p.a2) {
		t.Error("A2 counts as dead, though only a label says that space 2 does not feed it")
	}
}

// What feeds a panel that nobody knows may be anything that was put on.
func TestAnUnfedPanelIsReachedByAll(t *testing.T) {
	for name, unfed := range map[string]func(p *supplied, house, b1 observation.Thing){
		"no feeder":              func(*supplied, observation.Thing, observation.Thing) {},
		"from a place not known": func(p *supplied, _, b1 observation.Thing) { p.record("", observation.Feeder{To: b1}) },
		"from a panel without one": func(p *supplied, house, b1 observation.Thing) {
			b2 := p.record("", observation.Panel{Building: house, Name: "B2", Spaces: 12}).Thing()
			p.record("", observation.Feeder{From: b2, To: b1, How: observation.BasisTested})
		},
	} {
		t.Run(name, func(t *testing.T) {
			p := newPower()
			house := p.events[0].ID.Thing()
			b1 := p.record("", observation.Panel{Building: house, Name: "B1", Spaces: 12}).Thing()
			unfed(p, house, b1)
			p.record(b1, holds)
			if !p.dead(b1) {
				t.Fatal("not dead before anything was put on")
			}
			p.record(p.utility, observation.Energized{})
			if p.dead(b1) {
				t.Error("B1 counts as dead, though nobody knows what feeds it and the utility was put on")
			}
			in := fold(p.events)
			if e := in.Energizing(p.utility, nil); len(e.Unfed) == 0 {
				t.Error("the effect does not name the panels of which it is not known what feeds them")
			}
		})
	}
}

// NFPA 70E 120.5: the test comes after the lock (from memory).
func TestATestBeforeTheLockHoldsNothing(t *testing.T) {
	p := newPower()
	held := func() bool { in := fold(p.events); return in.Held(in.Panel(p.a2)) }
	p.record(p.a2, holds)
	p.record(p.a2, observation.LockOut{Device: "lock 4"})
	if held() {
		t.Error("held, though the lock came after the test")
	}
	p.record(p.a2, holds)
	if !held() {
		t.Error("not held, though tested after the lock")
	}
}

// A lock that is not on record any more may have been on the whole supply.
func TestAReleaseOfAWithdrawnLockIsOfTheWhole(t *testing.T) {
	p := newPower()
	whole := p.record(p.a1, observation.LockOut{Device: "lock 4"})
	part := p.record(p.a1, observation.LockOut{Device: "lock 5", Spaces: []int{2}})
	p.record(p.a2, holds)
	p.record(p.a1, observation.Released{Locks: []observation.ID{whole, part}})
	p.record("", observation.Withdrawal{Reason: "typed twice"})
	p.events[len(p.events)-1].Seen = []observation.ID{whole}
	if p.dead(p.a2) {
		t.Error("A2 counts as dead after a lock upstream was taken off")
	}
}

// A power put on that is not known to come before the test voids it.
func TestUncertainOrderVoids(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := newPower()
		p.record(p.a2, holds)
		e := observation.Event{ID: observation.ID{Device: "other", Seq: 1}, HLC: rapid.Uint64Range(0, 100).Draw(t, "clock"), Kind: "energized.1",
			Observation: observation.Observation{Who: "Dell Amoah", Subject: rapid.SampledFrom([]observation.Thing{p.utility, p.a1, p.a2}).Draw(t, "at"), Body: observation.Energized{}}}
		p.events = append(p.events, e)
		if p.dead(p.a2) {
			t.Fatal("dead, though power may have come after the test")
		}
		p.record(p.a2, holds)
		last := &p.events[len(p.events)-1]
		last.After = []observation.ID{e.ID}
		if !p.dead(p.a2) {
			t.Fatal("not dead, though the last test is known to follow")
		}
	})
}

func TestLocksStandUntilReleased(t *testing.T) {
	p := newPower()
	whole := p.record(p.a2, observation.LockOut{Device: "lock 4"})
	one := p.record(p.a2, observation.LockOut{Device: "lock 5", Spaces: []int{2}})
	locks := func() (int, bool) {
		in := fold(p.events)
		return len(in.Panel(p.a2).Standing()), in.Panel(p.a2).Locked()
	}
	if n, locked := locks(); n != 2 || !locked {
		t.Fatalf("%d locks stand, locked %v, want 2 and true", n, locked)
	}
	p.record(p.a2, observation.Released{Locks: []observation.ID{whole}})
	if n, locked := locks(); n != 1 || locked {
		t.Errorf("%d locks stand, locked %v, want the one on space 2 only", n, locked)
	}
	in := fold(p.events)
	off := observation.Observation{Who: "Marit Sandvei", Subject: p.a1, Body: observation.Released{Locks: []observation.ID{one}}}
	if err := in.Admit(off); err == nil {
		t.Error("a lock of A2 was taken off at A1")
	}
}

func TestDownstream(t *testing.T) {
	p := newPower()
	in := fold(p.events)
	var got []string
	for _, f := range in.Downstream(p.utility) {
		got = append(got, in.Name(f.To))
	}
	if len(got) != 2 || got[0] != "A1" || got[1] != "A2" {
		t.Errorf("downstream of the utility: %v, want A1, A2", got)
	}
	// A ring of feeders, as a mistake would record it, ends.
	p.record("", observation.Feeder{From: p.a2, To: p.a1})
	in = fold(p.events)
	if n := len(in.Upstream(p.a1)); n != 3 {
		t.Errorf("%d feeders upstream of A1 in a ring, want 3", n)
	}
}
