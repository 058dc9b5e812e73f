package trace

import (
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"asfound/evidence"
	"asfound/installation"
	"asfound/observation"
	"asfound/quantity"
)

func (j *job) power() {
	j.record(j.panel, "", nil, nil, observation.Energized{Why: "heat"})
}

func (j *job) dead() {
	j.record(j.panel, "", nil, nil, observation.ProvenDead{Before: observation.Yes, Absent: observation.Yes, After: observation.Yes})
}

// What is read after power was put on counts for nothing until a test that holds
// came in between; what was read before stays as it was.
func TestReadAfterPowerWasPutOn(t *testing.T) {
	j := newJob(t, []int{1, 2, 3, 4, 5, 6}, 2)
	j.begin(1, 2, 3, 4, 5, 6)
	j.letters("A01-01", "s1")
	j.read("A01-01", "s1", 3)
	before := j.line("A01-01").Verdict
	j.power()
	j.read("A01-01", "s2", 3, 3)
	ids := j.read("A01-02", "s3", 2, 2)
	if now := j.line("A01-01").Verdict; now.Standing != before.Standing || now.Depth != before.Depth {
		t.Errorf("%v, depth %d; before the power %v, depth %d", now.Standing, now.Depth, before.Standing, before.Depth)
	}
	l := j.line("A01-02")
	if l.Verdict.Standing != evidence.Untested || !slices.Contains(l.RestsOn, ids[0]) || !strings.Contains(l.Lacks(), "power was put on") {
		t.Errorf("%v, lacks %q", l.Verdict.Standing, l.Lacks())
	}
	j.dead()
	j.read("A01-02", "s4", 2)
	if l := j.line("A01-02"); l.Verdict.Standing != evidence.Likely || l.Source.At != SpacePoint(j.panel, 2) {
		t.Errorf("tested again and read again: %v", l.Verdict.Standing)
	}
}

// Power put on at what feeds the panel is power at the panel.
func TestPowerFromUpstream(t *testing.T) {
	j := newJob(t, []int{1, 2, 3}, 1)
	utility := j.record("", "", nil, nil, observation.Source{Name: "utility", Of: observation.Utility}).Thing()
	j.record("", "", nil, nil, observation.Feeder{From: utility, To: j.panel})
	j.begin(1, 2, 3)
	j.record(utility, "", nil, nil, observation.Energized{})
	j.read("A01-01", "s1", 2, 2)
	if s := j.line("A01-01").Verdict.Standing; s != evidence.Untested {
		t.Errorf("%v, want untested", s)
	}
}

// Leaving out a reading that speaks against a line does not make it firmer.
func TestPowerExplainsNoReadingAway(t *testing.T) {
	j := newJob(t, []int{1, 2, 3, 4, 5, 6}, 1)
	j.begin(1, 2, 3, 4, 5, 6)
	j.letters("A01-01", "s1")
	j.read("A01-01", "s1", 3, 3)
	j.power()
	j.read("A01-01", "s2", 5, 5)
	l := j.line("A01-01")
	if l.firm() || len(l.Others) == 0 {
		t.Errorf("%s, %v", Say(j.fold.Installation(), l), l.Verdict.Standing)
	}
}

// poweredJob plays readings between power put on and tests that hold.
func poweredJob(tb testing.TB, t *rapid.T) *job {
	j := newJob(tb, []int{1, 2, 3, 4}, 2)
	utility := j.record("", "", nil, nil, observation.Source{Name: "utility", Of: observation.Utility}).Thing()
	j.begin(1, 2, 3, 4)
	for range rapid.IntRange(1, 10).Draw(t, "acts") {
		number := rapid.SampledFrom([]string{"A01-01", "A01-02"}).Draw(t, "opening")
		switch rapid.IntRange(0, 8).Draw(t, "act") {
		case 0, 1, 2:
			stop := number + rapid.SampledFrom([]string{" first", " second"}).Draw(t, "visit")
			j.read(number, stop, rapid.SliceOfN(rapid.IntRange(0, 3), 1, 2).Draw(t, "spaces")...)
		case 3:
			j.letters(number, number+" first")
		case 4:
			j.power()
		case 5:
			j.record(utility, "", nil, nil, observation.Energized{})
		case 6:
			j.dead()
		case 7:
			j.record("", "", nil, nil, observation.Feeder{From: utility, To: j.panel})
		case 8:
			space := rapid.IntRange(1, 4).Draw(t, "read back")
			j.record("", "at the panel", []observation.ID{j.tour}, nil, observation.ReadBack{At: SpacePoint(j.panel, space), Blind: true, After: true,
				Ohm: quantity.Resistance{Ohm: quantity.Ohms(1000 * rapid.IntRange(1, 4).Draw(t, "shows"))}})
		}
	}
	return j
}

