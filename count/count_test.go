package count

import (
	"fmt"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"asfound/evidence"
	"asfound/installation"
	"asfound/observation"
	"asfound/quantity"
	"asfound/trace"
)

// house is a job of one device, in the order recorded.
type house struct {
	events []observation.Event
	at     map[string]observation.Thing
}

func newHouse() *house { return &house{at: map[string]observation.Thing{}} }

func (h *house) record(at observation.Thing, b observation.Body) observation.Thing {
	n := uint64(len(h.events) + 1)
	id := observation.ID{Device: "k", Seq: n}
	h.events = append(h.events, observation.Event{ID: id, HLC: n, Kind: b.Kind(),
		Observation: observation.Observation{Who: "Marit Sandvei", Subject: at, Body: b}})
	return id.Thing()
}

func (h *house) building(name string) { h.at[name] = h.record("", observation.Building{Name: name}) }

func (h *house) room(building, name string) {
	h.at[name] = h.record("", observation.Room{Building: h.at[building], Name: name, Order: len(h.at)})
}

func (h *house) opening(room, number string, use observation.OpeningUse) observation.Thing {
	t := h.record("", observation.Opening{Room: h.at[room], Number: number, Use: use, Order: len(h.events)})
	h.at[number] = t
	return t
}

func (h *house) drawn(room, mark string, use observation.OpeningUse) observation.Thing {
	return h.record("", observation.Drawn{Room: h.at[room], Mark: mark, Use: use})
}

func (h *house) installation() *installation.Installation { return fold(h.events) }

func fold(events []observation.Event) *installation.Installation {
	f := installation.NewFold()
	for _, e := range events {
		f.Add(e)
	}
	return f.Installation()
}

// told is a comparison in words, for tests.
func told(in *installation.Installation, d Differences) []string {
	var out []string
	for _, p := range d.Pairs {
		text := "pair " + p.Found.Number
		for _, x := range p.Drawn {
			text += " = " + string(x.Thing)
		}
		out = append(out, fmt.Sprintf("%s said %t", text, p.Said))
	}
	for _, m := range d.Missing {
		out = append(out, fmt.Sprintf("missing %s %q %q gone %t near %d", m.Thing, m.Is, m.How, m.Gone, len(m.Near)))
	}
	for _, o := range d.Extra {
		out = append(out, "extra "+o.Number)
	}
	for _, c := range d.Counted {
		out = append(out, fmt.Sprintf("counted %s %s %d drawn %d found", in.Name(c.Room), c.Use, len(c.Drawn), len(c.Found)))
	}
	for _, t := range d.Twice {
		out = append(out, fmt.Sprintf("twice %s %d %d", t.Number, len(t.Found), len(t.Drawn)))
	}
	return out
}

func TestCompare(t *testing.T) {
	h := newHouse()
	h.building("A")
	h.room("A", "Kitchen")
	h.room("A", "Study")
	for _, n := range []string{"A01-01", "A01-02", "A01-03"} {
		h.opening("Kitchen", n, observation.Receptacle)
	}
	h.opening("Kitchen", "A01-04", observation.Switch)
	h.opening("Study", "A02-01", observation.Lighting)
	same := h.drawn("Kitchen", "a01-01", observation.Receptacle)
	var rest []observation.Thing
	for range 4 {
		rest = append(rest, h.drawn("Kitchen", "", observation.Receptacle))
	}
	lamp := h.drawn("Study", "", observation.Switch)
	h.record(rest[0], observation.Reconciled{Is: observation.NeverRoughed, How: "insulation seen, no box"})
	h.record(rest[1], observation.Reconciled{Is: observation.FoundAs, As: h.at["A01-02"]})
	in := h.installation()
	want := []string{
		"pair A01-01 = " + string(same) + " said false",
		"pair A01-02 = " + string(rest[1]) + " said true",
		"missing " + string(rest[0]) + ` "neverroughed" "insulation seen, no box" gone false near 0`,
		"missing " + string(lamp) + ` "" "" gone false near 0`,
		"extra A01-04", "extra A02-01",
		"counted Kitchen receptacle 2 drawn 1 found",
	}
	got := Compare(in, "")
	if diff := cmp.Diff(want, told(in, got)); diff != "" {
		t.Error(diff)
	}
	if short := got.Counted[0].Short(); short != 1 {
		t.Errorf("%d short, want 1", short)
	}
	if over := got.Counted[0].Over(); over != 0 {
		t.Errorf("%d over, want none", over)
	}
}

