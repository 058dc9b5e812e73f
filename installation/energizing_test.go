package installation

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"asfound/observation"
)

// A generator on A2 can feed back into A1 through the feeder between them.
func TestBackfeeds(t *testing.T) {
	p := newPower()
	generator := p.record("", observation.Source{Name: "generator", Of: observation.Generator}).Thing()
	if in := fold(p.events); len(in.Backfeeds(p.a1)) != 0 {
		t.Error("A1 is fed back before the generator has a feeder")
	}
	p.record("", observation.Feeder{From: generator, To: p.a2})
	in := fold(p.events)
	back := in.Backfeeds(p.a1)
	if len(back) != 1 || back[0].From != generator {
		t.Fatalf("A1 is fed back by %d feeders, want the generator's", len(back))
	}
	if len(in.Backfeeds(p.a2)) != 0 {
		t.Error("A2 feeds nothing, and is fed back")
	}
	house := in.Buildings[0].Thing
	a3 := p.record("", observation.Panel{Building: house, Name: "A3", Spaces: 12}).Thing()
	p.record("", observation.Feeder{From: p.a1, Space: 5, To: a3})
	p.record(a3, holds)
	if back := fold(p.events).Backfeeds(a3); len(back) != 1 || back[0].From != generator {
		t.Errorf("A3 is fed back by %d feeders, want the generator's through A2 and A1", len(back))
	}
	p.record(p.a1, holds)
	p.record(generator, observation.Energized{})
	if p.dead(p.a1) || p.dead(a3) {
		t.Error("dead, though the generator was started behind A2")
	}
}

// A source of which nobody knows what it feeds may feed everything; resistors on
// cable ends of a pairing tour may be anywhere too.
func TestSourceThatLeadsNowhereOnRecord(t *testing.T) {
	p := newPower()
	generator := p.record("", observation.Source{Name: "generator", Of: observation.Generator}).Thing()
	p.record(p.a2, holds)
	tour := p.record("", observation.Tour{Name: "pairing", Means: observation.ByPairing})
	p.record("", observation.Resistor{On: observation.Point{At: "k-99", Cable: "1", Wire: observation.Hot}, Ohm: 1000})
	p.events[len(p.events)-1].Under = []observation.ID{tour}
	if e := fold(p.events).Energizing(generator, nil); !e.Unled || len(e.Reached) != 2 || len(e.Voided) != 1 || len(e.Tours) != 1 {
		t.Errorf("%+v", e)
	}
	p.record(generator, observation.Energized{})
	if p.dead(p.a2) {
		t.Error("dead, though a generator runs that may feed it")
	}
}

// What was locked upstream and is released no longer holds the panel.
func TestReleaseUpstreamVoids(t *testing.T) {
	for name, c := range map[string]struct {
		spaces []int
		dead   bool
	}{"the whole": {nil, false}, "the feeder's breaker": {[]int{1}, false}, "another breaker": {[]int{2}, true}} {
		p := newPower()
		lock := p.record(p.a1, observation.LockOut{Device: "lock 1", Spaces: c.spaces})
		p.record(p.a2, holds)
		p.record(p.a1, observation.Released{Locks: []observation.ID{lock}})
		if p.dead(p.a2) != c.dead {
			t.Errorf("%s released at A1: A2 dead is %v, want %v", name, !c.dead, c.dead)
		}
	}
}

func TestEnergizing(t *testing.T) {
	p := newPower()
	lock := p.record(p.a2, observation.LockOut{Device: "lock 4"})
	p.record(p.a2, observation.LockOut{Device: "lock 5", Spaces: []int{2}})
	p.record(p.a2, holds)
	tour := p.record("", observation.Tour{Name: "Tour 1", Means: observation.ByResistor, Panels: []observation.Thing{p.a2}})
	put := func(under ...observation.ID) {
		p.record("", observation.Resistor{On: observation.Point{At: p.a2, Space: 2, Wire: observation.Hot}, Ohm: 1000})
		p.events[len(p.events)-1].Under = under
	}
	put(tour)
	for name, c := range map[string]struct {
		at                           observation.Thing
		spaces                       []int
		reached, voided, tours, lock int
	}{
		"the utility":        {p.utility, nil, 2, 1, 1, 1},
		"all of A1":          {p.a1, nil, 2, 1, 1, 1},
		"the feeder's space": {p.a1, []int{3}, 2, 1, 1, 1},
		"another space":      {p.a1, []int{5}, 1, 0, 0, 0},
		"all of A2":          {p.a2, nil, 1, 1, 1, 1},
		"a locked space":     {p.a2, []int{2}, 1, 1, 1, 2},
	} {
		e := fold(p.events).Energizing(c.at, c.spaces)
		if len(e.Reached) != c.reached || len(e.Voided) != c.voided || len(e.Tours) != c.tours || len(e.Locks) != c.lock {
			t.Errorf("%s: %d reached, %d voided, %d tours, %d locks, want %+v", name, len(e.Reached), len(e.Voided), len(e.Tours), len(e.Locks), c)
		}
	}
	p.record("", observation.Removed{})
	p.events[len(p.events)-1].Under = []observation.ID{tour}
	p.record(p.a2, observation.Released{Locks: []observation.ID{lock}})
	if e := fold(p.events).Energizing(p.a1, nil); e.Stops() {
		t.Errorf("%d tours and %d locks stop it after all is off", len(e.Tours), len(e.Locks))
	}
}