// Order of arrival does not matter, a tracer that saw the job grow says what a
// fresh one says, and power put on settles nothing and makes nothing likely.
func TestPowerGrantsNothing(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		j := poweredJob(t, rt)
		in := j.fold.Installation()
		with := NewTracer().Trace(in)
		f, tr := installation.NewFold(), NewTracer()
		for _, e := range rapid.Permutation(slices.Clone(j.events)).Draw(rt, "arrival") {
			f.Add(e)
			if rapid.IntRange(0, 9).Draw(rt, "look") == 0 {
				tr.Trace(f.Installation())
			}
		}
		other := f.Installation()
		if diff := cmp.Diff(says(in, with), says(other, tr.Trace(other)), nearly); diff != "" {
			rt.Fatalf("another order of arrival says otherwise:\n%s", diff)
		}
		never := installation.NewFold()
		for _, e := range withoutPower(j.events) {
			never.Add(e)
		}
		without := NewTracer().Trace(never.Installation())
		for _, l := range with.Lines {
			old := without.Line(l.End)
			if l.firm() && (old == nil || !old.firm()) || l.Verdict.Standing == evidence.Settled && old.Verdict.Standing != evidence.Settled {
				rt.Fatalf("%s is %v with power put on, and was %v without", in.PointName(l.End), l.Verdict.Standing, old.Verdict.Standing)
			}
		}
	})
}

// withoutPower is a job of one device without power, and without what was read
// between power and the next test.
func withoutPower(events []observation.Event) []observation.Event {
	var out []observation.Event
	on := false
	for _, e := range events {
		switch e.Body.(type) {
		case observation.Energized:
			on = true
			continue
		case observation.ProvenDead:
			on = false
		case observation.Ohm, observation.ReadBack:
			if on {
				continue
			}
		}
		out = append(out, e)
	}
	return out
}

// A read-back under power backs nothing.
func TestReadBackAfterPowerWasPutOn(t *testing.T) {
	j := newJob(t, []int{1, 2, 3, 4, 5, 6}, 1)
	j.begin(1, 2, 3, 4, 5, 6)
	j.letters("A01-01", "s1")
	j.read("A01-01", "s1", 3, 3)
	before := j.line("A01-01").Verdict
	j.power()
	for range 2 {
		j.record("", "at the panel", []observation.ID{j.tour}, nil, observation.ReadBack{At: SpacePoint(j.panel, 3), Blind: true, After: true, Ohm: quantity.Resistance{Ohm: 3000}})
	}
	if now := j.line("A01-01").Verdict; now.Standing != before.Standing || now.Depth != before.Depth {
		t.Errorf("%v, depth %d; before the power %v, depth %d", now.Standing, now.Depth, before.Standing, before.Depth)
	}
}

// What another device recorded without knowing of the power may have been before
// it or after: it counts for nothing. So is what was read after a test found
// voltage.
func TestPowerOfUnknownOrder(t *testing.T) {
	for name, body := range map[string]observation.Body{
		"power put on by somebody else": observation.Energized{},
		"voltage found":                 observation.ProvenDead{Before: observation.Yes, Absent: observation.No, After: observation.Yes},
	} {
		t.Run(name, func(t *testing.T) {
			j := newJob(t, []int{1, 2, 3}, 1)
			j.begin(1, 2, 3)
			j.read("A01-01", "s1", 2, 2)
			other := observation.Event{ID: observation.ID{Device: "other", Seq: 1}, HLC: 1 << 30, Kind: body.Kind(),
				Observation: observation.Observation{Who: "Dell Amoah", Subject: j.panel, Body: body}}
			j.fold.Add(other)
			if s := j.line("A01-01").Verdict.Standing; s != evidence.Untested {
				t.Errorf("%v, want untested", s)
			}
		})
	}
}
