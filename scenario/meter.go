package scenario

import (
	"math"
	"math/rand/v2"

	"asfound/pattern"
	"asfound/quantity"
)

// multimeter is the error to assume of the people's meter, two standard
// deviations.
func multimeter() pattern.Meter {
	i := atPellam().Instrument("digital multimeter")
	return pattern.Meter{Relative: i.Relative, AbsoluteOhm: i.Ohm}
}

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
	m := multimeter()
	e, a := within(rng, m.Relative), within(rng, float64(m.AbsoluteOhm))
	if r.Open || r.Ohm > atPellam().Instrument("digital multimeter").Most {
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
