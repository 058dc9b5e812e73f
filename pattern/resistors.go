package pattern

import (
	"math"
	"slices"
	"sort"

	"asfound/quantity"
)

// Meter is how far an ohmmeter may be off: a share of the value (0.01 for 1 %)
// and a fixed number of ohms (its last figures).
type Meter struct {
	Relative    float64
	AbsoluteOhm quantity.Ohms
}

// ResistorSet is a set of resistors, one for each circuit or conductor, that a
// meter can tell apart at the far end of the conductors.
type ResistorSet struct {
	Values       []quantity.Ohms // ascending; nominal, or as measured
	Tolerance    float64         // of each resistor about its value, 0.01 for 1 %
	Meter        Meter
	ConductorMax quantity.Ohms // greatest resistance of conductor, out and back
}

// Resistors walks up a preferred series from lowest to highest and keeps a value
// when its readings cannot be taken for those of the value kept before. decade is
// one decade of the series, from 1 to below 10. It panics unless lowest is above
// zero and highest finite.
//
// Below about 100 Ω the conductors blur the values, above about 100 kΩ leakage and
// connected electronics do (common practice, no source).
func Resistors(decade []float64, tolerance float64, meter Meter, conductorMax, lowest, highest quantity.Ohms) ResistorSet {
	if !(lowest > 0) || math.IsInf(float64(highest), 1) {
		panic("pattern: resistors need a lowest value above zero and a finite highest")
	}
	var series []quantity.Ohms
	for power := math.Floor(math.Log10(float64(lowest))); math.Pow(10, power) <= float64(highest); power++ {
		for _, first := range decade {
			series = append(series, quantity.Round(quantity.Ohms(first*math.Pow(10, power)), 6))
		}
	}
	return FromStock(series, tolerance, meter, conductorMax, lowest, highest)
}

// FromStock chooses the largest set that a meter can tell apart from resistors
// already at hand, whose values were measured one by one; tolerance is then how
// well each was measured (0.001 to 0.002 is usual, common practice, no source).
//
// Both ends of the readings rise with the value, so taking the next value that
// clears the last one taken is the best choice (interval scheduling).
func FromStock(measured []quantity.Ohms, tolerance float64, meter Meter, conductorMax, lowest, highest quantity.Ohms) ResistorSet {
	set := ResistorSet{Tolerance: tolerance, Meter: meter, ConductorMax: conductorMax}
	last := quantity.Ohms(math.Inf(-1))
	for _, value := range slices.Sorted(slices.Values(measured)) {
		if value < lowest || value > highest {
			continue
		}
		least, most := set.readings(value)
		if least > last {
			set.Values = append(set.Values, value)
			last = most
		}
	}
	return set
}

// Accepts returns the least and the greatest reading that names value i:
// r(1−t)(1−m)−a and (r(1+t)+Rc)(1+m)+a.
func (s ResistorSet) Accepts(i int) (least, most quantity.Ohms) { return s.readings(s.Values[i]) }

func (s ResistorSet) readings(value quantity.Ohms) (least, most quantity.Ohms) {
	t, m, a := quantity.Ohms(s.Tolerance), quantity.Ohms(s.Meter.Relative), s.Meter.AbsoluteOhm
	return value*(1-t)*(1-m) - a, (value*(1+t)+s.ConductorMax)*(1+m) + a
}

func (s ResistorSet) fits(reading, value quantity.Ohms) bool {
	least, most := s.readings(value)
	return least <= reading && reading <= most
}

// Named returns the index of the one value a reading stands for. An open reading,
// and a reading that fits none or more than one, names nothing.
func (s ResistorSet) Named(reading quantity.Resistance) (index int, ok bool) {
	if reading.Open {
		return 0, false
	}
	least, most := s.meant(reading.Ohm)
	from := sort.Search(len(s.Values), func(i int) bool { return s.Values[i] >= least })
	for i := from; i < len(s.Values) && s.Values[i] <= most; i++ {
		if !s.fits(reading.Ohm, s.Values[i]) {
			continue
		}
		if ok {
			return 0, false
		}
		index, ok = i, true
	}
	return index, ok
}

// Parallels returns every pair of values that would give this reading side by
// side, as when two circuits are joined unnoticed: then neither of the two values
// shows alone. A reading may both be Named and fit pairs. The path to the join is
// allowed the same conductor as one value is: two branches side by side never add
// more than the longer of them.
func (s ResistorSet) Parallels(reading quantity.Resistance) [][2]int {
	var pairs [][2]int
	if reading.Open {
		return nil
	}
	least, most := s.meant(reading.Ohm)
	for i, first := range s.Values {
		beside := func(j int) quantity.Ohms { return first * s.Values[j] / (first + s.Values[j]) }
		// Side by side, a greater second value reads more: the pairs that fit
		// stand together.
		from := i + 1 + sort.Search(len(s.Values)-i-1, func(j int) bool { return beside(i+1+j) >= least })
		for j := from; j < len(s.Values) && beside(j) <= most; j++ {
			if s.fits(reading.Ohm, beside(j)) {
				pairs = append(pairs, [2]int{i, j})
			}
		}
	}
	return pairs
}

// meant returns the least and the greatest value that a reading can name, with a
// little room for rounding.
func (s ResistorSet) meant(reading quantity.Ohms) (least, most quantity.Ohms) {
	const room = 1e-9
	t, m, a := quantity.Ohms(s.Tolerance), quantity.Ohms(s.Meter.Relative), s.Meter.AbsoluteOhm
	return ((reading-a)/(1+m) - s.ConductorMax) / (1 + t) * (1 - room), (reading + a) / ((1 - t) * (1 - m)) * (1 + room)
}
