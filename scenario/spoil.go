package scenario

import (
	"slices"

	"asfound/quantity"
	"asfound/trace"
)

// spoil puts the faults of the size into a property wired as it should be.
func (g *generator) spoil() {
	f := g.shape.faults
	for range f.joined {
		g.join()
	}
	for range f.oneLeg {
		g.oneLeg()
	}
	for range f.misTied {
		g.misTie()
	}
	for range f.foreign {
		g.foreign()
	}
	for i := range f.dead {
		o := &g.Truth.Openings[g.spare(func(Opening) bool { return true })]
		o.Circuit = Dead
		if f.bare && i == 0 {
			o.Ground, o.Neutral = false, false
		}
	}
	for range f.color {
		g.Truth.Openings[g.rng.IntN(len(g.Truth.Openings))].OddColor = true
	}
	for _, p := range g.rng.Perm(len(g.Panels))[:f.junction] {
		g.Panels[p].Junction = true
	}
	for range f.loads {
		g.Circuits[g.shared(func(c int) bool { return !g.isJoined(c) })].Load = quantity.Ohms(100 + g.rng.IntN(150))
	}
}

// shared draws a single-pole circuit made for several openings.
func (g *generator) shared(fit func(c int) bool) int {
	for {
		c := g.rng.IntN(len(g.Circuits))
		if !g.Circuits[c].Dedicated && fit(c) {
			return c
		}
	}
}

// join puts copper between two circuits on the same leg of one panel.
func (g *generator) join() {
	for {
		a := g.shared(func(c int) bool { return !g.isJoined(c) })
		b := g.rng.IntN(len(g.Circuits))
		x, y := g.Circuits[a], g.Circuits[b]
		if a != b && !y.Dedicated && !g.isJoined(b) && x.Panel == y.Panel && trace.Leg(x.Space) == trace.Leg(y.Space) {
			g.Joins = append(g.Joins, [2]int{min(a, b), max(a, b)})
			return
		}
	}
}

func (g *generator) isJoined(c int) bool {
	return slices.ContainsFunc(g.Joins, func(j [2]int) bool { return j[0] == c || j[1] == c })
}

// oneLeg makes two circuits of one leg share a neutral, which no ohm reading of
// a hot can tell.
func (g *generator) oneLeg() {
	for {
		a, b := g.rng.IntN(len(g.Circuits)), g.rng.IntN(len(g.Circuits))
		x, y := g.Circuits[a], g.Circuits[b]
		if a < b && x.Poles == 1 && y.Poles == 1 && x.Panel == y.Panel && trace.Leg(x.Space) == trace.Leg(y.Space) {
			g.OneLeg = append(g.OneLeg, [2]int{a, b})
			return
		}
	}
}

// misTie splices an opening onto another circuit of its panel.
func (g *generator) misTie() {
	o := &g.Truth.Openings[g.spare(func(Opening) bool { return true })]
	panel := g.Circuits[o.Circuit].Panel
	o.Circuit = g.shared(func(c int) bool { return c != o.Circuit && g.Circuits[c].Panel == panel })
	o.MisTied = true
}

// foreign feeds an opening from another building, over a long run between them.
func (g *generator) foreign() {
	o := &g.Truth.Openings[g.spare(func(Opening) bool { return true })]
	building := g.Rooms[o.Room].Building
	o.Circuit = g.shared(func(c int) bool { return g.Panels[g.Circuits[c].Panel].Building != building })
	o.Length += quantity.Feet(175 + g.rng.IntN(285))
	o.Foreign = true
}
