// Package quantity holds numbers with units, as an electrician types and reads
// them: ohms, volts, amperes, inches, feet, minutes and conductor sizes.
//
// A parser either understands the whole of what was typed or refuses it with an
// [Unusable], which keeps the typed text and says in one sentence what to do.
// It never guesses past a character it does not know, and never turns "no
// value" into zero: an ohmmeter without a path is Open, a conductor size nobody
// read is the empty [Gauge].
//
// A comma is a decimal comma, always: "2,490" is 2.49, not two thousand four
// hundred and ninety. The printed form ("2.49 Ω") shows the person how it was
// taken before it is kept. Two marks in one number are refused.
//
// What it refuses to do: arithmetic of the trade (that belongs to rules and the
// network), tables (package table), and naming the field that was typed in (the
// caller knows it).
//
// Printing loses nothing: parsing what String returns gives the same number.
// Round a computed number with [Round] before showing it.
//
// Start reading at [Resistance] and [ParseResistance].
package quantity

import (
	"math"
	"strconv"
)

// Ohms is a resistance in ohms.
type Ohms float64

// Volts is a voltage in volts (rms where it alternates).
type Volts float64

// Amperes is a current in amperes (rms where it alternates).
type Amperes float64

// Inches is a length in inches.
type Inches float64

// Feet is a length in feet.
type Feet float64

// Minutes is a length of time in minutes.
type Minutes float64

// Unusable reports typed text that no value can be taken from. It does not name
// the field: the caller adds that.
type Unusable struct {
	Typed string // exactly what the person typed
	Say   string // one plain sentence for the person
}

// Error returns the sentence for the person.
func (u *Unusable) Error() string { return u.Say }

// String prints ohms with the prefix a meter would use, "2.49 kΩ".
func (o Ohms) String() string {
	switch size := math.Abs(float64(o)); {
	case size >= 1e9:
		return plain(float64(o), 9) + " GΩ"
	case size >= 1e6:
		return plain(float64(o), 6) + " MΩ"
	case size >= 1e3:
		return plain(float64(o), 3) + " kΩ"
	}
	return plain(float64(o), 0) + " Ω"
}

// String prints volts, "118.6 V".
func (v Volts) String() string { return plain(float64(v), 0) + " V" }

// String prints amperes, "20 A".
func (a Amperes) String() string { return plain(float64(a), 0) + " A" }

// String prints hours and minutes, "1 h 20 min", rounded to a tenth of a minute.
func (m Minutes) String() string {
	tenths := math.Round(math.Abs(float64(m)) * 10)
	if math.IsNaN(tenths) || math.IsInf(tenths, 0) {
		return plain(float64(m), 0) + " min"
	}
	sign := ""
	if m < 0 && tenths > 0 {
		sign = "-"
	}
	hours, rest := math.Floor(tenths/600), math.Mod(tenths, 600)/10
	if hours == 0 {
		return sign + plain(rest, 0) + " min"
	}
	if rest == 0 {
		return sign + plain(hours, 0) + " h"
	}
	return sign + plain(hours, 0) + " h " + plain(rest, 0) + " min"
}

// Round returns x to the given number of significant digits (at least one), for
// showing a computed number. Zero, NaN and infinities come back unchanged.
func Round[T ~float64](x T, digits int) T {
	text := strconv.FormatFloat(float64(x), 'e', max(digits, 1)-1, 64)
	rounded, err := strconv.ParseFloat(text, 64)
	if err != nil {
		return x
	}
	return T(rounded)
}
