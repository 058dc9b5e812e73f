package scenario

import (
	"math"
	"math/rand/v2"
	"testing"

	"asfound/observation"
	"asfound/quantity"
	"pgregory.net/rapid"
)

// Ohm's law: conductances in parallel add. 2,487 and 1,243 ohms side by side
// are 828.8, worked by hand by the author of the property's notes.
func TestParallel(t *testing.T) {
	for _, c := range []struct {
		name string
		each []quantity.Ohms
		want float64
	}{
		{"one", []quantity.Ohms{1000}, 1000},
		{"two alike", []quantity.Ohms{1000, 1000}, 500},
		{"one to three", []quantity.Ohms{1000, 3000}, 750},
		{"three", []quantity.Ohms{600, 300, 200}, 100},
		{"two plugs of the notes", []quantity.Ohms{2487, 1243}, 828.8},
		{"a joint beside a resistor", []quantity.Ohms{0, 1000}, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := Parallel(c.each...); got.Open || math.Abs(float64(got.Ohm)-c.want) > 0.05 {
				t.Errorf("%v gives %v, want %v", c.each, got, c.want)
			}
		})
	}
	if got := Parallel(); !got.Open {
		t.Errorf("nothing connected shows %v, want open", got)
	}
}

// house has circuit 0 on space 1, 1 on space 5 joined with it, 2 on space 2 with
// a load, 3 on space 4 with a fault to ground.
func house() *Truth {
	return &Truth{Buildings: []string{"Main house"}, Rooms: []Room{{Name: "den"}},
		Panels:   []Panel{{Name: "A1", Spaces: 12}},
		Circuits: []Circuit{{Space: 1, Poles: 1}, {Space: 5, Poles: 1}, {Space: 2, Poles: 1, Load: 144}, {Space: 4, Poles: 1, ToGround: 0.4}},
		Joins:    [][2]int{{0, 1}},
		Openings: []Opening{
			{Number: "A01-01", Circuit: 0, Length: 100, Size: "14", Ground: true, Neutral: true},
			{Number: "A01-02", Circuit: 2, Length: 125, Size: "12", Ground: true, Neutral: true},
			{Number: "A01-03", Circuit: Dead, Length: 100, Size: "12", Ground: true, Neutral: true},
			{Number: "A01-04", Circuit: 0, Length: 100, Size: "12", Neutral: true},
			{Number: "A01-05", Circuit: 3, Length: 50, Size: "12", Ground: true, Neutral: true},
		}}
}

// onSpaces is one resistor on each of some spaces of the first panel.
type onSpaces map[int]quantity.Ohms

func (on onSpaces) rig() *Rig {
	r := newRig()
	for s, ohm := range on {
		r.on[Terminal{Space: s}] = []quantity.Ohms{ohm}
	}
	return r
}

// Conductors: 14 AWG copper has 2.525 ohms and 12 AWG 1.588 ohms per 1,000 ft at
// 20 °C (NBS Handbook 100), and the current goes out and back.
func TestWhatAnOhmmeterShowsAtAnOpening(t *testing.T) {
	both := onSpaces{1: 1000, 5: 3000, 2: 1440, 4: 2000}
	one := onSpaces{1: 1000}
	const hot, neutral, egc = observation.Hot, observation.Neutral, observation.EGC
	for _, c := range []struct {
		name    string
		opening int
		a, b    observation.Wire
		on      onSpaces
		want    float64 // below zero: open
	}{
		{"one resistor and 200 ft of 14 AWG", 0, hot, egc, one, 1000.505},
		{"the same to neutral", 0, hot, neutral, one, 1000.505},
		{"joined circuits, a resistor on each", 0, hot, egc, both, 750.505},
		{"load of 144 ohms beside 1,440", 1, hot, egc, both, 130.909 + 0.397},
		{"fault beside the resistor", 4, hot, egc, both, 0.4 + 0.1588},
		{"no resistor on it", 0, hot, egc, onSpaces{}, -1},
		{"dead", 2, hot, egc, both, -1},
		{"dead, ground to neutral", 2, egc, neutral, both, 0.3176},
		{"ground does not arrive", 3, hot, egc, both, -1},
		{"ground does not arrive, to neutral", 3, hot, neutral, one, 1000.3176},
		{"ground does not arrive, ground to neutral", 3, egc, neutral, one, -1},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := house().Ohm(c.on.rig(), End{c.opening, "1"}, c.a, c.b)
			if got.Open != (c.want < 0) || !got.Open && math.Abs(float64(got.Ohm)-c.want) > 0.002 {
				t.Errorf("shows %v, want %v", got, c.want)
			}
		})
	}
}

func TestWhatTheIsolationTestShows(t *testing.T) {
	two := house()
	two.Circuits = append(two.Circuits, Circuit{Space: 6, Poles: 1, Load: 100})
	for _, c := range []struct {
		name    string
		a       []int
		against observation.Against
		b       []int
		want    float64
	}{
		{"joined", []int{1}, observation.AgainstSpaces, []int{2, 4, 5}, 0.3},
		{"apart", []int{1}, observation.AgainstSpaces, []int{2, 4}, -1},
		{"load to neutral", []int{2}, observation.AgainstNeutral, nil, 144},
		{"load and load over the neutral", []int{2}, observation.AgainstSpaces, []int{6}, 244},
		{"fault to ground", []int{1, 4}, observation.AgainstEGC, nil, 0.4},
		{"no fault", []int{1, 2}, observation.AgainstEGC, nil, -1},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := two.Isolation(newRig(), 0, c.a, c.against, c.b)
			if got.Open != (c.want < 0) || !got.Open && math.Abs(float64(got.Ohm)-c.want) > 1e-9 {
				t.Errorf("shows %v, want %v", got, c.want)
			}
		})
	}
}

// A right reading of a resistor through its conductors always names it.
func TestRightReadingIsInItsInterval(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		set := resistorSet(rapid.IntRange(1, 150).Draw(t, "circuits"))
		i := rapid.IntRange(0, len(set.Values)-1).Draw(t, "value")
		rng := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 1))
		path := quantity.Ohms(rapid.Float64Range(0, float64(conductorMost)).Draw(t, "path"))
		r := show(rng, quantity.Resistance{Ohm: made(rng, set.Values[i], set.Tolerance) + path})
		if named, ok := set.Named(r); !ok || named != i {
			t.Fatalf("%v over %v shows %v, which names %d, %v", set.Values[i], path, r, named, ok)
		}
	})
}
