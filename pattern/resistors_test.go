package pattern

import (
	"errors"
	"math"
	"slices"
	"testing"

	"asfound/quantity"
	"pgregory.net/rapid"
)

// Preferred numbers of IEC 60063: E24 as printed, E96 by its rule 10^(k/96) to
// three figures.
var e24 = []float64{1.0, 1.1, 1.2, 1.3, 1.5, 1.6, 1.8, 2.0, 2.2, 2.4, 2.7, 3.0, 3.3, 3.6, 3.9, 4.3, 4.7, 5.1, 5.6, 6.2, 6.8, 7.5, 8.2, 9.1}

func e12() (decade []float64) {
	for k := 0; k < len(e24); k += 2 {
		decade = append(decade, e24[k])
	}
	return decade
}

func e96() (decade []float64) {
	for k := range 96 {
		decade = append(decade, math.Round(100*math.Pow(10, float64(k)/96))/100)
	}
	return decade
}

// TestValuesPerWalk repeats the counts found by exhaustive search for 100 Ω to 100 kΩ,
// meter 0.5 to 1 %, conductor up to 20 Ω: 5 % 33 to 37 values, 1 % in 24 steps 64 to
// 73, 1 % in 96 steps 105 to 145. They were computed there by another program and
// another hand.
func TestValuesPerWalk(t *testing.T) {
	for name, c := range map[string]struct {
		decade      []float64
		tolerance   float64
		least, most int
	}{
		"5 % in 24 steps": {e24, 0.05, 33, 37},
		"5 % in 12 steps": {e12(), 0.05, 33, 37},
		"1 % in 24 steps": {e24, 0.01, 64, 73},
		"1 % in 96 steps": {e96(), 0.01, 105, 145},
	} {
		least, most := math.MaxInt, 0
		for _, relative := range []float64{0.005, 0.0075, 0.01} {
			for _, conductor := range []quantity.Ohms{0, 1, 2, 5, 10, 20} {
				set := Resistors(c.decade, c.tolerance, Meter{Relative: relative, AbsoluteOhm: 0.1}, conductor, 100, 100e3)
				least, most = min(least, len(set.Values)), max(most, len(set.Values))
			}
		}
		if least < c.least || most > c.most {
			t.Errorf("%s: %d to %d values, want %d to %d", name, least, most, c.least, c.most)
		}
	}
}

func drawSet(t *rapid.T) ResistorSet {
	decade := rapid.SampledFrom([][]float64{e12(), e24, e96()}).Draw(t, "series")
	meter := Meter{
		Relative:    rapid.Float64Range(0, 0.03).Draw(t, "meter"),
		AbsoluteOhm: quantity.Ohms(rapid.Float64Range(0, 3).Draw(t, "counts")),
	}
	tolerance := rapid.SampledFrom([]float64{0.001, 0.002, 0.01, 0.05, 0.1}).Draw(t, "tolerance")
	conductor := quantity.Ohms(rapid.Float64Range(0, 40).Draw(t, "conductor"))
	return Resistors(decade, tolerance, meter, conductor, 100, 100e3)
}

func TestReadingsNeverOverlap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		set := drawSet(t)
		for i := range set.Values {
			for j := range i {
				_, below := set.Accepts(j)
				if above, _ := set.Accepts(i); below >= above {
					t.Fatalf("%v reads up to %v, %v from %v", set.Values[j], below, set.Values[i], above)
				}
			}
		}
	})
}

func TestPossibleReadingNamesItsValue(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		set := drawSet(t)
		i := rapid.IntRange(0, len(set.Values)-1).Draw(t, "value")
		shown := readThrough(t, set, set.Values[i]*off(t, "resistor", set.Tolerance), "alone")
		if got, ok := set.Named(shown); !ok || got != i {
			t.Fatalf("%v shown as %v named %v, %v", set.Values[i], shown, got, ok)
		}
	})
}

