package count

import (
	"fmt"
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	"asfound/installation"
	"asfound/observation"
)

// byLooking pairs by number as a person would: for each mark, a look at
// everything drawn and found in its room that nobody said anything of.
func byLooking(in *installation.Installation) map[*installation.Opening]*installation.Drawn {
	said := map[*installation.Opening]bool{}
	open := func(d *installation.Drawn) bool { return outcome(d).Is == "" || outcome(d).Is == observation.NotLooked }
	for _, d := range in.Drawn {
		if as := in.Opening(outcome(d).As); as != nil {
			said[as] = true
		}
	}
	out := map[*installation.Opening]*installation.Drawn{}
	for _, d := range in.Drawn {
		var marks []*installation.Drawn
		var numbers []*installation.Opening
		for _, x := range in.Drawn {
			if open(x) && x.Room == d.Room && keyOf(x.Mark) == keyOf(d.Mark) {
				marks = append(marks, x)
			}
		}
		for _, o := range in.Openings {
			if !said[o] && o.Room == d.Room && keyOf(o.Number) == keyOf(d.Mark) {
				numbers = append(numbers, o)
			}
		}
		if open(d) && keyOf(d.Mark) != "" && len(marks) == 1 && len(numbers) == 1 {
			out[numbers[0]] = d
		}
	}
	return out
}

// Pairs by number, and marks given twice, are those that looking at everything
// for each one finds.
func TestComparedAsByLooking(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := drawHouse(t).installation()
		got, want := Compare(in, ""), byLooking(in)
		for _, p := range got.Pairs {
			if !p.Said && (len(p.Drawn) != 1 || want[p.Found] != p.Drawn[0]) {
				t.Fatalf("%s is paired by number; looking finds %v", p.Found.Number, want[p.Found])
			}
			if !p.Said {
				delete(want, p.Found)
			}
		}
		if len(want) != 0 {
			t.Fatalf("not paired: %d", len(want))
		}
		for _, d := range in.Drawn {
			same := 0
			for _, x := range in.Drawn {
				if x.Room == d.Room && keyOf(x.Mark) == keyOf(d.Mark) {
					same++
				}
			}
			listed := slices.ContainsFunc(got.Twice, func(x Twice) bool { return slices.Contains(x.Drawn, d) })
			if listed != (d.Mark != "" && same > 1) {
				t.Fatalf("mark %q stands %d times in its room; listed as given twice: %t", d.Mark, same, listed)
			}
		}
		for _, o := range in.Openings {
			listed := slices.ContainsFunc(got.Twice, func(x Twice) bool { return slices.Contains(x.Found, o) })
			if listed != (len(in.Numbered(o.Number)) > 1) {
				t.Fatalf("number %q is borne by %d; listed as given twice: %t", o.Number, len(in.Numbered(o.Number)), listed)
			}
		}
	})
}

// A property of 4,000 openings with as many drawn is compared in a blink; looking
// at each of them for each took two seconds a page.
func TestCompareALargeProperty(t *testing.T) {
	h := newHouse()
	h.building("A")
	for r := range 200 {
		room := fmt.Sprintf("r%d", r)
		h.room("A", room)
		for i := range 20 {
			h.opening(room, fmt.Sprintf("A%d-%d", r, i), observation.Receptacle)
			h.drawn(room, fmt.Sprintf("A%d-%d", r, i), observation.Receptacle)
		}
	}
	in := h.installation()
	start := time.Now()
	got := Compare(in, "")
	if took := time.Since(start); took > 500*time.Millisecond {
		t.Errorf("took %v", took)
	}
	if len(got.Pairs) != 4000 || len(got.Missing) != 0 || len(got.Extra) != 0 || len(got.Twice) != 0 {
		t.Errorf("%d pairs, %d missing, %d extra, %d twice", len(got.Pairs), len(got.Missing), len(got.Extra), len(got.Twice))
	}
}
