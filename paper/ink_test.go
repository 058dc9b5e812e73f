package paper

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// luminance is the relative luminance of a color "#rrggbb", by the definition in
// WCAG 2.2.
func luminance(hex string) float64 {
	sum := 0.0
	for i, weight := range []float64{0.2126, 0.7152, 0.0722} {
		n, _ := strconv.ParseUint(hex[1+2*i:3+2*i], 16, 8)
		c := float64(n) / 255
		if c <= 0.04045 {
			c /= 12.92
		} else {
			c = math.Pow((c+0.055)/1.055, 2.4)
		}
		sum += weight * c
	}
	return sum
}

func contrast(a, b string) float64 {
	x, y := luminance(a)+0.05, luminance(b)+0.05
	return max(x/y, y/x)
}

// WCAG 2.2, 1.4.3: small text needs 4.5 to 1 (1.4.6: 7 to 1, wanted of graphite).
func TestInksAreReadableByDayAndByNight(t *testing.T) {
	day, night, ok := strings.Cut(CSS, "@media")
	if !ok {
		t.Fatal("CSS has no dark scheme")
	}
	color := regexp.MustCompile(`--(\w+),(#[0-9a-f]{6})`)
	for scheme, css := range map[string]string{"day": day, "night": night} {
		inks := map[string]string{}
		for _, m := range color.FindAllStringSubmatch(css, -1) {
			inks[m[1]] = m[2]
		}
		for ink, least := range map[string]float64{"ink": 7, "faint": 4.5, "planned": 4.5, "stop": 4.5} {
			if inks[ink] == "" || inks["ground"] == "" {
				t.Fatalf("%s: no color for %s or ground", scheme, ink)
			}
			if got := contrast(inks[ink], inks["ground"]); got < least {
				t.Errorf("%s: %s on ground %.1f to 1, want %.1f", scheme, ink, got, least)
			}
		}
	}
	if got := contrast("#000000", "#ffffff"); math.Abs(got-21) > 1e-9 {
		t.Errorf("black on white %.2f to 1, WCAG says 21", got)
	}
}
