package installation

import (
	"errors"
	"slices"
	"testing"

	"asfound/observation"
)

// planned is a floor of three rooms, of which the first two overlap.
func planned(t *testing.T) (*supplied, map[string]observation.Thing) {
	t.Helper()
	p, at := &supplied{}, map[string]observation.Thing{}
	house := p.record("", observation.Building{Name: "A"}).Thing()
	at["house"] = house
	for i, name := range []string{"Kitchen", "Pantry", "Study"} {
		at[name] = p.record("", observation.Room{Building: house, Name: name, Order: i}).Thing()
	}
	at["A01-01"] = p.record("", observation.Opening{Room: at["Kitchen"], Number: "A01-01"}).Thing()
	p.record(at["Kitchen"], observation.RoomSize{Width: 144, Depth: 120, Ceiling: 96, Corner: &observation.Corner{}})
	p.record(at["Pantry"], observation.RoomSize{Width: 60, Depth: 48, Corner: &observation.Corner{Right: 120, Back: 24}})
	p.record(at["Study"], observation.RoomSize{Width: 120, Depth: 120, Corner: &observation.Corner{Right: 0, Back: 118}})
	return p, at
}

func TestMisfitsAreSaid(t *testing.T) {
	p, at := planned(t)
	p.record(at["Kitchen"], observation.Doorway{Wall: observation.LeftWall, From: 100, To: 132})
	p.record(at["A01-01"], observation.Spot{Wall: observation.BackWall, Along: 150})
	for _, n := range []string{"A01-02", "A01-03"} {
		p.record("", observation.Opening{Room: at["Kitchen"], Number: n, Height: 108})
	}
	in := fold(p.events)
	want := []string{
		"Kitchen: the left wall is 10 ft long on record, and the doorway ends at 11 ft: one of the measures is wrong.",
		"A01-01 in Kitchen: the back wall is 12 ft long on record, and the place is 12 ft 6 in along it: one of the measures is wrong.",
		"A01-02, A01-03 in Kitchen: noted 9 ft above the floor, and the ceiling is at 8 ft: one of the measures is wrong.",
		"Kitchen and Pantry overlap by 2 ft by 4 ft: one of their measures is wrong.",
	}
	if got := in.Misfits(at["house"], 0); !slices.Equal(got, want) {
		t.Errorf("misfits:\n%q\nwant\n%q", got, want)
	}
	if got := in.Misfits(at["house"], 1); len(got) > 0 {
		t.Errorf("a floor without rooms has misfits: %q", got)
	}
}

func TestBeyondTheWallIsRefused(t *testing.T) {
	p, at := planned(t)
	in := fold(p.events)
	for name, c := range map[string]struct {
		at    observation.Thing
		body  observation.Body
		field string
	}{
		"a doorway longer than its wall":  {at["Pantry"], observation.Doorway{Wall: observation.LeftWall, From: 0, To: 60}, "to"},
		"a doorway beyond its wall":       {at["Kitchen"], observation.Doorway{Wall: observation.FrontWall, From: 130, To: 150}, "to"},
		"a place beyond the wall's end":   {at["A01-01"], observation.Spot{Wall: observation.LeftWall, Along: 121}, "along"},
		"a place on the ceiling, outside": {at["A01-01"], observation.Spot{Wall: observation.Overhead, Along: 10, Out: 121}, "along"},
	} {
		var u observation.Unusable
		if err := in.Admit(observation.Observation{Subject: c.at, Body: c.body}); !errors.As(err, &u) || u.Field != c.field {
			t.Errorf("%s: %v, want a sentence at %s", name, err, c.field)
		}
	}
	for name, o := range map[string]observation.Observation{
		"a doorway to the wall's end":   {Subject: at["Kitchen"], Body: observation.Doorway{Wall: observation.FrontWall, From: 112, To: 144}},
		"a place at the wall's end":     {Subject: at["A01-01"], Body: observation.Spot{Wall: observation.LeftWall, Along: 120}},
		"a place in the middle":         {Subject: at["A01-01"], Body: observation.Spot{Wall: observation.Underfoot, Along: 72, Out: 60}},
		"a size measured anew, smaller": {Subject: at["Kitchen"], Body: observation.RoomSize{Width: 50}},
	} {
		if err := in.Admit(o); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}
