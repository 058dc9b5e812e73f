package trace

import (
	"slices"
	"strings"
	"testing"
	"time"

	"asfound/evidence"
	"asfound/observation"
)

// A line is settled once no single doubt can overturn it and the chance of its
// being wrong is small: two readings, check letters, the room's marks, and the
// resistor read back before and after. Taking any of them away leaves it likely.
func TestWhatSettlesALine(t *testing.T) {
	for _, c := range []struct {
		name             string
		second, letters  bool
		look, afterwards bool
		want             evidence.Standing
		lacks            string
	}{
		{"all of it", true, true, true, true, evidence.Settled, ""},
		{"one reading only", false, true, true, true, evidence.Likely, "reading"},
		{"no check letters", true, false, true, true, evidence.Likely, "marks"},
		{"no look around the room", true, true, false, true, evidence.Likely, "marks"},
		{"no read-back after", true, true, true, false, evidence.Likely, "before it is taken off"},
	} {
		t.Run(c.name, func(t *testing.T) {
			j := newJob(t, []int{1, 2, 3, 4, 5, 6}, 3)
			j.begin(1, 2, 3, 4, 5, 6)
			if c.letters {
				j.letters("A01-01", "s1")
			}
			if c.second {
				j.read("A01-01", "s1", 3, 3)
			} else {
				j.read("A01-01", "s1", 3)
			}
			if c.look {
				j.look(1)
			}
			if c.afterwards {
				j.after(1, 2, 3, 4, 5, 6)
			}
			l := j.line("A01-01")
			in := j.fold.Installation()
			if got := Say(in, l); got != "the hot at A01-01 is on A1-3" {
				t.Errorf("says %q", got)
			}
			if l.Verdict.Standing != c.want {
				t.Errorf("%v, depth %d, chance of wrong %.2g: %s; want %v", l.Verdict.Standing, l.Verdict.Depth, l.Verdict.Wrong, l.FalseOnlyIf(), c.want)
			}
			if !strings.Contains(l.Lacks(), c.lacks) {
				t.Errorf("lacks %q, want something about %q; %s", l.Lacks(), c.lacks, l.FalseOnlyIf())
			}
		})
	}
}

// A hot that reads no more than conductors is a load or a fault, and must not be
// energized: common practice, no source.
func TestAHotThatReadsClosed(t *testing.T) {
	j := newJob(t, []int{1, 2, 3, 4, 5, 6}, 3)
	j.begin(1, 2, 3, 4, 5, 6)
	j.letters("A01-01", "s1")
	for _, other := range []observation.Wire{observation.EGC, observation.Neutral} {
		a, b := j.end("A01-01"), j.end("A01-01")
		b.Wire = other
		j.record("", "s1", []observation.ID{j.tour}, nil, observation.Ohm{A: a, B: b, Ohm: ohms(0.4), Reprobed: observation.Yes})
	}
	j.letters("A01-02", "s2")
	a, b := j.end("A01-02"), j.end("A01-02")
	j.read("A01-02", "s2", 3)
	b.Wire = observation.Neutral
	j.record("", "s2", []observation.ID{j.tour}, nil, observation.Ohm{A: a, B: b, Ohm: ohms(0.4), Reprobed: observation.Yes})
	if l := j.line("A01-02"); !l.Closed || l.Source.At != SpacePoint(j.panel, 3) || l.Verdict.Standing == evidence.Clash {
		t.Errorf("%s, %v, closed %v: want A1-3 and a load, and no clash", Say(j.fold.Installation(), l), l.Verdict.Standing, l.Closed)
	}
	l := j.line("A01-01")
	if l.Source.Kind != Outside || !l.Closed {
		t.Fatalf("%+v closed %v, want outside and closed", l.Source, l.Closed)
	}
	if got := Say(j.fold.Installation(), l); !strings.Contains(got, "Do not energize") {
		t.Errorf("says %q, want a warning", got)
	}
	if odd := j.trace().Oddities; len(odd) != 2 || odd[0].Kind != HotClosed || odd[1].Kind != HotClosed {
		t.Errorf("%+v, want %s", odd, HotClosed)
	}
}

