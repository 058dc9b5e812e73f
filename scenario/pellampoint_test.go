package scenario

import (
	"math"
	"slices"
	"testing"

	"asfound/evidence"
	"asfound/observation"
	"asfound/pellam"
	"asfound/trace"
)

func pellamPoint(t *testing.T) *PellamPoint {
	t.Helper()
	w, err := NewPellamPoint()
	if err != nil {
		t.Fatal(err)
	}
	return w
}

// What is to be seen at the demo property: two openings are covered by finish,
// the boathouse's cables, its feeder too, are all coiled in its panel. Of A1's 42
// circuits one has no cable and eight are coiled.
func TestPellamPointAsSeen(t *testing.T) {
	v := pellamPoint(t).View()
	covered, ends := 0, 0
	for _, b := range v.Boxes {
		ends += len(b.Ends)
		if b.Covered {
			covered++
		}
	}
	if len(v.Boxes) != 312 || covered != 2 || ends != 454 {
		t.Errorf("%d openings, %d covered, %d ends; want 312, 2, 454", len(v.Boxes), covered, ends)
	}
	for i, want := range []struct {
		name                     string
		breakers, coiled, passes int
	}{{"A1", 33, 8, 0}, {"A2", 5, 2, 19}, {"B1", 14, 1, 0}, {"C1", 0, 16, 0}, {"D1", 18, 2, 0}} {
		p := v.Panels[i]
		if p.Name != want.name || len(p.Breakers) != want.breakers || len(p.Coiled) != want.coiled || p.Passing != want.passes {
			t.Errorf("%s: %d breakers, %d coiled, %d passing; want %+v", p.Name, len(p.Breakers), len(p.Coiled), p.Passing, want)
		}
	}
}

// The isolation test of A1 shows what a net made for each reading shows: every
// space against all others and against the bars, before and after feeds are
// joined to legs.
func TestPellamPointIsolation(t *testing.T) {
	w := pellamPoint(t)
	r := newRig()
	var spaces []int
	for _, b := range w.view.Panels[0].Breakers {
		spaces = append(spaces, b.Number)
	}
	joined := 0
	for range 2 {
		for i, a := range spaces {
			rest := slices.Delete(slices.Clone(spaces), i, i+1)
			clips := w.clips(r)
			for _, s := range rest {
				clips = append(clips, [2]pellam.Node{pellam.SpaceAt{Panel: "A1", Space: rest[0]}.Node(), pellam.SpaceAt{Panel: "A1", Space: s}.Node()})
			}
			want := w.Found.Wiring.In(pellam.State{Clips: clips}).Ohm(pellam.SpaceAt{Panel: "A1", Space: a}.Node(), pellam.SpaceAt{Panel: "A1", Space: rest[0]}.Node())
			if got := w.Isolation(r, 0, []int{a}, observation.AgainstSpaces, rest); got.Open != want.Open || math.Abs(float64(got.Ohm-want.Ohm)) > 1e-6 {
				t.Errorf("A1-%d: %v, want %v", a, got, want)
			}
			if !want.Open {
				joined++
			}
		}
		for i, b := range w.view.Boxes { // in one box two circuits' feeds to one leg
			if b.Number == "A01-01" {
				r.clip(Clip{Box: i, Feed: b.Joins[0][0], Leg: b.Joins[0][1]})
				r.clip(Clip{Box: i, Feed: b.Joins[1][0], Leg: b.Joins[0][1]})
			}
		}
	}
	if joined == 0 {
		t.Error("nothing was joined: the test shows nothing")
	}
}

// Half of the tour, by people who make no mistakes: nothing settled or likely is
// wrong, and of what reaches the panels everything read is at least likely.
func TestPellamPointHalfPlayed(t *testing.T) {
	w := pellamPoint(t)
	p := play(t, w, people(1, Rates{}), HalfTour)
	s := p.Score()
	if len(s.WrongSettled)+len(s.WrongLikely) > 0 {
		for _, x := range append(s.WrongSettled, s.WrongLikely...) {
			t.Errorf("%s, %v: %s", trace.Say(p.AsFound.Installation, x.Line), x.Line.Verdict.Standing, x.Line.FalseOnlyIf())
		}
	}
	for _, l := range p.AsFound.Trace.Lines {
		reached := len(w.Reaching(p.Rig, End{p.Box[l.End.At], l.End.Cable})) > 0
		if firm := l.Verdict.Standing == evidence.Likely || l.Verdict.Standing == evidence.Settled; reached && !firm && !l.Closed && l.Source.Kind != trace.Outside {
			t.Errorf("%s, %v", trace.Say(p.AsFound.Installation, l), l.Verdict.Standing)
		}
	}
	if s.Lines < 150 {
		t.Errorf("%d lines, want half of the property", s.Lines)
	}
}
