package quantity

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// typed is one entry while it is being read: what the person typed, and the
// same with spaces trimmed and made plain.
type typed struct {
	raw, text string
}

func take(raw string) typed {
	return typed{raw: raw, text: strings.Join(strings.Fields(raw), " ")}
}

func (t typed) refuse(format string, args ...any) *Unusable {
	return &Unusable{Typed: t.raw, Say: fmt.Sprintf(format, args...)}
}

// number splits the entry into its one leading number (decimal point, no sign)
// and what follows it.
func (t typed) number(what string) (digits, rest string, err *Unusable) {
	if err := t.readable(what); err != nil {
		return "", "", err
	}
	digits, rest = leadingNumber(t.text)
	if digits == "" {
		return "", "", t.refuse("Start with a number: %q has none at the front.", t.text)
	}
	if strings.Count(digits, ".") > 1 {
		return "", "", t.refuse("Type %q with one decimal mark only and no mark between thousands.", t.text)
	}
	return digits, strings.TrimLeft(rest, " "), nil
}

// readable refuses what cannot be the start of any number.
func (t typed) readable(what string) *Unusable {
	if !utf8.ValidString(t.text) {
		return t.refuse("Type %s again: it holds a character that cannot be read.", what)
	}
	if t.text == "" {
		return t.refuse("Type %s, or choose that it could not be read.", what)
	}
	if at, letter, figure := lookalike(t.text); at > 0 {
		return t.refuse("Character %d of %q is the letter %c: type the figure %c if that is meant.", at, t.text, letter, figure)
	}
	return nil
}

func (t typed) negative() bool {
	first, _ := utf8.DecodeRuneInString(t.text)
	return first == '-' || first == '−' || first == '–'
}

// leadingNumber reads figures and decimal marks; a comma becomes a point.
func leadingNumber(text string) (digits, rest string) {
	end := strings.IndexFunc(text, func(r rune) bool { return !isFigure(r) && !isMark(r) })
	if end < 0 {
		end = len(text)
	}
	digits = strings.ReplaceAll(text[:end], ",", ".")
	if strings.Trim(digits, ".") == "" {
		return "", text
	}
	return digits, text[end:]
}

func isFigure(r rune) bool { return '0' <= r && r <= '9' }
func isMark(r rune) bool   { return r == '.' || r == ',' }

// lookalike finds a letter O, l or I standing where a figure must stand: beside
// a figure or mark and not inside a word. The position counts from 1.
func lookalike(text string) (at int, letter, figure rune) {
	runes := append([]rune{' '}, append([]rune(text), ' ')...)
	for i := 1; i < len(runes)-1; i++ {
		figure, ok := map[rune]rune{'O': '0', 'o': '0', 'l': '1', 'I': '1'}[runes[i]]
		if !ok {
			continue
		}
		before, after := runes[i-1], runes[i+1]
		beside := isFigure(before) || isMark(before) || isFigure(after) || isMark(after)
		word := unicode.IsLetter(before) || unicode.IsLetter(after) && !strings.ContainsRune("kKM", after)
		if beside && !word {
			return i, runes[i], figure
		}
	}
	return 0, 0, 0
}

// scaled reads digits times ten to the exponent, rounded once.
func (t typed) scaled(digits string, exponent int) (float64, *Unusable) {
	x, err := strconv.ParseFloat(fmt.Sprintf("%se%d", digits, exponent), 64)
	if err != nil {
		x = math.Inf(1)
	}
	return t.bounded(x)
}

func (t typed) bounded(x float64) (float64, *Unusable) {
	if x > largest {
		return 0, t.refuse("Look at %q again: the number is larger than anything an instrument shows.", t.text)
	}
	return x, nil
}

// largest bounds every typed number: ten thousand gigohms, ten times beyond what
// insulation testers show (common practice, no source).
const largest = 1e13

// leftover explains what stands after the number when it is not a unit that fits.
func (t typed) leftover(rest, units string) *Unusable {
	if strings.ContainsFunc(rest, isFigure) {
		return t.refuse("Type one number only: %q holds more than one.", t.text)
	}
	return t.refuse("Type the number with %s: %q does not fit here.", units, rest)
}

// plain prints x divided by ten to the exponent in full decimal figures, so that
// reading the figures back and multiplying again gives exactly x.
func plain(x float64, exponent int) string {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return "not a number"
	}
	text := strconv.FormatFloat(math.Abs(x), 'e', -1, 64)
	mantissa, power, _ := strings.Cut(text, "e")
	digits := strings.Replace(mantissa, ".", "", 1)
	p, _ := strconv.Atoi(power)
	point := 1 + p - exponent
	switch {
	case x == 0:
		return "0"
	case point <= 0:
		digits = "0." + strings.Repeat("0", -point) + digits
	case point >= len(digits):
		digits += strings.Repeat("0", point-len(digits))
	default:
		digits = digits[:point] + "." + digits[point:]
	}
	if x < 0 {
		return "-" + digits
	}
	return digits
}
