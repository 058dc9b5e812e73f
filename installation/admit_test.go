package installation

import (
	"errors"
	"testing"

	"asfound/observation"
)

func TestDecisionsAreKeptWithTheirThing(t *testing.T) {
	f := NewFold()
	add := func(seq uint64, subject observation.Thing, b observation.Body, seen ...observation.ID) observation.ID {
		e := observation.Event{ID: observation.ID{Device: "k", Seq: seq}, HLC: seq, Kind: b.Kind(),
			Observation: observation.Observation{Who: "Marit Sandvei", Subject: subject, Seen: seen, Body: b}}
		f.Add(e)
		return e.ID
	}
	house := add(1, "", observation.Building{Name: "A"}).Thing()
	d := add(2, house, observation.Decision{About: "a line", Answer: "spare", Reason: "seen it cut"}, observation.ID{Device: "k", Seq: 1})
	in := f.Installation()
	if len(in.Decisions) != 1 || in.Building(house) == nil {
		t.Fatalf("decisions %d; a decision must not take the place of what it is about", len(in.Decisions))
	}
	add(3, "", observation.Withdrawal{Reason: "changed my mind"}, d)
	if in := f.Installation(); len(in.Decisions) != 0 {
		t.Error("a withdrawn decision still stands")
	}
}

func TestSpaceBeyondThePanelIsRefused(t *testing.T) {
	f := NewFold()
	f.Add(observation.Event{ID: observation.ID{Device: "k", Seq: 1}, HLC: 1, Kind: "building.1", Observation: observation.Observation{Who: "Marit Sandvei", Body: observation.Building{Name: "A"}}})
	f.Add(observation.Event{ID: observation.ID{Device: "k", Seq: 2}, HLC: 2, Kind: "panel.1", Observation: observation.Observation{Who: "Marit Sandvei", Body: observation.Panel{Building: "k-1", Name: "A1", Spaces: 30}}})
	in := f.Installation()
	for _, c := range []struct {
		name  string
		body  observation.Body
		field string
	}{
		{"space 33 of 30", observation.Space{Number: 33}, "space"},
		{"2-pole in space 29", observation.Space{Number: 29, Poles: 2}, "poles"},
		{"2-pole in space 30", observation.Space{Number: 30, Poles: 2}, "poles"},
		{"2-pole in space 28", observation.Space{Number: 28, Poles: 2}, ""},
		{"isolation of space 31", observation.Isolation{A: []int{31}, Against: observation.AgainstEGC}, "a"},
	} {
		err := in.Admit(observation.Observation{Who: "Marit Sandvei", Subject: "k-2", Body: c.body})
		var u observation.Unusable
		if got := errors.As(err, &u); got != (c.field != "") || u.Field != c.field {
			t.Errorf("%s: %v", c.name, err)
		}
	}
}

// Two breakers do not stand in one space: a 2-pole breaker takes its own and the
// next in the column. The earlier entry gives way when it is put right first,
// withdrawn, or replaced by the new one.
func TestBreakerInATakenSpaceIsRefused(t *testing.T) {
	space := func(n, poles int) observation.Space { return observation.Space{Number: n, Poles: poles} }
	for _, c := range []struct {
		name   string
		before []observation.Space
		gone   bool // the first entry is withdrawn
		seen   bool // the new entry replaces the first
		now    observation.Space
		say    string
	}{
		{name: "1-pole in the lower half", before: []observation.Space{space(5, 2)}, now: space(7, 1),
			say: "Space 7 belongs to the 2-pole breaker on record in space 5: check the number, or put space 5 right first."},
		{name: "2-pole over a 1-pole", before: []observation.Space{space(7, 1)}, now: space(5, 2),
			say: "A 2-pole breaker in space 5 takes space 7 too, where a 1-pole breaker is on record: check the number, or put space 7 right first."},
		{name: "1-pole in the lower half of the second of two", before: []observation.Space{space(5, 2), space(9, 2)}, now: space(11, 1),
			say: "Space 11 belongs to the 2-pole breaker on record in space 9: check the number, or put space 9 right first."},
		{name: "1-pole below a 2-pole", before: []observation.Space{space(5, 2)}, now: space(9, 1)},
		{name: "1-pole in the other column", before: []observation.Space{space(5, 2)}, now: space(6, 1)},
		{name: "lower half without poles", before: []observation.Space{space(5, 2)}, now: observation.Space{Number: 7, Lands: observation.LandsBranch}},
		{name: "lower half noted as 2-pole too", before: []observation.Space{space(5, 2)}, now: space(7, 2)},
		{name: "lower half noted as 2-pole, then the next", before: []observation.Space{space(5, 2), space(7, 2)}, now: space(9, 1)},
		{name: "the 2-pole itself put right", before: []observation.Space{space(5, 2)}, now: space(5, 1)},
		{name: "after the 2-pole was put right", before: []observation.Space{space(5, 2), space(5, 1)}, now: space(7, 1)},
		{name: "after the 2-pole was withdrawn", before: []observation.Space{space(5, 2)}, gone: true, now: space(7, 1)},
		{name: "in place of the 2-pole", before: []observation.Space{space(5, 2)}, seen: true, now: space(7, 1)},
	} {
		t.Run(c.name, func(t *testing.T) {
			f, seq := NewFold(), uint64(0)
			add := func(subject observation.Thing, b observation.Body, seen ...observation.ID) observation.ID {
				seq++
				id := observation.ID{Device: "k", Seq: seq}
				f.Add(observation.Event{ID: id, HLC: seq, Kind: b.Kind(), Observation: observation.Observation{Who: "Marit Sandvei", Subject: subject, Seen: seen, Body: b}})
				return id
			}
			house := add("", observation.Building{Name: "A"}).Thing()
			panel := add("", observation.Panel{Building: house, Name: "A1", Spaces: 30}).Thing()
			var first observation.ID
			for i, b := range c.before {
				if id := add(panel, b); i == 0 {
					first = id
				}
			}
			if c.gone {
				add(panel, observation.Withdrawal{Reason: "Wrong space"}, first)
			}
			o := observation.Observation{Who: "Marit Sandvei", Subject: panel, Body: c.now}
			if c.seen {
				o.Seen = []observation.ID{first}
			}
			for _, admit := range []func(observation.Observation) error{f.Admit, f.Installation().Admit} {
				err := admit(o)
				var u observation.Unusable
				if (err != nil) != (c.say != "") || errors.As(err, &u) && (u.Say != c.say || u.Field != "poles") {
					t.Errorf("got %v, want %q at the field poles", err, c.say)
				}
			}
		})
	}
}