func TestReadingsThatDiffer(t *testing.T) {
	j := newJob(t, []int{1, 2, 3, 4, 5, 6}, 3)
	j.begin(1, 2, 3, 4, 5, 6)
	j.letters("A01-01", "s1")
	ids := j.read("A01-01", "s1", 3, 4)
	tr := j.trace()
	if l := tr.Line(j.end("A01-01")); l.Verdict.Standing != evidence.Clash {
		t.Fatalf("%v, want clash", l.Verdict.Standing)
	}
	if len(tr.Clashes) != 1 {
		t.Fatalf("%d clashes, want 1", len(tr.Clashes))
	}
	c := tr.Clashes[0]
	for _, id := range ids {
		found := false
		for _, r := range c.Readings {
			found = found || r == id
		}
		if !found {
			t.Errorf("clash does not name reading %v: %v", id, c.Sets)
		}
	}
	if c.Settle.At != j.end("A01-01") || c.Settle.Leaves >= len(c.Sets) {
		t.Errorf("settling test %+v does not tell %d sets apart", c.Settle, len(c.Sets))
	}
	// A third reading decides.
	j.read("A01-01", "s1", 3)
	if l := j.line("A01-01"); l.Verdict.Standing != evidence.Likely || l.Source.At.Space != 3 {
		t.Errorf("after a third reading %v on space %d", l.Verdict.Standing, l.Source.At.Space)
	}
}

// An open reading may mean that nothing arrives, or only that the ground does
// not; physics tells them apart by a reading from ground to neutral.
func TestOpenReadings(t *testing.T) {
	j := newJob(t, []int{1, 2, 3, 4, 5, 6}, 3)
	j.begin(1, 2, 3, 4, 5, 6)
	j.letters("A01-02", "s1")
	j.read("A01-02", "s1", 0, 0)
	if l := j.line("A01-02"); l.Verdict.Standing != evidence.Undecided {
		t.Errorf("open twice, nothing known of ground and neutral: %v, want undecided", l.Verdict.Standing)
	}
	j.groundNeutral("A01-02", "s1", true)
	for again := 0; ; again++ {
		asks := NewTracer().Spot(j.fold.Installation(), j.opening["A01-02"])
		if len(asks) == 0 {
			break
		}
		if again > 6 {
			t.Fatalf("still asks: %s", asks[0].Say)
		}
		if strings.Contains(asks[0].Say, "ound to neutral") {
			j.groundNeutral("A01-02", "s1", true)
		} else {
			j.read("A01-02", "s1", 0)
		}
	}
	j.look(1)
	j.after(1, 2, 3, 4, 5, 6)
	l := j.line("A01-02")
	if l.Source.Kind != Nothing || l.Verdict.Standing != evidence.Settled {
		t.Errorf("%v %v (chance of wrong %.2g, depth %d): %s", l.Verdict.Standing, l.Source.Kind, l.Verdict.Wrong, l.Verdict.Depth, l.FalseOnlyIf())
	}
	// Hot to neutral open while hot to ground names a circuit: the neutral does
	// not arrive, no reading need be wrong.
	j.read("A01-03", "s2", 5, 0)
	if l := j.line("A01-03"); l.Source.At.Space != 5 || l.Verdict.Standing != evidence.Likely {
		t.Errorf("%v on space %d, want likely on 5", l.Verdict.Standing, l.Source.At.Space)
	}
}

// A resistor on another space is one doubt shared by every line of its circuit:
// without read-backs, many openings that agree are no firmer than one.
func TestSharedSetUpIsOneDoubt(t *testing.T) {
	j := newJob(t, []int{1, 2, 3, 4, 5, 6}, 3)
	j.tour = j.record("", "", nil, nil, observation.Tour{Name: "first", Means: observation.ByResistor, Panels: []observation.Thing{j.panel},
		Tolerance: 0.01, MeterRelative: 0.009, MeterOhm: 0.2, NeutralJoined: observation.Yes})
	j.isolate(1, 2, 3, 4, 5, 6)
	for s := 1; s <= 6; s++ {
		j.record("", "p", []observation.ID{j.tour}, nil, observation.Resistor{On: SpacePoint(j.panel, s), Ohm: value(s)})
	}
	for _, n := range []string{"A01-01", "A01-02", "A01-03"} {
		j.letters(n, "s"+n)
		j.read(n, "s"+n, 2, 2)
	}
	j.look(1)
	for _, n := range []string{"A01-01", "A01-02", "A01-03"} {
		l := j.line(n)
		if l.Verdict.Depth != 1 || l.Verdict.Standing != evidence.Likely {
			t.Errorf("%s: %v, depth %d, want likely, depth 1", n, l.Verdict.Standing, l.Verdict.Depth)
		}
	}
	for s := 1; s <= 6; s++ {
		j.back(s, value(s), true)
	}
	if l := j.line("A01-01"); l.Verdict.Depth != 2 {
		t.Errorf("one blind read-back after: depth %d, want 2", l.Verdict.Depth)
	}
}

