package installation

import (
	"fmt"
	"slices"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"asfound/observation"
	"asfound/quantity"
)

// history draws events of two devices about a small property, with withdrawals
// and replacements that may name anything, also each other.
func history(t *rapid.T) []observation.Event {
	var out []observation.Event
	seq := map[string]uint64{}
	hlc := uint64(0)
	record := func(subject observation.Thing, under, seen []observation.ID, b observation.Body) observation.ID {
		dev := rapid.SampledFrom([]string{"ann", "ben"}).Draw(t, "device")
		seq[dev]++
		hlc += uint64(rapid.IntRange(0, 2).Draw(t, "tick"))
		e := observation.Event{ID: observation.ID{Device: dev, Seq: seq[dev]}, HLC: hlc, Wall: time.Unix(int64(hlc), 0).UTC(), Kind: b.Kind(),
			Observation: observation.Observation{Who: dev, Stop: rapid.SampledFrom([]string{"", "s1", "s2"}).Draw(t, "stop"), Subject: subject, Under: under, Seen: seen, Body: b}}
		out = append(out, e)
		return e.ID
	}
	house := record("", nil, nil, observation.Building{Name: "A"}).Thing()
	room := record("", nil, nil, observation.Room{Building: house, Name: "den"}).Thing()
	panel := record("", nil, nil, observation.Panel{Building: house, Name: "A1", Spaces: 12}).Thing()
	tour := record("", nil, nil, observation.Tour{Name: "t", Means: observation.ByResistor, Panels: []observation.Thing{panel}})
	var openings []observation.Thing
	for i := range 3 {
		openings = append(openings, record("", nil, nil, observation.Opening{Room: room, Number: fmt.Sprint("A01-0", i+1)}).Thing())
	}
	source := record("", nil, nil, observation.Source{Name: "utility", Of: observation.Utility}).Thing()
	drawn := record("", nil, nil, observation.Drawn{Room: room, Use: observation.Receptacle}).Thing()
	var locks []observation.ID
	some := func() observation.Thing { return rapid.SampledFrom(openings).Draw(t, "opening") }
	ids := func() []observation.ID {
		var all []observation.ID
		for _, e := range out {
			all = append(all, e.ID)
		}
		return rapid.SliceOfNDistinct(rapid.SampledFrom(all), 1, 2, rapid.ID[observation.ID]).Draw(t, "named")
	}
	for range rapid.IntRange(0, 25).Draw(t, "events") {
		switch rapid.IntRange(0, 14).Draw(t, "kind") {
		case 0, 1:
			at := some()
			record("", []observation.ID{tour}, nil, observation.Ohm{A: observation.Point{At: at, Wire: observation.Hot},
				B: observation.Point{At: at, Wire: observation.EGC}, Ohm: quantity.Resistance{Ohm: 1000}})
		case 2:
			record(some(), nil, nil, observation.Letters{Letters: "AB"})
		case 3:
			record(panel, nil, nil, observation.Space{Number: rapid.IntRange(1, 12).Draw(t, "space"), Poles: 1, Lands: observation.LandsBranch})
		case 4:
			record("", []observation.ID{tour}, nil, observation.Resistor{On: observation.Point{At: panel, Space: 3, Wire: observation.Hot}, Ohm: 1000})
		case 5:
			record(some(), nil, nil, observation.NotReached{Why: "locked"})
		case 6:
			record(openings[0], nil, ids(), observation.Opening{Room: room, Number: "A01-09"})
		case 7:
			locks = append(locks, record(panel, nil, nil, observation.LockOut{Device: "lock 4"}))
		case 8:
			record(panel, nil, nil, observation.Released{Locks: locks})
		case 9:
			record(rapid.SampledFrom([]observation.Thing{panel, source}).Draw(t, "powered"), nil, nil, observation.Energized{})
		case 10:
			record(panel, locks, nil, observation.ProvenDead{Before: observation.Yes, Absent: observation.Yes, After: observation.Yes})
		case 11:
			record("", nil, nil, observation.Feeder{From: source, To: panel})
			record(room, nil, nil, observation.RoomSize{Width: 100})
			record(some(), nil, nil, observation.Spot{Wall: observation.FrontWall, Along: 10})
		case 12:
			record(drawn, nil, nil, observation.Reconciled{Is: observation.FoundAs, As: some()})
			record("", nil, nil, observation.Note{Text: "cold"})
		default:
			record("", nil, ids(), observation.Withdrawal{Reason: "wrong opening"})
		}
	}
	return out
}

func fold(events []observation.Event) *Installation {
	f := NewFold()
	for _, e := range events {
		f.Add(e)
	}
	return f.Installation()
}

// same compares two Installations by all they show.
var same = cmp.Options{
	cmpopts.IgnoreUnexported(Installation{}),
	cmpopts.EquateEmpty(),
}

func TestOrderAndDuplicationChangeNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		events := history(t)
		want := fold(events)
		other := rapid.Permutation(append(slices.Clone(events), events[:len(events)/2]...)).Draw(t, "arrival")
		if diff := cmp.Diff(want, fold(other), same); diff != "" {
			t.Fatalf("another order of arrival gives another Installation:\n%s", diff)
		}
	})
}

func TestOneByOneEqualsAllAtOnce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		events := history(t)
		arrival := rapid.Permutation(events).Draw(t, "arrival")
		f := NewFold()
		for i, e := range arrival {
			f.Add(e)
			if rapid.Bool().Draw(t, "look") || i == len(arrival)-1 {
				if diff := cmp.Diff(fold(arrival[:i+1]), f.Installation(), same); diff != "" {
					t.Fatalf("after %d events:\n%s", i+1, diff)
				}
			}
		}
	})
}

// Withdrawing an observation leaves what never recording it would have left:
// everything but the stories and the count.
func TestWithdrawingEqualsNeverRecording(t *testing.T) {
	facts := append(cmp.Options{
		cmpopts.IgnoreFields(Installation{}, "Events"),
		cmpopts.IgnoreTypes(Story{}),
	}, same)
	rapid.Check(t, func(t *rapid.T) {
		events := history(t)
		victim := rapid.SampledFrom(events).Draw(t, "withdrawn")
		with := append(slices.Clone(events), observation.Event{ID: observation.ID{Device: "zoe", Seq: 1}, HLC: 1 << 40, Kind: "withdrawal.1",
			Observation: observation.Observation{Who: "zoe", Seen: []observation.ID{victim.ID}, Body: observation.Withdrawal{Reason: "misread"}}})
		var without []observation.Event
		for _, e := range events {
			if e.ID != victim.ID {
				without = append(without, e)
			}
		}
		if diff := cmp.Diff(fold(without), fold(with), facts); diff != "" {
			t.Fatalf("withdrawing %v:\n%s", victim.ID, diff)
		}
	})
}

func TestAWithdrawalMayItselfBeWithdrawn(t *testing.T) {
	event := func(seq uint64, subject observation.Thing, b observation.Body, seen ...uint64) observation.Event {
		e := observation.Event{ID: observation.ID{Device: "k", Seq: seq}, HLC: seq, Kind: b.Kind(), Observation: observation.Observation{Who: "Marit Sandvei", Subject: subject, Body: b}}
		for _, s := range seen {
			e.Seen = append(e.Seen, observation.ID{Device: "k", Seq: s})
		}
		return e
	}
	events := []observation.Event{
		event(1, "", observation.Building{Name: "A"}),
		event(2, "", observation.Withdrawal{Reason: "typed twice"}, 1),
		event(3, "", observation.Withdrawal{Reason: "it was right"}, 2),
	}
	if n := len(fold(events[:2]).Buildings); n != 0 {
		t.Errorf("%d buildings after the withdrawal, want none", n)
	}
	if n := len(fold(events).Buildings); n != 1 {
		t.Errorf("%d buildings after the withdrawal was withdrawn, want one", n)
	}
}

func TestNamesAreCountedAsPeopleCount(t *testing.T) {
	got := []string{"A02-10", "A02-9", "A10-1", "A2-1", "B1"}
	slices.SortFunc(got, compareNames)
	want := []string{"A2-1", "A02-9", "A02-10", "A10-1", "B1"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}

// Entries are what was recorded, each once; only withdrawals of nothing in
// particular are not among them.
func TestEntriesAreEachOnce(t *testing.T) {
	f := NewFold()
	building := observation.Event{ID: observation.ID{Device: "k7m3", Seq: 1}, HLC: 1, Kind: "building.1", Observation: observation.Observation{Body: observation.Building{Name: "A"}}}
	note := observation.Event{ID: observation.ID{Device: "k7m3", Seq: 2}, HLC: 2, Kind: "note.1", Observation: observation.Observation{Body: observation.Note{Text: "x"}}}
	off := observation.Event{ID: observation.ID{Device: "k7m3", Seq: 3}, HLC: 3, Kind: "decision.1", Observation: observation.Observation{Body: observation.Decision{About: "x", Reason: "y"}}}
	tours := []observation.ID{{Device: "k7m3", Seq: 4}, {Device: "k7m3", Seq: 5}}
	for _, id := range tours {
		f.Add(observation.Event{ID: id, HLC: id.Seq, Kind: "tour.1", Observation: observation.Observation{Body: observation.Tour{Name: "t", Means: observation.ByPairing}}})
	}
	both := observation.Event{ID: observation.ID{Device: "k7m3", Seq: 6}, HLC: 6, Kind: "resistor.1", Observation: observation.Observation{Under: tours, Body: observation.Resistor{}}}
	for _, e := range []observation.Event{both, off, note, building} {
		f.Add(e)
	}
	got := f.Installation().Entries()
	if len(got) != 6 {
		t.Fatalf("%d entries, want 6", len(got))
	}
	for i, e := range got {
		if e.Seq != uint64(i+1) {
			t.Errorf("entry %d is %s", i, e.ID)
		}
	}
}