// A drawn opening that was found, and whose opening is withdrawn since, is not
// found any more.
func TestFoundAndGone(t *testing.T) {
	h := newHouse()
	h.building("A")
	h.room("A", "Kitchen")
	o := h.opening("Kitchen", "A01-01", observation.Receptacle)
	d := h.drawn("Kitchen", "", observation.Receptacle)
	h.record(d, observation.Reconciled{Is: observation.FoundAs, As: o})
	id, err := observation.ParseID(string(o))
	if err != nil {
		t.Fatal(err)
	}
	h.record("", observation.Withdrawal{Reason: "no box there"})
	h.events[len(h.events)-1].Seen = []observation.ID{id}
	got := Compare(h.installation(), "")
	if len(got.Missing) != 1 || !got.Missing[0].Gone || len(got.Pairs) != 0 {
		t.Errorf("got %+v", got)
	}
}

// drawn draws a property with drawings, in which marks and numbers are given
// twice, and outcomes name anything.
func drawHouse(t *rapid.T) *house {
	h := newHouse()
	rooms := []string{"r1", "r2", "r3"}
	h.building("A")
	h.building("B")
	for i, r := range rooms {
		h.room([]string{"A", "A", "B"}[i], r)
	}
	number := rapid.SampledFrom([]string{"1", "2", "3", "A01-01", "a01-01"})
	use := rapid.SampledFrom([]observation.OpeningUse{observation.Receptacle, observation.Switch, observation.NoUse})
	var found, drawn []observation.Thing
	for range rapid.IntRange(0, 6).Draw(t, "found") {
		o := h.opening(rapid.SampledFrom(rooms).Draw(t, "room"), number.Draw(t, "number"), use.Draw(t, "use"))
		found = append(found, o)
		if rapid.Bool().Draw(t, "has a spot") {
			h.record(o, observation.Spot{Wall: rapid.SampledFrom(observation.Walls).Draw(t, "wall"), Along: 20})
		}
	}
	for range rapid.IntRange(0, 6).Draw(t, "drawn") {
		mark := ""
		if rapid.Bool().Draw(t, "marked") {
			mark = number.Draw(t, "mark")
		}
		drawn = append(drawn, h.drawn(rapid.SampledFrom(rooms).Draw(t, "room"), mark, use.Draw(t, "use")))
	}
	for range rapid.IntRange(0, 5).Draw(t, "outcomes") {
		if len(drawn) == 0 || len(found) == 0 {
			break
		}
		r := observation.Reconciled{Is: rapid.SampledFrom([]observation.Outcome{observation.NotLooked, observation.FoundAs, observation.NeverRoughed, observation.CoveredOver}).Draw(t, "outcome")}
		if r.Is == observation.FoundAs {
			r.As = rapid.SampledFrom(found).Draw(t, "as")
		} else if r.Is != observation.NotLooked {
			r.How = "looked"
		}
		h.record(rapid.SampledFrom(drawn).Draw(t, "of"), r)
	}
	h.record(h.at["r1"], observation.RoomSize{Width: 300, Depth: 300, Spaced: observation.Yes})
	h.record(h.at["r1"], observation.Doorway{Wall: observation.FrontWall, From: 0, To: 36})
	if rapid.Bool().Draw(t, "one withdrawn") && len(found) > 0 {
		id, _ := observation.ParseID(string(rapid.SampledFrom(found).Draw(t, "gone")))
		h.record("", observation.Withdrawal{Reason: "wrong"})
		h.events[len(h.events)-1].Seen = []observation.ID{id}
	}
	return h
}

// Every drawn opening is in exactly one list, and so is every found one.
func TestEachIsToldOnce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := drawHouse(t).installation()
		d := Compare(in, "")
		drawn, found := map[*installation.Drawn]int{}, map[*installation.Opening]int{}
		for _, p := range d.Pairs {
			found[p.Found]++
			for _, x := range p.Drawn {
				drawn[x]++
			}
		}
		for _, m := range d.Missing {
			drawn[m.Drawn]++
		}
		for _, o := range d.Extra {
			found[o]++
		}
		for _, c := range d.Counted {
			if len(c.Drawn) == 0 || len(c.Found) == 0 || c.Short() > 0 && c.Over() > 0 {
				t.Fatalf("counted %+v", c)
			}
			for _, x := range c.Drawn {
				drawn[x]++
			}
			for _, o := range c.Found {
				found[o]++
			}
		}
		for _, x := range in.Drawn {
			if drawn[x] != 1 {
				t.Fatalf("the drawn %s is told %d times:\n%q", x.Thing, drawn[x], told(in, d))
			}
		}
		for _, o := range in.Openings {
			if found[o] != 1 {
				t.Fatalf("%s is told %d times:\n%q", o.Number, found[o], told(in, d))
			}
		}
		if d.Drawn != len(in.Drawn) {
			t.Fatalf("%d drawn, want %d", d.Drawn, len(in.Drawn))
		}
	})
}

func TestOrderOfArrivalChangesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := drawHouse(t)
		want, other := h.installation(), fold(rapid.Permutation(slices.Clone(h.events)).Draw(t, "arrival"))
		if diff := cmp.Diff(told(want, Compare(want, "")), told(other, Compare(other, ""))); diff != "" {
			t.Fatal(diff)
		}
	})
}

// The parts of the property add up to the whole.
func TestCoverageAddsUp(t *testing.T) {
	h := newHouse()
	h.building("A")
	h.building("B")
	h.room("A", "Kitchen")
	h.room("B", "Bay")
	h.record(h.opening("Kitchen", "A01-01", observation.Receptacle), observation.NotReached{Why: "locked"})
	h.record(h.opening("Kitchen", "A01-02", observation.Receptacle), observation.CannotRead{Why: "covered"})
	read := h.opening("Bay", "B01-01", observation.NoUse)
	h.record("", observation.Ohm{A: observation.Point{At: read, Wire: observation.Hot}, B: observation.Point{At: read, Wire: observation.EGC}})
	h.opening("Bay", "B01-02", observation.Equipment)
	in := h.installation()
	line := &trace.Line{End: observation.Point{At: read, Wire: observation.Hot}}
	line.Verdict.Standing = evidence.Likely
	tr := &trace.Trace{Lines: []*trace.Line{line}}
	want := map[string]Coverage{
		"A": {Openings: 2, Visits: [Read + 1]int{NotReached: 1, CannotRead: 1}},
		"B": {Openings: 2, Visits: [Read + 1]int{Read: 1, NotVisited: 1}, Lines: [evidence.Clash + 1]int{evidence.Likely: 1}},
		"":  {Openings: 4, Visits: [Read + 1]int{1, 1, 1, 1}, Lines: [evidence.Clash + 1]int{evidence.Likely: 1}},
	}
	for name, w := range want {
		if diff := cmp.Diff(w, CoverageOf(in, tr, h.at[name])); diff != "" {
			t.Errorf("%q: %s", name, diff)
		}
	}
	uses := ByUse(in, "")
	if len(uses) != 3 || uses[0].Use != observation.Receptacle || uses[0].Openings != 2 || uses[0].NoGangs != 2 {
		t.Errorf("by use %+v", uses)
	}
}

// A gap names the openings at its ends, and is told only where somebody said that
// the rule applies and all was measured.
func TestGapsNameTheOpenings(t *testing.T) {
	h := newHouse()
	h.building("A")
	h.room("A", "Study")
	study := h.at["Study"]
	for _, r := range []struct {
		number string
		along  quantity.Inches
	}{{"A02-01", 36 + 72}, {"A02-02", 36 + 72 + 13*12}} {
		o := h.record("", observation.Opening{Room: study, Number: r.number, Use: observation.Receptacle, Height: 16})
		h.record(o, observation.Spot{Wall: observation.FrontWall, Along: r.along})
	}
	h.record(study, observation.Doorway{Wall: observation.FrontWall, From: 0, To: 36})
	tell := func() RoomSpacing {
		in := h.installation()
		return SpacingOf(in, in.Room(study))
	}
	if got := tell(); got.Applies != observation.NotKnown || len(got.Gaps) > 0 {
		t.Errorf("nobody said that it applies, and it is told: %+v", got)
	}
	h.record(study, observation.RoomSize{Width: 27 * 12, Spaced: observation.Yes})
	if got := tell(); len(got.Gaps) > 0 || !slices.Contains(got.Cannot, "the length of the left wall was not measured") {
		t.Errorf("the depth is not known, and it is told: %+v", got)
	}
	h.record(study, observation.RoomSize{Width: 27 * 12, Depth: 36, Spaced: observation.Yes})
	h.record(study, observation.Doorway{Wall: observation.LeftWall, From: 0, To: 36})
	h.record(study, observation.Doorway{Wall: observation.RightWall, From: 0, To: 36})
	h.record(study, observation.Doorway{Wall: observation.BackWall, From: 0, To: 27 * 12})
	lost := h.drawn("Study", "", observation.Receptacle)
	h.record(lost, observation.Reconciled{Is: observation.NotLooked})
	got := tell()
	if len(got.Gaps) != 1 || got.Gaps[0].Beyond != 12 || got.Gaps[0].Left.Number != "A02-01" || got.Gaps[0].Right.Number != "A02-02" {
		t.Errorf("gaps %+v, want one of 13 ft between the two", got.Gaps)
	}
}
