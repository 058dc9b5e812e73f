package quantity

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestPrinted(t *testing.T) {
	for name, c := range map[string]struct{ got, want string }{
		"supply":             {Volts(118.6).String(), "118.6 V"},
		"breaker":            {Amperes(20).String(), "20 A"},
		"quarter hour":       {Minutes(15).String(), "15 min"},
		"long":               {Minutes(80).String(), "1 h 20 min"},
		"whole hours":        {Minutes(120).String(), "2 h"},
		"rounds up":          {Minutes(59.96).String(), "1 h"},
		"no time":            {Minutes(0).String(), "0 min"},
		"saved":              {Minutes(-90.5).String(), "-1 h 30.5 min"},
		"open leads on tape": {Inches(4.5).String(), "4-1/2 in"},
		"under an inch":      {Inches(0.75).String(), "3/4 in"},
		"off the tape":       {Inches(4.53).String(), "4.53 in"},
		"feet":               {Feet(12.5).String(), "12.5 ft"},
		"small ohms":         {Ohms(0.0002).String(), "0.0002 Ω"},
		"computed, below 0":  {Ohms(-1500).String(), "-1.5 kΩ"},
		"no number":          {Ohms(math.NaN()).String(), "not a number Ω"},
		"rounded":            {Round(Ohms(2491.37), 3).String(), "2.49 kΩ"},
	} {
		if c.got != c.want {
			t.Errorf("%s: printed %q, want %q", name, c.got, c.want)
		}
	}
}

func TestRoundKeepsDigits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := Ohms(rapid.Float64Range(1e-3, 1e9).Draw(t, "ohm"))
		digits := rapid.IntRange(1, 9).Draw(t, "digits")
		got := Round(x, digits)
		if off := math.Abs(float64(got/x - 1)); off > 0.5*math.Pow(10, float64(1-digits))*1.0001 {
			t.Fatalf("Round(%v, %d) = %v", float64(x), digits, float64(got))
		}
		if Round(got, digits) != got {
			t.Fatalf("rounding %v twice changes it", float64(got))
		}
	})
}