// readThrough is what the meter could show for ohms behind some conductor, kept a
// hair inside the limits so that rounding of the machine decides nothing.
func readThrough(t *rapid.T, set ResistorSet, ohms quantity.Ohms, label string) quantity.Resistance {
	conductor := set.ConductorMax * quantity.Ohms(rapid.Float64Range(0, 0.999999).Draw(t, label+" conductor"))
	counts := set.Meter.AbsoluteOhm * quantity.Ohms(rapid.Float64Range(-1, 1).Draw(t, label+" counts"))
	return quantity.Resistance{Ohm: (ohms+conductor)*off(t, label+" meter", set.Meter.Relative) + counts}
}

func off(t *rapid.T, label string, within float64) quantity.Ohms {
	return quantity.Ohms(1 + within*rapid.Float64Range(-0.999999, 0.999999).Draw(t, label))
}

func TestJoinedCircuitsAreAmongTheParallels(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		set := drawSet(t)
		i := rapid.IntRange(0, len(set.Values)-2).Draw(t, "first")
		j := rapid.IntRange(i+1, len(set.Values)-1).Draw(t, "second")
		first := set.Values[i] * off(t, "first resistor", set.Tolerance)
		second := set.Values[j] * off(t, "second resistor", set.Tolerance)
		shown := readThrough(t, set, first*second/(first+second), "joined")
		if !slices.Contains(set.Parallels(shown), [2]int{i, j}) {
			t.Fatalf("%v beside %v shown as %v gives %v", first, second, shown, set.Parallels(shown))
		}
	})
}

func TestReadingThatNamesNothing(t *testing.T) {
	set := Resistors(e24, 0.01, Meter{0.01, 0.1}, 20, 100, 100e3)
	for name, reading := range map[string]quantity.Resistance{
		"no path":        {Open: true},
		"load left on":   {Ohm: 14},
		"above all":      {Ohm: 1e6},
		"between values": {Ohm: 95e3},
	} {
		if i, ok := set.Named(reading); ok {
			t.Errorf("%s: %v named %v", name, reading, set.Values[i])
		}
	}
	if pairs := set.Parallels(quantity.Resistance{Open: true}); pairs != nil {
		t.Errorf("no path fits %v", pairs)
	}
	// A set put together by hand may overlap: then a reading in both names neither.
	double := ResistorSet{Values: []quantity.Ohms{1000, 1010}, Tolerance: 0.05}
	if i, ok := double.Named(quantity.Resistance{Ohm: 1005}); ok {
		t.Errorf("a reading of two values named %v", double.Values[i])
	}
}

func TestStockChoiceIsTheLargest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		stock := rapid.SliceOfN(rapid.Map(rapid.Float64Range(50, 400), func(x float64) quantity.Ohms { return quantity.Ohms(x) }), 0, 10).Draw(t, "stock")
		meter := Meter{rapid.Float64Range(0, 0.05).Draw(t, "meter"), quantity.Ohms(rapid.Float64Range(0, 5).Draw(t, "counts"))}
		conductor := quantity.Ohms(rapid.Float64Range(0, 30).Draw(t, "conductor"))
		set := FromStock(stock, 0.002, meter, conductor, 100, 300)
		if best := largestApart(set, stock, 100, 300); len(set.Values) != best {
			t.Fatalf("chose %d of %v, %d can be told apart", len(set.Values), stock, best)
		}
	})
}

// largestApart tries every choice from the stock.
func largestApart(set ResistorSet, stock []quantity.Ohms, lowest, highest quantity.Ohms) int {
	best := 0
	for choice := range 1 << len(stock) {
		var taken []quantity.Ohms
		for i, value := range stock {
			if choice>>i&1 == 1 {
				taken = append(taken, value)
			}
		}
		if apart(set, taken, lowest, highest) {
			best = max(best, len(taken))
		}
	}
	return best
}

