package drawing_test

import (
	"fmt"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"asfound/drawing"
	"asfound/observation"
	"asfound/paper"
)

// poweredHouse has a utility and a generator, four panels fed in turn, one of
// them by both, and one that nothing on record feeds.
func poweredHouse() *house {
	h := newHouse(12)
	main := h.fold.Installation().Panel(h.panel).Building
	panel := func(name string) observation.Thing {
		return h.add("", observation.Panel{Building: main, Name: name, Spaces: 8})
	}
	a2, c1, d1, e1 := panel("A2"), panel("C1"), panel("D1"), panel("E1")
	utility := h.add("", observation.Source{Name: "utility", Of: observation.Utility, Disconnect: "the service disconnect on the north wall"})
	generator := h.add("", observation.Source{Name: "G1", Of: observation.Generator, Starts: observation.Yes})
	h.add("", observation.Feeder{From: utility, To: h.panel, How: observation.BasisTested, Wires: "4/0 aluminum"})
	h.add("", observation.Feeder{From: h.panel, Space: 1, To: a2, How: observation.BasisLabel})
	h.add("", observation.Feeder{From: h.panel, Space: 9, To: c1, How: observation.BasisAssumed, Way: "1-1/2 in PVC underground"})
	h.add("", observation.Feeder{From: generator, To: a2})
	h.add("", observation.Feeder{To: d1, How: observation.BasisLabel})
	h.add(h.panel, observation.LockOut{Device: "lock 4"})
	_ = e1
	return h
}

func goLink(t observation.Thing) string { return "panel/" + string(t) }

func TestOneLineGolden(t *testing.T) {
	in := poweredHouse().fold.Installation()
	golden(t, "oneline.svg", paper.SVG(drawing.OneLine(in, 150, goLink), paper.SVGOptions{}))
	golden(t, "oneline-narrow.svg", paper.SVG(drawing.OneLine(in, 72, goLink), paper.SVGOptions{}))
}

// Whatever feeders are on record, rings and doubles too, each source and each
// panel stands there once, and each feeder has its row.
func TestOneLineHoldsEverything(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := newHouse(12)
		main := h.fold.Installation().Panel(h.panel).Building
		panels := []observation.Thing{h.panel}
		for i := range rapid.IntRange(0, 5).Draw(t, "panels") {
			panels = append(panels, h.add("", observation.Panel{Building: main, Name: fmt.Sprint("P", i), Spaces: 4}))
		}
		from := append([]observation.Thing{""}, panels...)
		for i := range rapid.IntRange(0, 2).Draw(t, "sources") {
			from = append(from, h.add("", observation.Source{Name: fmt.Sprint("S", i), Of: observation.Solar}))
		}
		feeders := 0
		for range rapid.IntRange(0, 8).Draw(t, "feeders") {
			f := observation.Feeder{From: rapid.SampledFrom(from).Draw(t, "from"), To: rapid.SampledFrom(panels).Draw(t, "to")}
			if f.From != f.To {
				h.add("", f)
				feeders++
			}
		}
		in := h.fold.Installation()
		seen, fed := map[observation.Thing]int{}, 0
		rows := drawing.OneLineRows(in)
		for _, r := range rows {
			if r.Thing != "" && r.About != "drawn above" {
				seen[r.Thing]++
			}
			if r.Fed != "" && r.Fed != "no feeder on record" {
				fed++
			}
		}
		for _, thing := range slices.Concat(panels, from[1+len(panels):]) {
			if seen[thing] != 1 {
				t.Fatalf("%s stands %d times in %+v", in.Name(thing), seen[thing], rows)
			}
		}
		if fed != feeders {
			t.Fatalf("%d feeders drawn of %d", fed, feeders)
		}
		for _, width := range []float64{72, 180} {
			if p := drawing.OneLine(in, width, nil); p.Height < 20 {
				t.Fatalf("%v mm high", p.Height)
			}
		}
	})
}
