package ready_test

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"asfound/evidence"
	"asfound/installation"
	"asfound/observation"
	"asfound/ready"
	"asfound/trace"
)

// job is a made-up property recorded event by event, with lines put in by hand.
type job struct {
	fold         *installation.Fold
	events       []observation.Event
	main, cabin  observation.Thing
	a1, a2, b1   observation.Thing
	utility, gen observation.Thing
	opening      map[string]observation.Thing
	tr           trace.Trace
}

func (j *job) add(subject observation.Thing, b observation.Body) observation.ID {
	n := uint64(len(j.events) + 1)
	e := observation.Event{ID: observation.ID{Device: "k", Seq: n}, HLC: n, Kind: b.Kind(), Observation: observation.Observation{Who: "Marit Sandvei", Subject: subject, Body: b}}
	j.events = append(j.events, e)
	j.fold.Add(e)
	return e.ID
}

func newJob() *job {
	j := &job{fold: installation.NewFold(), opening: map[string]observation.Thing{}}
	j.main = j.add("", observation.Building{Name: "A"}).Thing()
	j.cabin = j.add("", observation.Building{Name: "B"}).Thing()
	room := j.add("", observation.Room{Building: j.main, Name: "Great room"}).Thing()
	for _, n := range []string{"A02-01", "A02-02", "A02-03"} {
		j.opening[n] = j.add("", observation.Opening{Room: room, Number: n}).Thing()
	}
	panel := func(b observation.Thing, name string) observation.Thing {
		return j.add("", observation.Panel{Building: b, Name: name, Spaces: 2}).Thing()
	}
	j.a1, j.a2, j.b1 = panel(j.main, "A1"), panel(j.main, "A2"), panel(j.cabin, "B1")
	j.utility = j.add("", observation.Source{Name: "utility", Of: observation.Utility}).Thing()
	j.gen = j.add("", observation.Source{Name: "G1", Of: observation.Generator}).Thing()
	return j
}

func (j *job) line(opening, cable string, s evidence.Standing, source trace.Source) {
	l := &trace.Line{End: observation.Point{At: j.opening[opening], Cable: cable, Wire: observation.Hot}, Source: source}
	l.Verdict.Standing = s
	j.tr.Lines = append(j.tr.Lines, l)
}

func on(panel observation.Thing, space int, also ...observation.Point) trace.Source {
	return trace.Source{Kind: trace.FromSpace, At: trace.SpacePoint(panel, space), Also: also}
}

func (j *job) panel(t observation.Thing) []ready.Way {
	in := j.fold.Installation()
	return ready.Panel(in, &j.tr, in.Panel(t))
}

func (j *job) box(number string) []ready.Way {
	in := j.fold.Installation()
	return ready.Opening(in, &j.tr, in.Opening(j.opening[number]))
}

// says checks that some way of that sort begins so and is known so.
func says(t *testing.T, ways []ready.Way, sort ready.Sort, say, known string) {
	t.Helper()
	for _, w := range ways {
		if w.Sort == sort && strings.HasPrefix(w.Say, say) && w.Known == known {
			return
		}
	}
	t.Errorf("no way of sort %d says %q (%s):\n%s", sort, say, known, all(ways))
}

func all(ways []ready.Way) string {
	var out []string
	for _, w := range ways {
		out = append(out, w.Say+" ("+w.Known+")")
	}
	return strings.Join(out, "\n")
}

func TestPanelWithNothingOnRecord(t *testing.T) {
	j := newJob()
	ways := j.panel(j.a1)
	says(t, ways, ready.NotKnown, "What feeds panel A1 is not on record: treat it as live", "")
	says(t, ways, ready.NotKnown, "Nobody looked at 2 of its 2 spaces", "")
	says(t, ways, ready.NotKnown, "Nothing was read at 3 openings", "")
	says(t, ways, ready.NotKnown, "What source G1 feeds is not on record: it may feed this panel", "")
	if !ways[0].Unfed || ways[0].At != j.a1 {
		t.Error("the missing feeder does not stand first")
	}
}

