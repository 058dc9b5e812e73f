package trace

import (
	"testing"

	"asfound/evidence"
	"asfound/installation"
	"asfound/observation"
)

// A read-back speaks for the readings before it; one taken later may have met a
// resistor that was moved.
func TestAReadingAfterTheLastReadBackIsNotCoveredByIt(t *testing.T) {
	j := newJob(t, []int{1, 2, 3, 4, 5, 6}, 2)
	j.begin(1, 2, 3, 4, 5, 6)
	j.letters("A01-01", "s1")
	j.read("A01-01", "s1", 3, 3)
	j.look(1)
	j.after(1, 2, 3, 4, 5, 6)
	j.letters("A01-02", "s2")
	j.read("A01-02", "s2", 4, 4)
	j.look(1)
	if l := j.line("A01-01"); l.Verdict.Standing != evidence.Settled {
		t.Errorf("read before the read-back: %v, %s", l.Verdict.Standing, l.FalseOnlyIf())
	}
	if l := j.line("A01-02"); l.Verdict.Depth != 1 {
		t.Errorf("read after the read-back: depth %d, want 1: %s", l.Verdict.Depth, l.FalseOnlyIf())
	}
}

// Two devices' clocks prove no order: a read-back on another device, later by
// the clock alone, takes no doubt away. Named by what follows it, it does.
func TestUncertainOrderGrantsNoStanding(t *testing.T) {
	j := newJob(t, []int{1, 2, 3, 4, 5, 6}, 2)
	j.begin(1, 2, 3, 4, 5, 6)
	j.letters("A01-01", "s1")
	ids := j.read("A01-01", "s1", 3, 3)
	j.look(1)
	for _, c := range []struct {
		name  string
		under []observation.ID
		want  int
	}{
		{"on another device", []observation.ID{j.tour}, 1},
		{"on another device, naming the readings it follows", append([]observation.ID{j.tour}, ids...), 2},
	} {
		f := installation.NewFold()
		for _, e := range j.events {
			f.Add(e)
		}
		b := observation.ReadBack{At: SpacePoint(j.panel, 3), Ohm: ohms(3000), Blind: true, After: true}
		f.Add(observation.Event{ID: observation.ID{Device: "other", Seq: 1}, HLC: 1 << 40, Wall: start, Kind: b.Kind(),
			Observation: observation.Observation{Who: "Dell Amoah", Under: c.under, Body: b}})
		in := f.Installation()
		if l := NewTracer().Trace(in).Line(j.end("A01-01")); l.Verdict.Depth != c.want {
			t.Errorf("%s: depth %d, want %d: %s", c.name, l.Verdict.Depth, c.want, l.FalseOnlyIf())
		}
	}
}
