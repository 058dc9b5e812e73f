package trace

import (
	"fmt"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"asfound/evidence"
	"asfound/observation"
	"asfound/pattern"
	"asfound/quantity"
	"asfound/table"
)

// pairs plays a pairing tour past boxes in order: cables is, for each box, the
// cables that enter it; a cable that enters one box only is buried at its other
// end. It returns the trace and the tour.
func pairs(t testing.TB, cables [][]int) (*job, *Trace, observation.ID, pattern.ResistorSet) {
	j := newJob(t, nil, len(cables))
	decade, _ := table.Preferred("E96")
	set := pattern.Resistors(decade, 0.01, pattern.Meter{Relative: 0.009, AbsoluteOhm: 0.2}, conductorMax, 100, 100e3)
	tour := j.record("", "", nil, nil, observation.Tour{Name: "pairs", Means: observation.ByPairing, Tolerance: 0.01, MeterRelative: 0.009, MeterOhm: 0.2})
	on := map[int]quantity.Ohms{}
	for box, enter := range cables {
		number := fmt.Sprintf("A01-%02d", box+1)
		at, stop := j.opening[number], "s"+number
		j.letters(number, stop)
		for i, cable := range enter {
			hot := observation.Point{At: at, Cable: fmt.Sprint(i + 1), Wire: observation.Hot}
			value, met := on[cable]
			ground := hot
			ground.Wire = observation.EGC
			for range 2 {
				j.record("", stop, []observation.ID{tour}, nil, observation.Ohm{A: hot, B: ground, Reprobed: observation.Yes,
					Ohm: quantity.Resistance{Ohm: value + 1.5, Open: !met}})
				if !met {
					break
				}
			}
			if !met {
				p := j.trace().PairingOf(j.fold.Installation().Tour(tour), set)
				on[cable] = p.Free[0]
				j.record("", stop, []observation.ID{tour}, nil, observation.Resistor{On: hot, Ohm: p.Free[0]})
			}
		}
	}
	return j, j.trace(), tour, set
}

// Place or read: one tour pairs every cable both ends of which were visited,
// touching each end once, and names the ends whose other end was not found.
func TestOneTourPairsAllCables(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		n := rapid.IntRange(2, 6).Draw(rt, "boxes")
		boxes := make([][]int, n)
		ends := map[int]int{}
		for cable := range rapid.IntRange(1, 8).Draw(rt, "cables") {
			a, b := rapid.IntRange(0, n-1).Draw(rt, "from"), rapid.IntRange(0, n-1).Draw(rt, "to")
			boxes[a] = append(boxes[a], cable)
			ends[cable]++
			if b != a { // a cable back to the same box stands for one that is buried
				boxes[b] = append(boxes[b], cable)
				ends[cable]++
			}
		}
		j, tr, tour, set := pairs(t, boxes)
		in := j.fold.Installation()
		p := tr.PairingOf(in.Tour(tour), set)
		cableAt := func(pt observation.Point) int {
			o := in.Opening(pt.At)
			var box, tag int
			fmt.Sscanf(o.Number, "A01-%d", &box)
			fmt.Sscan(pt.Cable, &tag)
			return boxes[box-1][tag-1]
		}
		for _, l := range p.Pairs {
			if cableAt(l.End) != cableAt(l.Source.At) {
				rt.Fatalf("%s: a wrong pair", Say(in, l))
			}
			ends[cableAt(l.End)] -= 2
		}
		for _, put := range p.Out {
			ends[cableAt(put.On)]--
		}
		for cable, left := range ends {
			if left != 0 {
				rt.Fatalf("cable %d is neither paired nor left over: %d", cable, left)
			}
		}
	})
}

func TestBothEndsOfAPairSayTheSame(t *testing.T) {
	j, tr, _, _ := pairs(t, [][]int{{7}, {7, 8}})
	in := j.fold.Installation()
	near := tr.At(j.opening["A01-01"])[0]
	far := tr.At(j.opening["A01-02"])[0]
	if Say(in, near) != "the hot of cable 1 at A01-01 is the other end of A01-02, hot of cable 1" || near.Verdict.Standing != far.Verdict.Standing {
		t.Errorf("%s (%v) and %s (%v)", Say(in, near), near.Verdict.Standing, Say(in, far), far.Verdict.Standing)
	}
	if far.Verdict.Standing != evidence.Likely || far.Verdict.Depth < 1 {
		t.Errorf("%v depth %d: %s", far.Verdict.Standing, far.Verdict.Depth, far.FalseOnlyIf())
	}
	alone := tr.At(j.opening["A01-02"])[1]
	if alone.Verdict.Standing != evidence.Untested {
		t.Errorf("the end of a cable whose other end was never met is %v: %s", alone.Verdict.Standing, Say(in, alone))
	}
	if len(near.Against()) == 0 || !slices.ContainsFunc(near.Against()[0].Doubts, func(d evidence.Doubt) bool { return d.Words != "" }) {
		t.Errorf("no explanation against: %v", near.Against())
	}
}