// anyPower draws what may be recorded of the power by two devices.
func anyPower(t *rapid.T) (events []observation.Event, panels []observation.Thing) {
	p := newPower()
	gen := p.record("", observation.Source{Name: "generator", Of: observation.Generator}).Thing()
	all := []observation.Thing{p.utility, gen, p.a1, p.a2}
	seq := map[string]uint64{"k": uint64(len(p.events))}
	var locks []observation.ID
	for range rapid.IntRange(1, 12).Draw(t, "acts") {
		at := rapid.SampledFrom(all).Draw(t, "at")
		panel := rapid.SampledFrom(all[2:]).Draw(t, "panel")
		var b observation.Body
		switch rapid.IntRange(0, 5).Draw(t, "act") {
		case 0:
			b = observation.Energized{}
		case 1:
			at, b = panel, observation.Energized{Spaces: []int{rapid.IntRange(1, 4).Draw(t, "space")}}
		case 2, 3:
			at, b = panel, holds
		case 4:
			b = observation.LockOut{Device: "lock"}
		case 5:
			b = observation.Released{Locks: slices.Clone(locks)}
		}
		dev := rapid.SampledFrom([]string{"k", "o"}).Draw(t, "device")
		seq[dev]++
		e := observation.Event{ID: observation.ID{Device: dev, Seq: seq[dev]}, HLC: uint64(100 + len(p.events)), Kind: b.Kind(),
			Observation: observation.Observation{Who: dev, Subject: at, Body: b}}
		if rapid.Bool().Draw(t, "met") {
			for d, n := range seq {
				if d != dev {
					e.After = append(e.After, observation.ID{Device: d, Seq: n})
				}
			}
		}
		if _, lock := b.(observation.LockOut); lock {
			locks = append(locks, e.ID)
		}
		p.events = append(p.events, e)
	}
	if rapid.Bool().Draw(t, "ring") {
		p.record("", observation.Feeder{From: gen, To: p.a2})
		p.events[len(p.events)-1].ID = observation.ID{Device: "z", Seq: 1}
	}
	return p.events, all[2:]
}

// Whatever arrives of power put on or locks taken off, in any order, no panel
// becomes dead by it; the order of arrival does not matter.
func TestPowerNeverMakesDead(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		events, panels := anyPower(t)
		var without []observation.Event
		left := rapid.IntRange(0, len(events)-1).Draw(t, "left out")
		for i, e := range events {
			switch e.Body.(type) {
			case observation.Energized, observation.Released:
				if i >= left {
					continue
				}
			}
			without = append(without, e)
		}
		with, before := fold(rapid.Permutation(events).Draw(t, "arrival")), fold(without)
		again := fold(events)
		for _, thing := range panels {
			_, dead := with.DeadSince(with.Panel(thing))
			_, was := before.DeadSince(before.Panel(thing))
			_, same := again.DeadSince(again.Panel(thing))
			if dead && !was || dead != same {
				t.Fatalf("%s: dead is %v, without what came %v, in another order %v", with.Name(thing), dead, was, same)
			}
			if e := with.Energizing(thing, nil); len(e.Reached) == 0 {
				t.Fatalf("power on %s reaches nothing", with.Name(thing))
			}
		}
	})
}

// What a record of power put on voids is what the page said before it.
func TestEnergizingVoidsWhatItSays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		events, panels := anyPower(t)
		at := rapid.SampledFrom(panels).Draw(t, "energized")
		var spaces []int
		if s := rapid.IntRange(0, 4).Draw(t, "space"); s > 0 {
			spaces = []int{s}
		}
		before := fold(events)
		effect := before.Energizing(at, spaces)
		e := observation.Event{ID: observation.ID{Device: "new", Seq: 1}, HLC: 1000, Kind: "energized.1",
			Observation: observation.Observation{Who: "Dell Amoah", Subject: at, Body: observation.Energized{Spaces: spaces}}}
		after := fold(append(slices.Clone(events), e))
		for _, p := range before.Panels {
			_, was := before.DeadSince(p)
			_, dead := after.DeadSince(after.Panel(p.Thing))
			said := slices.ContainsFunc(effect.Voided, func(v Tested) bool { return v.Panel.Thing == p.Thing })
			if (was && !dead) != said {
				t.Fatalf("%s: was dead %v, is dead %v, said to be voided %v", p.Name, was, dead, said)
			}
		}
	})
}
