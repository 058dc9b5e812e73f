package quantity

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Resistance is what an ohmmeter shows: a value, or open when it finds no path
// within its range. Open says nothing about how far beyond the range.
type Resistance struct {
	Ohm  Ohms // not negative; no meaning when Open
	Open bool
}

// String prints "2.49 kΩ", "830 Ω" or "open".
func (r Resistance) String() string {
	if r.Open {
		return "open"
	}
	return r.Ohm.String()
}

// ParseResistance reads one ohmmeter reading. It takes a number with a decimal
// point or comma; the prefixes k, M and G; the unit as Ω, ohm or ohms or left
// out (then ohms); a prefix or R in the place of the decimal mark, as resistors
// are marked under IEC 60062 ("2k49", "4R7"); and OL or open for no path.
//
// A small m is refused: it could be milli or mega. So are negative readings,
// which on an ohmmeter mean a foreign voltage or leads not zeroed. Every refusal
// is an [*Unusable].
func ParseResistance(raw string) (Resistance, error) {
	t := take(raw)
	if noPath(t.text) {
		return Resistance{Open: true}, nil
	}
	if t.negative() {
		return Resistance{}, t.refuse("An ohmmeter below zero means voltage on the conductors or leads not zeroed: test for voltage, then read again.")
	}
	digits, rest, err := t.number("what the ohmmeter shows")
	if err != nil {
		return Resistance{}, err
	}
	if rest != "" && strings.ContainsAny(rest[:1], "vV") {
		return Resistance{}, t.refuse("Volts, where ohms belong: leads off, treat it as live, and test for voltage again before any ohm reading.")
	}
	exponent, whole, err := t.prefix(digits, rest)
	if err != nil {
		return Resistance{}, err
	}
	ohm, err := t.scaled(whole, exponent)
	if err != nil {
		return Resistance{}, err
	}
	return Resistance{Ohm: Ohms(ohm)}, nil
}

// noPath recognizes the ways meters and people write "beyond range", with or
// without the unit that stays on a meter's display.
func noPath(text string) bool {
	compact := strings.ToLower(strings.ReplaceAll(text, " ", ""))
	for _, word := range []string{"o.l", "0.l", "ol", "0l", "open", "∞"} {
		if rest, ok := strings.CutPrefix(compact, word); ok {
			rest = strings.TrimLeft(rest, ".")
			if _, known := prefixOf(strings.Replace(rest, "m", "M", 1)); known {
				return true
			}
		}
	}
	return false
}

// prefix returns the power of ten and the full figures, also for marked values
// such as 2k49.
func (t typed) prefix(digits, rest string) (exponent int, whole string, err *Unusable) {
	if exponent, ok := prefixOf(rest); ok {
		return exponent, digits, nil
	}
	if e, after, ok := t.marked(digits, rest); ok {
		return e, digits + "." + after, nil
	}
	if lower := strings.ToLower(rest); strings.HasPrefix(rest, "m") && (lower == "m" || isOhm(rest[1:])) {
		return 0, "", t.refuse("A small m could be milli or mega: type a capital M for megohms, or the value in ohms.")
	}
	return 0, "", t.leftover(rest, "Ω, k, M or no unit (ohms)")
}

// marked recognizes the figures after a letter that stands for the decimal mark.
// The whole entry must be written without spaces, apart from a unit after it.
func (t typed) marked(digits, rest string) (exponent int, after string, ok bool) {
	if strings.Contains(digits, ".") || rest == "" || !strings.HasPrefix(t.text, digits+rest[:1]) {
		return 0, "", false
	}
	exponent, ok = map[byte]int{'R': 0, 'r': 0, 'k': 3, 'K': 3, 'M': 6, 'G': 9}[rest[0]]
	after, unit := leadingNumber(rest[1:])
	ok = ok && after != "" && !strings.Contains(after, ".") && isOhm(strings.TrimSpace(unit))
	return exponent, after, ok
}

func prefixOf(unit string) (exponent int, ok bool) {
	unit = strings.ReplaceAll(unit, " ", "")
	if isOhm(unit) || unit == "R" || unit == "r" {
		return 0, true
	}
	for word, exponent := range map[string]int{
		"k": 3, "K": 3, "kilo": 3, "Kilo": 3, "M": 6, "meg": 6, "Meg": 6, "mega": 6, "Mega": 6, "G": 9, "giga": 9, "Giga": 9,
	} {
		if rest, ok := strings.CutPrefix(unit, word); ok && isOhm(rest) {
			return exponent, true
		}
	}
	if lower := strings.ToLower(unit); lower == "megohm" || lower == "megohms" {
		return 6, true
	}
	return 0, false
}

func isOhm(unit string) bool {
	switch strings.ToLower(unit) {
	case "", "ω", "ohm", "ohms": // the ohm sign U+2126 lowers to omega as well
		return true
	}
	return false
}

// MarshalJSON writes a number of ohms, or the word "open".
func (r Resistance) MarshalJSON() ([]byte, error) {
	if r.Open {
		return []byte(`"open"`), nil
	}
	if err := r.possible(); err != nil {
		return nil, err
	}
	return json.Marshal(float64(r.Ohm))
}

// UnmarshalJSON reads what MarshalJSON writes and refuses everything else: a
// missing reading has to be left out, it is not null and not zero.
func (r *Resistance) UnmarshalJSON(data []byte) error {
	data = bytes.TrimSpace(data)
	if string(data) == `"open"` {
		*r = Resistance{Open: true}
		return nil
	}
	var ohm float64
	if err := json.Unmarshal(data, &ohm); err != nil || string(data) == "null" {
		return fmt.Errorf("resistance %s: want a number of ohms or \"open\"", strconv.Quote(string(data)))
	}
	read := Resistance{Ohm: Ohms(ohm)}
	if err := read.possible(); err != nil {
		return err
	}
	*r = read
	return nil
}

func (r Resistance) possible() error {
	if ohm := float64(r.Ohm); math.IsNaN(ohm) || math.IsInf(ohm, 0) || ohm < 0 {
		return fmt.Errorf("resistance of %v Ω: want zero or more", ohm)
	}
	return nil
}
