package quantity

import (
	"math"
	"strconv"
	"strings"
)

// String prints inches as a tape shows them when they fall on a 64th,
// "4-1/2 in", and as a decimal when they do not.
func (i Inches) String() string {
	size := math.Abs(float64(i))
	parts := size * 64
	if size >= 1e6 || parts != math.Trunc(parts) {
		return plain(float64(i), 0) + " in"
	}
	sign := ""
	if i < 0 {
		sign = "-"
	}
	whole, top, bottom := int(parts)/64, int(parts)%64, 64
	for top > 0 && top%2 == 0 {
		top, bottom = top/2, bottom/2
	}
	text := strconv.Itoa(whole)
	if fraction := strconv.Itoa(top) + "/" + strconv.Itoa(bottom); top > 0 && whole > 0 {
		text += "-" + fraction
	} else if top > 0 {
		text = fraction
	}
	return sign + text + " in"
}

// String prints decimal feet, "12.5 ft".
func (f Feet) String() string { return plain(float64(f), 0) + " ft" }

// ParseInches reads a length on a tape: "4-1/2", "4 1/2", "1/2", "4.5", with in,
// inch, inches or an inch mark, or no unit (then inches). Fractions are halves to
// 64ths. Every refusal is an [*Unusable].
func ParseInches(raw string) (Inches, error) {
	t := take(raw)
	value, err := t.length(t.text, inchUnits, "the length in inches")
	if err != nil {
		return 0, err
	}
	return Inches(value), nil
}

// ParseFeet reads a length in feet, "12", "12.5 ft", "12-1/2 ft", or in feet and
// inches, 12' 6" or "12 ft 6-1/2 in". Every refusal is an [*Unusable].
func ParseFeet(raw string) (Feet, error) {
	t := take(raw)
	feet, inches, both := cutAtFeet(t.text)
	value, err := t.length(feet, footUnits, "the length in feet")
	if err != nil {
		return 0, err
	}
	if !both {
		return Feet(value), nil
	}
	more, err := t.length(inches, inchUnits, "the inches")
	if err != nil {
		return 0, err
	}
	if more >= 12 {
		return 0, t.refuse("Type less than 12 inches after the feet in %q.", t.text)
	}
	value, err = t.bounded(value + more/12)
	if err != nil {
		return 0, err
	}
	return Feet(value), nil
}

var (
	inchUnits = []string{"in", "in.", "inch", "inches", `"`, "”", "″", "''"}
	footUnits = []string{"ft", "ft.", "foot", "feet", "'", "’", "′"}
)

// cutAtFeet separates the inches when figures follow a unit of feet.
func cutAtFeet(text string) (feet, inches string, both bool) {
	for _, unit := range []string{"feet", "foot", "ft.", "ft", "'", "’", "′"} {
		end := endOfWord(text, unit)
		if end < 0 {
			continue
		}
		if rest := strings.TrimLeft(text[end:], " -"); strings.ContainsFunc(rest, isFigure) {
			return text[:end], rest, true
		}
		break
	}
	return text, "", false
}

// endOfWord is the index just after the first place of word in text, capitals
// or not, or -1.
func endOfWord(text, word string) int {
	for at := range text {
		if end := at + len(word); end <= len(text) && strings.EqualFold(text[at:end], word) {
			return end
		}
	}
	return -1
}

// length reads a whole, mixed or decimal number followed by one of the units.
func (t typed) length(text string, units []string, what string) (float64, *Unusable) {
	text = strings.TrimSpace(text)
	if strings.HasPrefix(text, "-") || t.negative() {
		return 0, t.refuse("Type the length without a minus sign.")
	}
	part := typed{raw: t.raw, text: text}
	digits, rest, err := part.number(what)
	if err != nil {
		return 0, err
	}
	fraction, rest, err := t.fraction(&digits, rest)
	if err != nil {
		return 0, err
	}
	if !oneOf(strings.TrimSpace(rest), units) {
		return 0, t.leftover(strings.TrimSpace(rest), units[0]+" or no unit")
	}
	whole, err := t.scaled(digits, 0)
	if err != nil {
		return 0, err
	}
	return t.bounded(whole + fraction)
}

// fraction reads what follows the whole number as -1/2 or 1/2; when the number
// itself is the top of the fraction it becomes zero.
func (t typed) fraction(digits *string, rest string) (value float64, after string, err *Unusable) {
	top, below := *digits, rest
	if !strings.HasPrefix(rest, "/") {
		top, below = leadingNumber(strings.TrimLeft(strings.TrimPrefix(rest, "-"), " "))
		if top == "" {
			return 0, rest, nil
		}
	} else {
		*digits = "0"
	}
	below, slash := strings.CutPrefix(strings.TrimLeft(below, " "), "/")
	bottom, after := leadingNumber(strings.TrimLeft(below, " "))
	if !slash || strings.Contains(*digits, ".") {
		return 0, "", t.refuse("Type one number only: %q holds more than one.", t.text)
	}
	n, errTop := strconv.Atoi(top)
	d, errBottom := strconv.Atoi(bottom)
	if errTop != nil || errBottom != nil || n >= d || d > 64 || d&(d-1) != 0 {
		return 0, "", t.refuse("Type the fraction in halves to 64ths, as in 4-1/2.")
	}
	return float64(n) / float64(d), after, nil
}

func oneOf(unit string, units []string) bool {
	if unit == "" {
		return true
	}
	for _, u := range units {
		if strings.EqualFold(unit, u) {
			return true
		}
	}
	return false
}