// Two resistors side by side read their parallel value (Ohm's law): 1,000 and
// 5,000 ohms read 833.3. Here 1,000 beside 4,000 (800.0) lies within the meter's
// and the conductors' error of it, so both pairs stand until a read-back or the
// isolation test speaks against one.
func TestParallelValueShowsAnUnnoticedJoin(t *testing.T) {
	j := newJob(t, []int{1, 2, 3, 4, 5, 6}, 3)
	j.put(1, 2, 3, 4, 5, 6)
	for _, other := range []observation.Wire{observation.EGC, observation.Neutral} {
		j.record("", "s1", []observation.ID{j.tour}, nil, observation.Ohm{A: j.end("A01-01"),
			B: observation.Point{At: j.opening["A01-01"], Wire: other}, Ohm: ohms(833.5), Reprobed: observation.Yes})
	}
	l := j.line("A01-01")
	pairs := map[int]bool{}
	for _, s := range append(l.Others, l.Source) {
		if s.Kind == FromSpace && len(s.Also) == 1 {
			pairs[s.At.Space*10+s.Also[0].Space] = true
		}
	}
	if !pairs[15] || !pairs[14] || l.Verdict.Standing != evidence.Undecided {
		t.Fatalf("%v between %v, want undecided between 1 with 5 and 1 with 4", l.Verdict.Standing, pairs)
	}
}

// A joined pair can read like a third circuit: 3,000 and 6,000 ohms side by side
// read 2,000. Until read-backs or the isolation test say that they are apart,
// nothing decides between the two.
func TestAJoinedPairCanReadLikeAThirdCircuit(t *testing.T) {
	j := newJob(t, []int{1, 2, 3, 4, 5, 6}, 3)
	j.put(1, 2, 3, 4, 5, 6)
	j.letters("A01-01", "s1")
	j.read("A01-01", "s1", 2, 2)
	j.look(1)
	if l := j.line("A01-01"); l.Verdict.Standing != evidence.Undecided {
		t.Errorf("nothing speaks against the join, yet the line is %v", l.Verdict.Standing)
	}
	j.isolate(1, 2, 3, 4, 5, 6)
	j.after(1, 2, 3, 4, 5, 6)
	if l := j.line("A01-01"); l.Verdict.Standing == evidence.Undecided || l.Source.At.Space != 2 {
		t.Errorf("found apart: %v on %v", l.Verdict.Standing, l.Source.At)
	}
}

func TestWrongPlaceClashes(t *testing.T) {
	j := newJob(t, []int{1, 2, 3, 4, 5, 6}, 3)
	j.begin(1, 2, 3, 4, 5, 6)
	j.letters("A01-01", "s1")
	j.read("A01-01", "s1", 3, 3)
	j.letters("A01-01", "s2")
	j.read("A01-01", "s2", 4, 4)
	l := j.line("A01-01")
	if l.Verdict.Standing != evidence.Clash {
		t.Fatalf("two visits that disagree: %v", l.Verdict.Standing)
	}
	// Letters that do not match the number need a doubt by themselves.
	j2 := newJob(t, []int{1, 2, 3, 4, 5, 6}, 3)
	j2.begin(1, 2, 3, 4, 5, 6)
	j2.record(j2.opening["A01-01"], "s1", nil, nil, observation.Letters{Letters: "XY"})
	j2.read("A01-01", "s1", 3, 3)
	if l := j2.line("A01-01"); l.Verdict.Standing != evidence.Clash && l.Verdict.Standing != evidence.Likely {
		t.Errorf("letters of another opening: %v", l.Verdict.Standing)
	}
	tr := j2.trace()
	if len(tr.Again) == 0 || !strings.Contains(tr.Again[0].Say, "letters") {
		t.Errorf("nobody is asked about the letters: %+v", tr.Again)
	}
}

// A resistor that reads like another's when it is read back, at the panel and
// twice, has something beside it: whatever names that other may be on either.
func TestAnotherResistorReadsTheSame(t *testing.T) {
	j := newJob(t, []int{1, 2, 3, 4, 5, 6}, 2)
	j.begin(1, 2, 3, 4, 5, 6)
	j.back(6, value(3), false)
	j.back(6, value(3), false)
	j.letters("A01-01", "s1")
	j.read("A01-01", "s1", 3, 3)
	j.letters("A01-02", "s2")
	j.read("A01-02", "s2", 2, 2)
	j.look(1)
	j.after(1, 2, 3, 4, 5)
	j.back(6, value(3), true)
	if l := j.line("A01-01"); l.Verdict.Standing == evidence.Settled {
		t.Errorf("%s, %v", Say(j.fold.Installation(), l), l.Verdict.Standing)
	}
}

