package quantity

import (
	"math"
	"strconv"
	"strings"
)

// Gauge is a conductor size in the form "12", "1/0" or "250 kcmil". The empty
// Gauge is a size nobody has read. Make one with [ParseGauge].
type Gauge string

// String prints "12 AWG", "1/0 AWG" or "250 kcmil"; "unknown size" when empty.
func (g Gauge) String() string {
	if g == "" {
		return "unknown size"
	}
	if strings.HasSuffix(string(g), kcmil) {
		return string(g)
	}
	return string(g) + " AWG"
}

// CircularMils is the cross-section in circular mils: for AWG by the diameter
// formula of ASTM B258, d = 0.005 in × 92^((36−n)/39), with 1/0 as n = 0, 2/0 as
// n = −1 and so on. It is NaN for an unknown size, never zero.
func (g Gauge) CircularMils() float64 {
	if area, ok := strings.CutSuffix(string(g), " "+kcmil); ok {
		k, err := strconv.Atoi(area)
		if err != nil {
			return math.NaN()
		}
		return float64(k) * 1000
	}
	n, ok := awg(string(g))
	if !ok {
		return math.NaN()
	}
	mils := 5 * math.Pow(92, float64(36-n)/39)
	return mils * mils
}

// Less reports whether g has a smaller cross-section than other. It is false
// when either is unknown.
func (g Gauge) Less(other Gauge) bool { return g.CircularMils() < other.CircularMils() }

// UnmarshalText reads a size from a file as [ParseGauge] does; empty text is the
// unknown size.
func (g *Gauge) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*g = ""
		return nil
	}
	read, err := ParseGauge(string(text))
	if err != nil {
		return err
	}
	*g = read
	return nil
}

const (
	kcmil      = "kcmil"
	finestAWG  = 40
	firstKcmil = 250 // larger conductors than 4/0 are sold by area from here (NEC chapter 9 table 8)
	lastKcmil  = 2000
)

// ParseGauge reads a conductor size: "14", "#12", "12 AWG", "1/0", "0" or "00"
// as printed on old work, "250 kcmil", "250 MCM" (the older name of the same
// unit). A bare number from 250 is taken as kcmil, as in the size column of the
// National Electrical Code's tables. Every refusal is an [*Unusable].
func ParseGauge(raw string) (Gauge, error) {
	t := take(raw)
	if err := t.readable("the conductor size"); err != nil {
		return "", err
	}
	size := strings.ToLower(strings.ReplaceAll(t.text, " ", ""))
	if area, ok := cutKcmil(size); ok {
		return t.area(area)
	}
	size = strings.TrimSuffix(strings.TrimPrefix(size, "awg"), "awg")
	for _, before := range []string{"#", "no."} {
		size = strings.TrimPrefix(size, before)
	}
	if n, err := strconv.Atoi(size); err == nil && n >= firstKcmil && strings.EqualFold(size, t.text) {
		return t.area(size)
	}
	n, ok := awg(size)
	if !ok {
		return "", t.refuse("Type the conductor size as on its jacket, such as 12, 1/0 or 250 kcmil: %q is none.", t.text)
	}
	return named(n), nil
}

func cutKcmil(size string) (area string, ok bool) {
	for _, unit := range []string{kcmil, "mcm"} {
		if area, ok := strings.CutSuffix(size, unit); ok {
			return area, true
		}
	}
	return "", false
}

func (t typed) area(digits string) (Gauge, error) {
	k, err := strconv.Atoi(digits)
	if err != nil || k < firstKcmil || k > lastKcmil || strconv.Itoa(k) != digits {
		return "", t.refuse("Type a size between %d and %d kcmil: %q is none.", firstKcmil, lastKcmil, t.text)
	}
	return Gauge(digits + " " + kcmil), nil
}

// awg returns the gauge number n of the formula: 12 for "12", 0 for "1/0" and
// "0", −3 for "4/0" and "0000".
func awg(size string) (n int, ok bool) {
	if noughts, over := strings.CutSuffix(size, "/0"); over && len(noughts) == 1 && "1" <= noughts && noughts <= "4" {
		return 1 - int(noughts[0]-'0'), true
	}
	if size != "" && len(size) <= 4 && strings.Trim(size, "0") == "" {
		return 1 - len(size), true
	}
	n, err := strconv.Atoi(size)
	return n, err == nil && n >= 1 && n <= finestAWG && strconv.Itoa(n) == size
}

func named(n int) Gauge {
	if n < 1 {
		return Gauge(strconv.Itoa(1-n) + "/0")
	}
	return Gauge(strconv.Itoa(n))
}
