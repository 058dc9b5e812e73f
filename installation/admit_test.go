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
