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

// A switch box whose feed, cable 1, is on A1-3 is joined to its leg, cable 3. In
// some cases cable 2 of the box is on A1-5, and was really joined instead.
func TestBeyondAJoin(t *testing.T) {
	for _, c := range []struct {
		name      string
		openFirst bool // the lamp was read open before
		other     int  // what cable 2 reads as: 0 is not read, -1 is not there
		legReads  int  // 0 is not read
		lamp      int
		want      evidence.Standing
	}{
		{"one circuit in the box", true, -1, 0, 3, evidence.Settled},
		{"never read open", false, -1, 0, 3, evidence.Settled},
		{"two circuits, the lamp shows the feed noted", true, 5, 0, 3, evidence.Settled},
		{"two circuits, the lamp shows the other", true, 5, 0, 5, evidence.Likely},
		{"the same, never read open", false, 5, 0, 5, evidence.Likely},
		{"the leg shows the other too", false, 5, 5, 5, evidence.Likely},
		{"the leg shows the feed noted: the lamp is not beyond it", false, 5, 3, 5, evidence.Settled},
		{"another cable of the box was not read", false, 0, 0, 5, evidence.Likely},
	} {
		t.Run(c.name, func(t *testing.T) {
			j := newJob(t, []int{1, 2, 3, 4, 5, 6}, 2)
			j.begin(1, 2, 3, 4, 5, 6)
			feed, other, leg, lamp := j.cable("A01-01", "1"), j.cable("A01-01", "2"), j.cable("A01-01", "3"), j.cable("A01-02", "1")
			if c.openFirst {
				j.letters("A01-02", "s0")
				j.readAt(lamp, "s0", 0)
			}
			j.letters("A01-01", "s1")
			j.readAt(feed, "s1", 3)
			if c.other == 0 {
				j.record(leg.At, "", nil, nil, observation.CableEnd{Tag: "2"})
			}
			if c.other > 0 {
				j.readAt(other, "s1", c.other)
			}
			join := j.record(leg.At, "s1", []observation.ID{j.tour}, nil, observation.Joined{Feed: feed, Leg: leg})
			if c.legReads > 0 {
				j.readAt(leg, "s1", c.legReads)
				j.look(1)
			}
			for _, s := range []string{"s2", "s3"} {
				j.letters("A01-02", s)
				j.readAt(lamp, s, c.lamp)
			}
			j.look(1)
			j.after(1, 2, 3, 4, 5, 6)
			l := j.trace().Line(lamp)
			if l.Source.At != SpacePoint(j.panel, c.lamp) || l.Verdict.Standing != c.want {
				t.Errorf("%s, %v: %s; want space %d, %v", Say(j.fold.Installation(), l), l.Verdict.Standing, l.FalseOnlyIf(), c.lamp, c.want)
			}
			if c.want == evidence.Likely && !strings.Contains(l.Lacks(), "leg of the join at A01-01") {
				t.Errorf("lacks %q", l.Lacks())
			}
			if c.openFirst && c.lamp == 3 && !slices.Contains(l.RestsOn, join) {
				t.Error("the line does not rest on the join")
			}
		})
	}
}

// Four open readings, right; then a join in another room whose feed reads as
// something else; then readings that name a space: the open ones stay.
func TestJoinElsewhereDropsNoReadings(t *testing.T) {
	j := newJob(t, []int{1, 2, 3, 4, 5, 6}, 2, 2)
	j.begin(1, 2, 3, 4, 5, 6)
	dead := j.end("A01-01")
	for _, s := range []string{"s0", "s1"} {
		j.letters("A01-01", s)
		j.readAt(dead, s, 0)
		j.groundNeutral("A01-01", s, true)
	}
	feed, leg := j.cable("A02-02", "1"), j.cable("A02-02", "2")
	j.record(leg.At, "f", []observation.ID{j.tour}, nil, observation.Joined{Feed: feed, Leg: leg})
	j.letters("A02-02", "g")
	j.readAt(feed, "g", 6)
	j.letters("A01-01", "s2")
	j.readAt(dead, "s2", 3)
	j.look(1)
	j.after(1, 2, 3, 4, 5, 6)
	if l := j.trace().Line(dead); l.Verdict.Standing == evidence.Settled {
		t.Errorf("%s, settled, though four readings found it open. %s", Say(j.fold.Installation(), l), l.FalseOnlyIf())
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
