package trace

import (
	"fmt"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"asfound/installation"
	"asfound/observation"
)

// randomJob plays readings of all sorts at a few openings: right, wrong, open,
// at two visits, with and without letters, looks and read-backs, some withdrawn.
func randomJob(tb testing.TB, t *rapid.T) *job {
	j := newJob(tb, []int{1, 2, 3, 4, 5, 6}, 2, 2)
	j.begin(1, 2, 3, 4, 5, 6)
	numbers := []string{"A01-01", "A01-02", "A02-01", "A02-02"}
	for range rapid.IntRange(1, 12).Draw(t, "acts") {
		number := rapid.SampledFrom(numbers).Draw(t, "opening")
		stop := number + rapid.SampledFrom([]string{" first", " second"}).Draw(t, "visit")
		switch rapid.IntRange(0, 8).Draw(t, "act") {
		case 0, 1, 2, 3:
			j.read(number, stop, rapid.SliceOfN(rapid.IntRange(0, 4), 1, 2).Draw(t, "spaces")...)
		case 4:
			j.letters(number, stop)
		case 5:
			j.look(rapid.IntRange(1, 2).Draw(t, "room"))
		case 6:
			j.back(rapid.IntRange(1, 4).Draw(t, "space"), value(rapid.IntRange(1, 4).Draw(t, "reads")), rapid.Bool().Draw(t, "after"))
		case 7:
			j.groundNeutral(number, stop, rapid.Bool().Draw(t, "closed"))
		case 8:
			victim := rapid.SampledFrom(j.events).Draw(t, "withdrawn")
			switch victim.Body.(type) {
			case observation.Ohm, observation.Letters, observation.ReadBack, observation.RoomCheck, observation.Resistor:
				j.record("", "", nil, []observation.ID{victim.ID}, observation.Withdrawal{Reason: "misread"})
			}
		}
	}
	return j
}

// what a Trace says, without how it came to it.
type said struct {
	End, Says, Standing, FalseOnlyIf string
	Depth                            int
	Wrong                            float64
	RestsOn                          []observation.ID
}

func says(in *installation.Installation, t *Trace) (out []said) {
	for _, l := range t.Lines {
		out = append(out, said{in.PointName(l.End), Say(in, l), l.Verdict.Standing.String(), l.FalseOnlyIf(), l.Verdict.Depth, l.Verdict.Wrong, l.RestsOn})
	}
	return out
}

var nearly = cmpopts.EquateApprox(1e-9, 1e-12)

// The order of observations does not matter.
func TestOrderOfArrivalDoesNotMatter(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		j := randomJob(t, rt)
		in := j.fold.Installation()
		want := says(in, NewTracer().Trace(in))
		f := installation.NewFold()
		for _, e := range rapid.Permutation(append(slices.Clone(j.events), j.events[:5]...)).Draw(rt, "arrival") {
			f.Add(e)
		}
		other := f.Installation()
		if diff := cmp.Diff(want, says(other, NewTracer().Trace(other)), nearly); diff != "" {
			rt.Fatalf("another order of arrival says otherwise:\n%s", diff)
		}
	})
}

// Property 12, second half: withdrawing an observation is never having made it.
func TestWithdrawnIsNeverMade(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		j := randomJob(t, rt)
		victim := rapid.SampledFrom(j.events).Filter(func(e observation.Event) bool {
			switch e.Body.(type) {
			case observation.Ohm, observation.Letters, observation.ReadBack, observation.RoomCheck, observation.Resistor:
				return true
			}
			return false
		}).Draw(rt, "victim")
		f := installation.NewFold()
		for _, e := range j.events {
			if e.ID != victim.ID {
				f.Add(e)
			}
		}
		without := f.Installation()
		want := says(without, NewTracer().Trace(without))
		j.record("", "", nil, []observation.ID{victim.ID}, observation.Withdrawal{Reason: "wrong opening"})
		in := j.fold.Installation()
		if diff := cmp.Diff(want, says(in, NewTracer().Trace(in)), nearly); diff != "" {
			rt.Fatalf("withdrawing %v (%T):\n%s", victim.ID, victim.Body, diff)
		}
	})
}

// A tracer that has seen the job grow says what a fresh one says.
func TestGrowingEqualsFresh(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		j := randomJob(t, rt)
		f, tr := installation.NewFold(), NewTracer()
		for i, e := range j.events {
			f.Add(e)
			if i < 20 || !rapid.Bool().Draw(rt, "look") && i != len(j.events)-1 {
				continue
			}
			in := f.Installation()
			if diff := cmp.Diff(says(in, NewTracer().Trace(in)), says(in, tr.Trace(in)), nearly); diff != "" {
				rt.Fatalf("after %d events:\n%s", i+1, diff)
			}
		}
	})
}

// Every line leads to its observations, and each of them back to the line.
func TestEvidenceLeadsBothWays(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		j := randomJob(t, rt)
		tr := j.trace()
		for _, l := range tr.Lines {
			for _, id := range l.RestsOn {
				if !slices.Contains(tr.Leans(id), l) {
					rt.Fatalf("%v does not lead back to the line of %v", id, l.End)
				}
			}
		}
	})
}

// The whole test of a panel, played against a hidden set of joins, finds every
// join and reads each twice, in readings that grow with the joins and not with
// their pairs.
func TestIsolationFindsEveryJoin(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		spaces := []int{1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12}
		j := newJob(t, spaces, 1)
		group := map[int]int{}
		for _, s := range spaces {
			group[s] = rapid.IntRange(0, 30).Draw(rt, fmt.Sprint("net of ", s))
		}
		fault := rapid.IntRange(0, 12).Draw(rt, "joined to the ground bar")
		taken := 0
		for ; ; taken++ {
			open := PlanIsolation(j.fold.Installation(), j.panel).Open()
			if len(open) == 0 {
				break
			}
			if taken > 150 {
				rt.Fatalf("no end after %d readings: %+v", taken, open)
			}
			l := open[0]
			r := ohms(0.3)
			r.Open = true
			for _, a := range l.A {
				r.Open = r.Open && !(l.Against == observation.AgainstEGC && fault > 0 && group[a] == group[fault])
				for _, b := range l.B {
					r.Open = r.Open && group[a] != group[b]
				}
			}
			j.record(j.panel, "", nil, nil, observation.Isolation{A: l.A, Against: l.Against, B: l.B, Ohm: r, SwitchesOn: observation.Yes, LoadsOff: observation.Yes})
		}
		tr := j.trace()
		found := map[int][]int{}
		for _, g := range tr.JoinedGroups(j.panel) {
			for _, s := range g {
				found[s] = g
			}
		}
		for _, a := range spaces {
			for _, b := range spaces {
				if a != b && (group[a] == group[b]) != slices.Contains(found[a], b) {
					rt.Fatalf("spaces %d and %d: joined is %v, found %v", a, b, group[a] == group[b], found[a])
				}
			}
		}
		for _, x := range tr.Joins {
			if x.Kind == Joined && x.Bar == "" && x.Verdict.Depth < 2 {
				rt.Fatalf("join of %d and %d rests on one reading", x.A, x.B)
			}
		}
		for _, a := range spaces {
			onBar := slices.ContainsFunc(tr.Joins, func(x *Join) bool { return x.Bar == observation.AgainstEGC && x.A == a && x.Kind == Joined })
			if onBar != (fault > 0 && group[a] == group[fault]) {
				rt.Fatalf("space %d: on the ground bar is %v, found %v", a, !onBar, onBar)
			}
		}
	})
}
