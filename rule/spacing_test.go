package rule

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"asfound/quantity"
)

func feet(f float64) quantity.Inches { return quantity.Inches(12 * f) }

// at are receptacles at ordinary height, so many feet along.
func at(along ...float64) []Receptacle {
	var out []Receptacle
	for i, a := range along {
		out = append(out, Receptacle{Name: string(rune('a' + i)), Along: feet(a), Height: 16})
	}
	return out
}

// oneWall is a floor line of which only the first wall, so many feet long, is a
// wall space: the others are one wide break.
func oneWall(long float64, rs ...Receptacle) FloorLine {
	all := []Stretch{{0, feet(long)}}
	return FloorLine{Walls: []Wall{{Name: "front wall", Length: feet(long), Receptacles: rs},
		{Name: "left wall", Length: feet(long), Breaks: all}, {Name: "back wall", Length: feet(long), Breaks: all}, {Name: "right wall", Length: feet(long), Breaks: all}}}
}

// Text of NEC 210.52(A)(1) to (3) and 210.52 (from memory), as handbooks draw
// it: 6 ft from each doorway to the first receptacle and 12 ft between two are
// the most.
func TestSpacingByTheText(t *testing.T) {
	high, floorNear, floorFar := at(6), at(6), at(6)
	high[0].Height = 67
	floorNear[0] = Receptacle{Name: "f", Along: feet(6), Floor: true, OffWall: 18}
	floorFar[0] = Receptacle{Name: "f", Along: feet(6), Floor: true, OffWall: 19}
	for name, c := range map[string]struct {
		f    FloorLine
		want string
	}{
		"12 ft wall, one in its middle":                 {oneWall(12, at(6)...), ""},
		"12 ft wall, one at its end":                    {oneWall(12, at(0)...), "a-end 12 beyond 6"},
		"24 ft wall, 12 ft apart":                       {oneWall(24, at(6, 18)...), ""},
		"25 ft wall, 13 ft apart":                       {oneWall(25, at(6, 19)...), "a-b 13 beyond 1"},
		"first one 7 ft from the doorway":               {oneWall(13, at(7)...), "end-a 7 beyond 1"},
		"wall space of 2 ft without one":                {oneWall(2), "end-end 2 beyond 2"},
		"wall space of less than 2 ft":                  {oneWall(1.9), ""},
		"5-1/2 ft above the floor is the most":          {oneWall(12, high...), "end-end 12 beyond 12"},
		"floor receptacle 18 in from the wall counts":   {oneWall(12, floorNear...), ""},
		"floor receptacle beyond 18 in does not":        {oneWall(12, floorFar...), "end-end 12 beyond 12"},
		"around a corner, 4 ft on one wall, 8 on other": {corner(), ""},
		"a short piece beside a doorway, around corner": {cornerPiece(), "end-end 2 beyond 2"},
	} {
		got := Spacing(c.f)
		if len(got.Cannot) > 0 {
			t.Errorf("%s: cannot tell: %v", name, got.Cannot)
		}
		if said := say(got.Gaps); said != c.want {
			t.Errorf("%s: gaps %q, want %q", name, said, c.want)
		}
	}
}

// corner has 8 ft of the left wall and 4 ft of the front wall in one wall space,
// with one receptacle 6 ft from either end.
func corner() FloorLine {
	return FloorLine{Walls: []Wall{
		{Name: "front wall", Length: feet(10), Breaks: []Stretch{{0, feet(6)}}},
		{Name: "left wall", Length: feet(10), Breaks: []Stretch{{feet(8), feet(10)}}, Receptacles: at(2)},
		{Name: "back wall", Length: feet(10), Breaks: []Stretch{{0, feet(10)}}},
		{Name: "right wall", Length: feet(10), Breaks: []Stretch{{0, feet(10)}}}}}
}

// cornerPiece has 1 ft at the end of the last wall and 1 ft at the beginning of
// the first: together a wall space of 2 ft.
func cornerPiece() FloorLine {
	return FloorLine{Walls: []Wall{
		{Name: "front wall", Length: feet(10), Breaks: []Stretch{{feet(1), feet(10)}}},
		{Name: "left wall", Length: feet(10), Breaks: []Stretch{{0, feet(10)}}},
		{Name: "back wall", Length: feet(10), Breaks: []Stretch{{0, feet(10)}}},
		{Name: "right wall", Length: feet(10), Breaks: []Stretch{{0, feet(9)}}}}}
}

func say(gaps []Gap) string {
	var out []string
	end := func(e End) string {
		if e.Name == "" {
			return "end"
		}
		return e.Name
	}
	for _, g := range gaps {
		text := fmt.Sprintf("%s-%s %g beyond %g", end(g.From), end(g.To), float64(g.Length/12), float64(g.Beyond/12))
		if len(g.Because) > 0 {
			text += ", because " + strings.Join(g.Because, ", ")
		}
		out = append(out, text)
	}
	return strings.Join(out, "; ")
}

