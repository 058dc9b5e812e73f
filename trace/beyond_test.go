package trace

import (
	"slices"
	"strings"
	"testing"

	"asfound/evidence"
	"asfound/observation"
	"asfound/pattern"
	"asfound/quantity"
)

// cable is the hot of a cable of an opening.
func (j *job) cable(number, tag string) observation.Point {
	p := j.end(number)
	p.Cable = tag
	return p
}

// readAt reads an end to ground and to neutral; space 0 is open.
func (j *job) readAt(p observation.Point, stop string, space int) {
	for _, other := range []observation.Wire{observation.EGC, observation.Neutral} {
		b := p
		b.Wire = other
		r := ohms(float64(value(space)) + 0.5)
		r.Open = space == 0
		j.record("", stop, []observation.ID{j.tour}, nil, observation.Ohm{A: p, B: b, Ohm: r, Reprobed: observation.Yes})
	}
}

// A luminaire read open, then feed and leg joined in its switch box, then read
// again: the open readings were right and speak against nothing.
func TestBeyondAJoin(t *testing.T) {
	for _, c := range []struct {
		name          string
		twoCircuits   bool // another circuit is in the switch box
		legRead       bool
		want          evidence.Standing
		lacks, oppose string
	}{
		{"one circuit in the box", false, false, evidence.Settled, "", ""},
		{"two circuits, leg not read", true, false, evidence.Likely, "leg at A01-01 read twice", ""},
		{"two circuits, leg read twice", true, true, evidence.Settled, "", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			j := newJob(t, []int{1, 2, 3, 4, 5, 6}, 2)
			j.begin(1, 2, 3, 4, 5, 6)
			feed, other, leg, lamp := j.cable("A01-01", "1"), j.cable("A01-01", "2"), j.cable("A01-01", "3"), j.cable("A01-02", "1")
			j.letters("A01-02", "s0")
			j.readAt(lamp, "s0", 0)
			j.letters("A01-01", "s1")
			j.readAt(feed, "s1", 3)
			j.readAt(leg, "s1", 0)
			if c.twoCircuits {
				j.readAt(other, "s1", 5)
			}
			join := j.record(leg.At, "s1", []observation.ID{j.tour}, nil, observation.Joined{Feed: feed, Leg: leg})
			if c.legRead {
				j.readAt(leg, "s1", 3)
			}
			j.letters("A01-02", "s2")
			j.readAt(lamp, "s2", 3)
			j.letters("A01-02", "s3") // its mark may be from the first visit: once more
			j.readAt(lamp, "s3", 3)
			j.look(1)
			j.after(1, 2, 3, 4, 5, 6)
			l := j.trace().Line(lamp)
			if l.Source.At != SpacePoint(j.panel, 3) || l.Verdict.Standing != c.want {
				t.Errorf("%s, %v: %s; want space 3, %v", Say(j.fold.Installation(), l), l.Verdict.Standing, l.FalseOnlyIf(), c.want)
			}
			if !strings.Contains(l.Lacks(), c.lacks) {
				t.Errorf("lacks %q, want %q", l.Lacks(), c.lacks)
			}
			if !slices.Contains(l.RestsOn, join) {
				t.Error("the line does not rest on the join")
			}
		})
	}
}

// An open reading whose order to the join nobody knows still speaks against.
func TestOpenReadingAfterAJoinClashes(t *testing.T) {
	j := newJob(t, []int{1, 2, 3, 4, 5, 6}, 2)
	j.begin(1, 2, 3, 4, 5, 6)
	feed, leg, lamp := j.cable("A01-01", "1"), j.cable("A01-01", "2"), j.cable("A01-02", "1")
	j.readAt(feed, "s1", 3)
	j.record(leg.At, "s1", []observation.ID{j.tour}, nil, observation.Joined{Feed: feed, Leg: leg})
	j.letters("A01-02", "s2")
	j.readAt(lamp, "s2", 0)
	j.readAt(lamp, "s3", 3)
	if l := j.trace().Line(lamp); l.Verdict.Standing == evidence.Settled {
		t.Errorf("%v although two readings after the join were open", l.Verdict.Standing)
	}
}

// A cable that lies coiled in the panel takes a resistor like a space, and what
// shows it is the other end of that cable.
func TestCoiledInThePanel(t *testing.T) {
	j := newJob(t, []int{1, 2, 3}, 2)
	j.record(j.panel, "", nil, nil, observation.CableEnd{Tag: "7", Mark: "lights", Conductors: []observation.Conductor{
		{Wire: observation.Hot, State: observation.Coiled}, {Wire: observation.Neutral, State: observation.Coiled}, {Wire: observation.EGC, State: observation.Coiled}}})
	j.isolate(1, 2, 3)
	in := j.fold.Installation()
	set := pattern.ResistorSet{Values: []quantity.Ohms{1000, 2000, 3000, 7000}, Tolerance: 0.01, ConductorMax: 20, Meter: pattern.Meter{Relative: 0.009, AbsoluteOhm: 0.2}}
	plan, err := PlanTour(in, j.trace(), []observation.Thing{j.panel}, set)
	if err != nil || len(plan.Puts) != 4 {
		t.Fatalf("%+v, %v: want three spaces and the cable", plan.Puts, err)
	}
	coil := observation.Point{At: j.panel, Cable: "7", Wire: observation.Hot}
	if plan.Puts[3].On != coil {
		t.Errorf("last resistor on %v, want %v", plan.Puts[3].On, coil)
	}
	j.tour = j.record("", "", nil, nil, observation.Tour{Name: "t", Means: observation.ByResistor, Panels: []observation.Thing{j.panel},
		Tolerance: 0.01, MeterRelative: 0.009, MeterOhm: 0.2, NeutralJoined: observation.Yes})
	for _, p := range plan.Puts {
		j.record(j.panel, "", []observation.ID{j.tour}, nil, observation.Resistor{On: p.On, Ohm: p.Ohm})
	}
	back := func(after bool) {
		for _, p := range plan.Puts {
			j.record(j.panel, "", []observation.ID{j.tour}, nil, observation.ReadBack{At: p.On, Ohm: ohms(float64(p.Ohm)), Blind: true, After: after})
		}
	}
	back(false)
	j.letters("A01-01", "s1")
	for _, other := range []observation.Wire{observation.EGC, observation.Neutral} {
		b := j.end("A01-01")
		b.Wire = other
		j.record("", "s1", []observation.ID{j.tour}, nil, observation.Ohm{A: j.end("A01-01"), B: b, Ohm: ohms(7000.4), Reprobed: observation.Yes})
	}
	j.look(1)
	back(true)
	l := j.line("A01-01")
	if l.Source.Kind != FromEnd || l.Source.At != coil || l.Verdict.Standing != evidence.Settled {
		t.Errorf("%s, %v: %s", Say(j.fold.Installation(), l), l.Verdict.Standing, l.FalseOnlyIf())
	}
}
