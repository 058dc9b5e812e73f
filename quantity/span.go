package quantity

import (
	"math"
	"strconv"
	"strings"
)

// ParseSpan reads a length along a floor or wall: 12' 6", "12 ft 6-1/2 in",
// "12.5 ft", "150 in". A number without a unit is feet. The result is whole
// 64ths of an inch. Every refusal is an [*Unusable].
func ParseSpan(raw string) (Inches, error) {
	t := take(raw)
	if _, unit := leadingNumber(t.text); !strings.ContainsAny(unit, "'’′fF") || strings.Contains(unit, "''") {
		if strings.ContainsAny(unit, `iI"”″'`) {
			return ParseInches(raw)
		}
	}
	feet, err := ParseFeet(raw)
	if err != nil {
		return 0, err
	}
	return Inches(math.Round(float64(feet)*12*64) / 64), nil
}

// Span prints inches as feet and inches, "12 ft 6-1/2 in", "9 in"; sizes that
// fall on no 64th as a decimal of an inch.
func (i Inches) Span() string {
	size := math.Abs(float64(i))
	if size < 12 || size >= 1e6 {
		return i.String()
	}
	feet := math.Floor(size / 12)
	sign := ""
	if i < 0 {
		sign = "-"
	}
	out := sign + strconv.Itoa(int(feet)) + " ft"
	if rest := Inches(size - 12*feet); rest > 0 {
		out += " " + rest.String()
	}
	return out
}