func apart(set ResistorSet, taken []quantity.Ohms, lowest, highest quantity.Ohms) bool {
	for i, a := range taken {
		if a < lowest || a > highest {
			return false
		}
		for _, b := range taken[i+1:] {
			leastA, mostA := set.readings(a)
			leastB, mostB := set.readings(b)
			if leastA <= mostB && leastB <= mostA {
				return false
			}
		}
	}
	return true
}

func TestPasses(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		circuits := rapid.IntRange(0, 300).Draw(t, "circuits")
		set := ResistorSet{Values: make([]quantity.Ohms, rapid.IntRange(1, 140).Draw(t, "values"))}
		batches, err := set.Passes(circuits)
		if err != nil {
			t.Fatal(err)
		}
		next, short, long := 0, math.MaxInt, 0
		for _, batch := range batches {
			for _, circuit := range batch {
				if circuit != next {
					t.Fatalf("circuit %d comes where %d should", circuit, next)
				}
				next++
			}
			short, long = min(short, len(batch)), max(long, len(batch))
		}
		if next != circuits || long > len(set.Values) || circuits > 0 && (long-short > 1 || short == 0) {
			t.Fatalf("%d circuits with %d values in passes of %d to %d", circuits, len(set.Values), short, long)
		}
		var few *TooFewValues
		if needs := len(batches) > 1; errors.As(set.Enough(circuits), &few) != needs {
			t.Fatalf("%d passes, yet Enough says %v", len(batches), set.Enough(circuits))
		}
	})
}

func TestTooFewValuesSaysHowMany(t *testing.T) {
	set := Resistors(e12(), 0.05, Meter{0.01, 0.1}, 5, 100, 1e3)
	var few *TooFewValues
	if err := set.Enough(42); !errors.As(err, &few) || few.Circuits != 42 || few.Values != len(set.Values) {
		t.Errorf("%d values for 42 circuits: %v", len(set.Values), err)
	}
	if _, err := (ResistorSet{}).Passes(3); !errors.As(err, &few) || few.Values != 0 {
		t.Errorf("no values for 3 circuits: %v", err)
	}
}

// The search by halves finds what trying every value, and every two, finds.
func TestNamedAndParallelsEqualTryingAll(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		values := rapid.SliceOfN(rapid.Float64Range(90, 1e5), 1, 30).Draw(t, "values")
		slices.Sort(values)
		set := ResistorSet{Tolerance: rapid.Float64Range(0, 0.05).Draw(t, "tolerance"), ConductorMax: 20,
			Meter: Meter{Relative: rapid.Float64Range(0, 0.02).Draw(t, "relative"), AbsoluteOhm: 0.2}}
		for _, v := range values {
			set.Values = append(set.Values, quantity.Ohms(v))
		}
		r := quantity.Resistance{Ohm: quantity.Ohms(rapid.Float64Range(0, 1.2e5).Draw(t, "reading"))}
		if rapid.Bool().Draw(t, "at an end of an interval") {
			least, most := set.Accepts(rapid.IntRange(0, len(values)-1).Draw(t, "of"))
			r.Ohm = []quantity.Ohms{least, most}[rapid.IntRange(0, 1).Draw(t, "which")]
		}
		var fits []int
		var pairs [][2]int
		for i, v := range set.Values {
			if set.fits(r.Ohm, v) {
				fits = append(fits, i)
			}
			for j := i + 1; j < len(set.Values); j++ {
				if w := set.Values[j]; set.fits(r.Ohm, v*w/(v+w)) {
					pairs = append(pairs, [2]int{i, j})
				}
			}
		}
		if i, ok := set.Named(r); ok != (len(fits) == 1) || ok && i != fits[0] {
			t.Fatalf("named %d, %v; trying all: %v", i, ok, fits)
		}
		if got := set.Parallels(r); !slices.Equal(got, pairs) {
			t.Fatalf("pairs %v; trying all: %v", got, pairs)
		}
	})
}
