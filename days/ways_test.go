package days

import (
	"fmt"
	"math"
	"testing"
	"time"

	"pgregory.net/rapid"

	"asfound/installation"
	"asfound/observation"
	"asfound/quantity"
)

// houses records buildings and paths between them.
func houses(n int, paths [][3]int) (*installation.Installation, []observation.Thing) {
	f, seq := installation.NewFold(), uint64(0)
	add := func(subject observation.Thing, b observation.Body) observation.Thing {
		seq++
		e := observation.Event{ID: observation.ID{Device: "k", Seq: seq}, HLC: seq << 16, Wall: start, Kind: b.Kind(),
			Observation: observation.Observation{Who: marit, Subject: subject, Body: b}}
		f.Add(e)
		return e.ID.Thing()
	}
	var out []observation.Thing
	for i := range n {
		out = append(out, add("", observation.Building{Name: fmt.Sprint(i)}))
	}
	for _, p := range paths {
		add(out[p[0]], observation.Path{To: out[p[1]], Feet: quantity.Feet(p[2])})
	}
	return f.Installation(), out
}

// The quickest way between two buildings is what trying every building in
// between gives (Floyd, Algorithm 97, CACM 5(6), 1962; from memory).
func TestQuickestWayOutdoors(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		n := rapid.IntRange(2, 7).Draw(rt, "buildings")
		var want [7][7]float64
		for a := range n {
			for b := range n {
				if a != b {
					want[a][b] = math.Inf(1)
				}
			}
		}
		var paths [][3]int
		for range rapid.IntRange(0, 10).Draw(rt, "paths") {
			a, b, feet := rapid.IntRange(0, n-1).Draw(rt, "from"), rapid.IntRange(0, n-1).Draw(rt, "to"), rapid.IntRange(1, 900).Draw(rt, "feet")
			if a == b {
				continue
			}
			paths = append(paths, [3]int{a, b, feet})
		}
		in, things := houses(n, paths)
		index := map[observation.Thing]int{}
		for i, thing := range things {
			index[thing] = i
		}
		for _, b := range in.Buildings {
			for _, e := range b.Paths {
				p := e.Body.(observation.Path)
				x, y, s := index[b.Thing], index[p.To], float64(p.Feet)/snowSpeed
				want[x][y], want[y][x] = min(want[x][y], s), min(want[y][x], s)
			}
		}
		for via := range n {
			for a := range n {
				for b := range n {
					want[a][b] = min(want[a][b], want[a][via]+want[via][b])
				}
			}
		}
		w := newWays(in)
		for a := range n {
			for b := range n {
				if a == b {
					continue
				}
				s := want[a][b]
				if math.IsInf(s, 1) {
					s = betweenFeet / snowSpeed
				}
				if got := w.between(things[a], things[b]); math.Abs(got-s) > 1e-6 {
					rt.Fatalf("from %d to %d: %v s, want %v", a, b, got, s)
				}
			}
		}
	})
}

// A card asks for the ways from where a person stands, and pays for no others.
func TestWaysOfManyBuildings(t *testing.T) {
	const n = 500
	var paths [][3]int
	for i := 1; i < n; i++ {
		paths = append(paths, [3]int{i - 1, i, 90})
	}
	in, things := houses(n, paths)
	begin := time.Now()
	w := newWays(in)
	if got, want := w.between(things[0], things[n-1]), 30.0*(n-1); math.Abs(got-want) > 1e-3 {
		t.Errorf("%v s from end to end, want %v", got, want)
	}
	if took := time.Since(begin); took > 2*time.Second {
		t.Errorf("%v for one card's ways among %d buildings", took, n)
	}
	if len(w.quickest) != 1 {
		t.Errorf("ways worked out from %d buildings, want 1", len(w.quickest))
	}
}