func TestPanelOnTheWay(t *testing.T) {
	j := newJob()
	feeder := j.add("", observation.Feeder{From: j.utility, To: j.a1, How: observation.BasisTested})
	j.add("", observation.Feeder{From: j.a1, Space: 1, To: j.a2, How: observation.BasisLabel})
	j.add("", observation.Feeder{To: j.b1, How: observation.BasisAssumed})
	ways := j.panel(j.a2)
	says(t, ways, ready.Feed, "A1-1 feeds panel A2", "as a label says")
	says(t, ways, ready.Feed, "utility feeds panel A1", "both ends tested")
	says(t, ways, ready.Supply, "Source utility, what opens it is not on record", "")
	says(t, j.panel(j.b1), ready.NotKnown, "A feeder comes to panel B1 from a place not known", "assumed")
	if i := slices.IndexFunc(ways, func(w ready.Way) bool { return w.At == j.utility && w.Sort == ready.Feed }); !slices.Contains(ways[i].Of, feeder) {
		t.Error("the feeder does not lead to its entry")
	}
	j.add("", observation.Feeder{From: j.gen, To: j.a2, How: observation.BasisUnknown})
	ways = j.panel(j.a1)
	says(t, ways, ready.Back, "G1 feeds panel A2: power can come back from there into panel A1", "not known how")
	says(t, ways, ready.Supply, "Source G1 (generator), what opens it is not on record, whether it can start by itself is not known", "")
}

func TestWhatLiesInTheCabinet(t *testing.T) {
	j := newJob()
	j.add(j.a1, observation.Space{Number: 1, Poles: 1, Lands: observation.LandsFeeder})
	j.add(j.a1, observation.Space{Number: 2, Poles: 1, Lands: observation.LandsBranch, Cable: "3"})
	j.add(j.a1, observation.PassThrough{Count: 1})
	coil := []observation.Conductor{{Wire: observation.Hot, State: observation.Coiled}}
	j.add(j.a1, observation.CableEnd{Tag: "3", Conductors: []observation.Conductor{{Wire: observation.Hot, State: observation.Landed}}})
	j.add(j.a1, observation.CableEnd{Tag: "7", Conductors: coil})
	j.add(j.a1, observation.CableEnd{Tag: "8", Conductors: coil})
	j.line("A02-03", "1", evidence.Likely, trace.Source{Kind: trace.FromEnd, At: observation.Point{At: j.a1, Cable: "8", Wire: observation.Hot}})
	ways := j.panel(j.a1)
	says(t, ways, ready.NotKnown, "A feeder lands on A1-1, and its other end is not on record", "")
	says(t, ways, ready.NotKnown, "Where the conductors on space 2 lead was not read", "")
	says(t, ways, ready.Passing, "1 conductor passes through this cabinet", "")
	says(t, ways, ready.NotKnown, "Cable 7 lies loose in this cabinet, and its other end was not found", "")
	says(t, ways, ready.Circuit, "Cable 8 lies loose in this cabinet and goes to A02-03", "likely")
	if strings.Contains(all(ways), "Cable 3") {
		t.Error("a cable that lands is said to lie loose")
	}
}

func TestCircuitsOfOtherPanels(t *testing.T) {
	j := newJob()
	j.line("A02-01", "1", evidence.Settled, on(j.a1, 1))
	j.line("A02-01", "2", evidence.Settled, on(j.b1, 2))
	j.line("A02-02", "1", evidence.Likely, on(j.b1, 2))
	j.line("A02-03", "1", evidence.Settled, on(j.a1, 2, trace.SpacePoint(j.a2, 1)))
	ways := j.panel(j.a1)
	says(t, ways, ready.Circuit, "B1-2 comes into A02-01 beside a circuit of this panel: it stays live with panel A1 off", "settled")
	says(t, ways, ready.Circuit, "Space 2 of panel B1 feeds boxes in this panel's building, A02-02: they stay live with panel A1 off", "likely")
	says(t, ways, ready.Back, "A2-1 is joined with a circuit of panel A1 at A02-03", "settled")
	if strings.Contains(all(ways), "A1-1 ") {
		t.Errorf("its own circuit is said to stay live:\n%s", all(ways))
	}
	says(t, j.box("A02-01"), ready.Circuit, "2 circuits come into this box", "")
	says(t, j.box("A02-01"), ready.Circuit, "B1-2 is on the hot of cable 2, from building B", "settled")
	says(t, j.box("A02-03"), ready.Circuit, "A2-1 is on the hot of cable 1", "settled")
}

// A panel fed from here alone goes off with it, once both ends of its feeder were
// tested.
func TestPanelFedFromHere(t *testing.T) {
	j := newJob()
	j.line("A02-01", "1", evidence.Settled, on(j.a2, 1))
	stays := "Space 1 of panel A2 feeds boxes in this panel's building, A02-01: they stay live with panel A1 off"
	says(t, j.panel(j.a1), ready.Circuit, stays, "settled")
	feeder := j.add("", observation.Feeder{From: j.a1, To: j.a2, How: observation.BasisLabel})
	says(t, j.panel(j.a1), ready.Circuit, stays+", unless panel A2 is fed from here alone, which was not tested", "settled")
	j.add(feeder.Thing(), observation.Feeder{From: j.a1, To: j.a2, How: observation.BasisTested})
	j.add("", observation.Feeder{From: j.utility, To: j.a1, How: observation.BasisAssumed})
	if ways := all(j.panel(j.a1)); strings.Contains(ways, "Space 1 of panel A2") {
		t.Errorf("A2 is said to stay live, though it is fed from A1:\n%s", ways)
	}
	j.add("", observation.Feeder{From: j.gen, To: j.a2, How: observation.BasisAssumed})
	says(t, j.panel(j.a1), ready.Circuit, stays, "settled")
}

