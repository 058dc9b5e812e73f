package installation

import (
	"testing"

	"pgregory.net/rapid"

	"asfound/observation"
)

// power is a job of one device with a utility, a panel A1 on it, and a panel A2
// fed from A1's spaces 1 and 3.
type power struct {
	events          []observation.Event
	utility, a1, a2 observation.Thing
}

func newPower() *power {
	p := &power{}
	house := p.record("", observation.Building{Name: "A"}).Thing()
	p.utility = p.record("", observation.Source{Name: "utility", Of: observation.Utility}).Thing()
	p.a1 = p.record("", observation.Panel{Building: house, Name: "A1", Spaces: 12}).Thing()
	p.a2 = p.record("", observation.Panel{Building: house, Name: "A2", Spaces: 12}).Thing()
	p.record(p.a1, observation.Space{Number: 1, Poles: 2, Lands: observation.LandsFeeder})
	p.record("", observation.Feeder{From: p.utility, To: p.a1, How: observation.BasisTested})
	p.record("", observation.Feeder{From: p.a1, Space: 1, To: p.a2, How: observation.BasisLabel})
	return p
}

func (p *power) record(at observation.Thing, b observation.Body) observation.ID {
	n := uint64(len(p.events) + 1)
	id := observation.ID{Device: "k", Seq: n}
	p.events = append(p.events, observation.Event{ID: id, HLC: n, Kind: b.Kind(),
		Observation: observation.Observation{Who: "Marit Sandvei", Subject: at, Body: b}})
	return id
}

func (p *power) dead(at observation.Thing) bool {
	in := fold(p.events)
	_, dead := in.DeadSince(in.Panel(at))
	return dead
}

var holds = observation.ProvenDead{Before: observation.Yes, Absent: observation.Yes, After: observation.Yes}

// The test is void after anything that may have brought power back; NFPA 70E
// 120.5 wants the state verified again then (from memory).
func TestWhatVoidsTheTest(t *testing.T) {
	for name, c := range map[string]struct {
		after func(*power)
		dead  bool
	}{
		"nothing":                        {func(*power) {}, true},
		"power put on the panel":         {func(p *power) { p.record(p.a2, observation.Energized{}) }, false},
		"power put on one of its spaces": {func(p *power) { p.record(p.a2, observation.Energized{Spaces: []int{4}}) }, false},
		"power put on what feeds it":     {func(p *power) { p.record(p.a1, observation.Energized{}) }, false},
		"the feeder's breaker closed":    {func(p *power) { p.record(p.a1, observation.Energized{Spaces: []int{1}}) }, false},
		"its lower half named":           {func(p *power) { p.record(p.a1, observation.Energized{Spaces: []int{3}}) }, false},
		"another breaker closed":         {func(p *power) { p.record(p.a1, observation.Energized{Spaces: []int{2}}) }, true},
		"the utility connected":          {func(p *power) { p.record(p.utility, observation.Energized{}) }, false},
		"a test that does not hold": {func(p *power) {
			p.record(p.a2, observation.ProvenDead{Before: observation.Yes, Absent: observation.No})
		}, false},
		"the lock taken off": {func(p *power) {
			p.record(p.a2, observation.Released{Locks: []observation.ID{p.events[7].ID}})
		}, false},
		"tested again after power": {func(p *power) { p.record(p.a1, observation.Energized{}); p.record(p.a2, holds) }, true},
		"only some spaces tested again": {func(p *power) {
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