func TestUnknownIsNeverAPass(t *testing.T) {
	low, unsure := at(6), at(6)
	low[0].Height = 0
	unsure[0].Unsure = true
	unplaced := oneWall(12)
	unplaced.Unplaced = at(0)
	for name, c := range map[string]struct {
		f    FloorLine
		want string
	}{
		"height not measured": {oneWall(12, low...), "end-end 12 beyond 12, because the height of a was not measured"},
		"use not known":       {oneWall(12, unsure...), "end-end 12 beyond 12, because what a is for is not known"},
		"place not measured":  {unplaced, "end-end 12 beyond 12, because where a is along the walls was not measured"},
	} {
		if got := say(Spacing(c.f).Gaps); got != c.want {
			t.Errorf("%s: %q, want %q", name, got, c.want)
		}
	}
	noLength, noDoor, longDoor, beyond := oneWall(12), oneWall(12), oneWall(12), oneWall(12, at(13)...)
	noLength.Walls[0].Length = 0
	for i := range noDoor.Walls {
		noDoor.Walls[i].Breaks = nil
	}
	longDoor.Walls[0].Breaks = []Stretch{{feet(10), feet(14)}}
	for want, f := range map[string]FloorLine{
		"the length of the front wall was not measured":                                                       noLength,
		"no doorway is on record, and every room has one":                                                     noDoor,
		"a doorway in the front wall ends at 14 ft, and the wall is 12 ft long: one of the measures is wrong": longDoor,
		"a is noted 13 ft along the front wall, and the wall is 12 ft long: one of the measures is wrong":     beyond,
	} {
		if got := Spacing(f); !slices.Contains(got.Cannot, want) || len(got.Gaps) > 0 {
			t.Errorf("got %+v, want to be told that %s", got, want)
		}
	}
}

// drawLine is a room of four walls with a doorway and receptacles anywhere.
func drawLine(t *rapid.T) FloorLine {
	var f FloorLine
	for i, name := range []string{"front wall", "left wall", "back wall", "right wall"} {
		w := Wall{Name: name, Length: quantity.Inches(rapid.IntRange(12, 400).Draw(t, "length"))}
		for range rapid.IntRange(0, 2).Draw(t, "breaks") {
			from := rapid.IntRange(0, int(w.Length)-1).Draw(t, "from")
			w.Breaks = append(w.Breaks, Stretch{quantity.Inches(from), quantity.Inches(rapid.IntRange(from+1, int(w.Length)).Draw(t, "to"))})
		}
		if i == 0 && len(w.Breaks) == 0 {
			w.Breaks = []Stretch{{0, 12}}
		}
		for n := range rapid.IntRange(0, 4).Draw(t, "receptacles") {
			w.Receptacles = append(w.Receptacles, Receptacle{Name: fmt.Sprintf("%d-%d", i, n), Height: 16, Along: quantity.Inches(rapid.IntRange(0, int(w.Length)).Draw(t, "along"))})
		}
		f.Walls = append(f.Walls, w)
	}
	return f
}

// Walking the floor line inch by inch finds as much out of reach as the gaps say.
func TestGapsAreWhatAWalkFinds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := drawLine(t)
		var total quantity.Inches
		for _, g := range Spacing(f).Gaps {
			total += g.Beyond
		}
		if walked := walk(f); float64(total) != walked {
			t.Fatalf("gaps of %v in, a walk finds %v", total, walked)
		}
	})
}

// walk goes around the room in half inches, asking at the middle of each.
func walk(f FloorLine) float64 {
	type cell struct{ broken bool }
	var cells []cell
	var plugs []int // in half inches
	for _, w := range f.Walls {
		begin := len(cells)
		for i := range int(w.Length) * 2 {
			mid := quantity.Inches(i)/2 + 0.25
			cells = append(cells, cell{slices.ContainsFunc(w.Breaks, func(b Stretch) bool { return b.From < mid && mid < b.To })})
		}
		for _, r := range w.Receptacles {
			plugs = append(plugs, begin+int(r.Along)*2)
		}
	}
	n := len(cells)
	far := func(i, way int) (reached bool, space int) {
		edge := i // the edge on this side of the cell
		if way > 0 {
			edge = i + 1
		}
		for d := 0; d <= n; d++ {
			if slices.Contains(plugs, ((edge+d*way)%n+n)%n) || slices.Contains(plugs, n) && ((edge+d*way)%n+n)%n == 0 {
				reached = reached || d < 144
			}
			next := (edge + d*way) % n
			if way < 0 {
				next = (edge - d - 1) % n
			}
			if cells[(next+n)%n].broken {
				return reached, d
			}
		}
		return reached, n
	}
	out := 0.0
	for i, c := range cells {
		if c.broken {
			continue
		}
		r1, left := far(i, -1)
		r2, right := far(i, 1)
		if !r1 && !r2 && left+right+1 >= 48 {
			out += 0.5
		}
	}
	return out
}

// One receptacle covers 12 ft at most: a wall needs one for each 12 ft begun
// (composed from the text of 210.52(A)(1)).
func TestOneReceptacleForEachTwelveFeet(t *testing.T) {
	for wall, least := range map[float64]int{12: 1, 13: 2, 24: 2, 25: 3, 36: 3} {
		for n := least - 1; n <= least; n++ {
			var along []float64
			for i := range n {
				along = append(along, wall*(2*float64(i)+1)/(2*float64(n)))
			}
			if gaps := Spacing(oneWall(wall, at(along...)...)).Gaps; (len(gaps) > 0) != (n < least) {
				t.Errorf("%d receptacles spread over %g ft leave the gaps %q", n, wall, say(gaps))
			}
		}
	}
}
