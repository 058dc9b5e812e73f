package scenario

import (
	"math"
	"math/rand/v2"

	"asfound/pattern"
	"asfound/quantity"
)

// Multimeter is the error to assume of the people's meter, two standard
// deviations: 0.9 % of the reading and 0.2 ohm.
var Multimeter = pattern.Meter{Relative: 0.009, AbsoluteOhm: 0.2}

// meterRange is where the meter stops and shows open.
const meterRange quantity.Ohms = 200e3

// inside keeps a drawn error so far within its bound that rounding to the
// meter's figures cannot carry it out.
const inside = 0.93

// within draws a normal error whose two standard deviations are the bound, cut
// off at the bound.
func within(rng *rand.Rand, bound float64) float64 {
	return inside * max(-bound, min(bound, rng.NormFloat64()*bound/2))
}

// show is what the meter shows of a resistance: four figures, none below a
// hundredth of an ohm.
func show(rng *rand.Rand, r quantity.Resistance) quantity.Resistance {
	e, a := within(rng, Multimeter.Relative), within(rng, float64(Multimeter.AbsoluteOhm))
	if r.Open || r.Ohm > meterRange {
		return open
	}
	shown := math.Max(0, float64(r.Ohm)*(1+e)+a)
	if shown < 10 {
		return quantity.Resistance{Ohm: quantity.Ohms(math.Round(shown*100) / 100)}
	}
	return quantity.Resistance{Ohm: quantity.Round(quantity.Ohms(shown), 4)}
}

// made is the true value of a resistor with a nominal or measured value.
func made(rng *rand.Rand, value quantity.Ohms, tolerance float64) quantity.Ohms {
	return value * quantity.Ohms(1+within(rng, tolerance))
}