func TestBox(t *testing.T) {
	j := newJob()
	says(t, j.box("A02-01"), ready.NotKnown, "Nothing was read here", "")
	j.line("A02-01", "1", evidence.Clash, on(j.a1, 1))
	j.line("A02-01", "3", evidence.Settled, trace.Source{Kind: trace.Nothing})
	j.line("A02-01", "4", evidence.Settled, trace.Source{Kind: trace.Outside})
	j.add(j.opening["A02-01"], observation.CableEnd{Tag: "2", Conductors: []observation.Conductor{{Wire: "black"}, {Wire: "red"}, {Wire: observation.Neutral}, {Wire: observation.EGC}}})
	j.add(j.opening["A02-01"], observation.Raceway{Tag: "R1", Count: 6})
	ways := j.box("A02-01")
	says(t, ways, ready.NotKnown, "What the hot of cable 1 is on is not known", "clash: these readings cannot all be right")
	says(t, ways, ready.NotKnown, "No circuit that was read reaches the hot of cable 3: another may", "settled")
	says(t, ways, ready.NotKnown, "The hot of cable 4 leads to something that is not on the list", "settled")
	says(t, ways, ready.NotKnown, "Nothing was read of cable 2", "")
	says(t, ways, ready.Neutral, "Cable 2 has 2 hots and one neutral", "")
	says(t, ways, ready.Passing, "Raceway R1 holds 6 conductors", "")
}

// Whatever is recorded of the power, nothing that can be live is taken off a
// list by it, nothing is called dead, a panel without a feeder on record says so
// first of all, and the order of arrival does not matter.
func TestPowerTakesNothingOffTheList(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := newJob()
		things := []observation.Thing{"", j.utility, j.gen, j.a1, j.a2, j.b1}
		for range rapid.IntRange(0, 6).Draw(t, "feeders") {
			f := observation.Feeder{From: rapid.SampledFrom(things).Draw(t, "from"), To: rapid.SampledFrom(things[3:]).Draw(t, "to"),
				How: rapid.SampledFrom([]observation.Basis{"", "tested", "label", "assumed"}).Draw(t, "how")}
			if f.From != f.To {
				j.add("", f)
			}
		}
		for _, number := range []string{"A02-01", "A02-02"} {
			j.line(number, "1", rapid.SampledFrom([]evidence.Standing{evidence.Untested, evidence.Likely, evidence.Settled, evidence.Clash}).Draw(t, "standing"),
				on(rapid.SampledFrom(things[3:]).Draw(t, "panel"), 1))
		}
		before := map[observation.Thing]string{}
		for _, p := range things[3:] {
			before[p] = all(j.panel(p))
		}
		for range rapid.IntRange(1, 5).Draw(t, "power") {
			at := rapid.SampledFrom(things[1:]).Draw(t, "at")
			switch rapid.IntRange(0, 2).Draw(t, "what") {
			case 0:
				j.add(at, observation.Energized{})
			case 1:
				lock := j.add(at, observation.LockOut{Device: "lock"})
				j.add(at, observation.Released{Locks: []observation.ID{lock}})
			case 2:
				j.add(rapid.SampledFrom(things[3:]).Draw(t, "tested"), observation.ProvenDead{Before: observation.Yes, Absent: observation.Yes, After: observation.Yes})
			}
		}
		again := &job{fold: installation.NewFold(), tr: j.tr}
		for _, e := range rapid.Permutation(j.events).Draw(t, "arrival") {
			again.fold.Add(e)
		}
		in := j.fold.Installation()
		for _, p := range things[3:] {
			ways := j.panel(p)
			if got := all(ways); got != before[p] || got != all(again.panel(p)) || strings.Contains(got, " dead") {
				t.Fatalf("%s says\n%s\nbefore the power\n%s\nin another order\n%s", in.Name(p), got, before[p], all(again.panel(p)))
			}
			if len(ways) == 0 {
				t.Fatalf("%s has nothing that can be live", in.Name(p))
			}
			fed := slices.ContainsFunc(in.Feeders, func(f *installation.Feeder) bool { return f.To == p })
			if ways[0].Sort != ready.NotKnown || ways[0].Unfed && ways[0].At == p == fed || !fed && !ways[0].Unfed {
				t.Fatalf("%s begins with %q", in.Name(p), ways[0].Say)
			}
		}
	})
}