// A cable in a box that is not made up: nothing at all arrives. That its hot is
// on nothing cannot be told from its ground being on nothing.
func TestNothingArrivesAtAll(t *testing.T) {
	j := newJob(t, []int{1, 2, 3, 4, 5, 6}, 2)
	j.begin(1, 2, 3, 4, 5, 6)
	j.letters("A01-01", "s1")
	j.read("A01-01", "s1", 0, 0, 0)
	for range 3 {
		j.groundNeutral("A01-01", "s1", false)
	}
	j.look(1)
	j.after(1, 2, 3, 4, 5, 6)
	l := j.line("A01-01")
	if got := Say(j.fold.Installation(), l); !l.Silent || !strings.Contains(got, "hangs free") {
		t.Errorf("says %q", got)
	}
	if l.Verdict.Standing == evidence.Settled || l.Verdict.Standing == evidence.Clash {
		t.Errorf("%v, want neither settled nor a clash", l.Verdict.Standing)
	}
}

// What is read after the resistors are off says nothing of the tour.
func TestReadAfterTheResistorsAreOff(t *testing.T) {
	j := newJob(t, []int{1, 2, 3, 4, 5, 6}, 2)
	j.begin(1, 2, 3, 4, 5, 6)
	j.letters("A01-01", "s1")
	j.read("A01-01", "s1", 0)
	j.look(1)
	j.after(1, 2, 3, 4, 5, 6)
	j.record("", "", []observation.ID{j.tour}, nil, observation.Removed{})
	before := j.line("A01-01").Verdict
	j.read("A01-01", "s1", 0, 0)
	j.groundNeutral("A01-01", "s1", true)
	if now := j.line("A01-01").Verdict; now.Standing != before.Standing || now.Depth != before.Depth {
		t.Errorf("%v, depth %d; before the readings %v, depth %d", now.Standing, now.Depth, before.Standing, before.Depth)
	}
}

// A resistor put on once more by another device, which knew nothing of the
// reading: the reading is on record, counts for nothing, and its line says so.
func TestReadingOfUncertainOrder(t *testing.T) {
	j := newJob(t, []int{1, 2, 3, 4, 5, 6}, 2)
	j.begin(1, 2, 3, 4, 5, 6)
	j.letters("A01-01", "s1")
	ids := j.read("A01-01", "s1", 3, 3)
	e := observation.Event{ID: observation.ID{Device: "other", Seq: 1}, HLC: 1 << 40, Wall: start.Add(time.Hour), Kind: observation.Resistor{}.Kind(),
		Observation: observation.Observation{Who: "Tomas Veil", Under: []observation.ID{j.tour}, Body: observation.Resistor{On: SpacePoint(j.panel, 3), Ohm: value(3)}}}
	j.fold.Add(e)
	l := j.line("A01-01")
	if l == nil || l.Verdict.Standing != evidence.Untested || !slices.Contains(l.RestsOn, ids[0]) || !strings.Contains(l.Lacks(), "put on again") {
		t.Fatalf("%+v", l)
	}
	e.ID.Seq, e.After = 2, []observation.ID{ids[1]} // put on by a device that held the readings: they were before it
	j.fold.Add(e)
	if l := j.line("A01-01"); l.Verdict.Standing != evidence.Untested {
		t.Errorf("%v, want untested: the readings were before the resistor was put on again", l.Verdict.Standing)
	}
	r := observation.Event{ID: observation.ID{Device: "third", Seq: 1}, HLC: 1 << 41, Wall: start.Add(2 * time.Hour), Kind: observation.Ohm{}.Kind(), After: []observation.ID{{Device: "other", Seq: 2}},
		Observation: observation.Observation{Who: "Dell Amoah", Stop: "s9", Under: []observation.ID{j.tour}, Body: observation.Ohm{A: j.end("A01-01"),
			B: observation.Point{At: j.opening["A01-01"], Wire: observation.EGC}, Ohm: ohms(3000.4), Reprobed: observation.Yes}}}
	j.fold.Add(r)
	if l := j.line("A01-01"); l.Verdict.Standing != evidence.Likely || l.Source.At != SpacePoint(j.panel, 3) {
		t.Errorf("%s, %v: want likely on A1-3, since it was read by a device that held the resistor", Say(j.fold.Installation(), l), l.Verdict.Standing)
	}
}
