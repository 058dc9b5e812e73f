package table

import (
	"math"
	"slices"
	"testing"
)

// The values of IEC 60063 that depart from rounding 10^(k/n) to two figures,
// against what rounding gives (the departures are named in the standard; read in
// public lists of the series).
var departures = map[float64]float64{2.6: 2.7, 2.9: 3.0, 3.2: 3.3, 3.5: 3.6, 3.8: 3.9, 4.2: 4.3, 4.6: 4.7, 8.3: 8.2}

func TestPreferredAgainstGeometricSeries(t *testing.T) {
	for series, rule := range map[string]struct{ steps, figures int }{"E12": {12, 1}, "E24": {24, 1}, "E96": {96, 2}} {
		decade, found := Preferred(series)
		if !found || len(decade) != rule.steps {
			t.Fatalf("%s has %d values", series, len(decade))
		}
		unit := math.Pow10(rule.figures)
		for k, got := range decade {
			want := math.Round(math.Pow(10, float64(k)/float64(rule.steps))*unit) / unit
			if printed, departs := departures[want]; departs && rule.figures == 1 {
				want = printed
			}
			if got != want {
				t.Errorf("%s value %d is %v, want %v", series, k, got, want)
			}
		}
	}
}

func TestCoarserSeriesLiesInFiner(t *testing.T) {
	e12, _ := Preferred("E12")
	e24, _ := Preferred("E24")
	for k, value := range e12 {
		if e24[2*k] != value {
			t.Errorf("E12 value %v is not every other of E24 (%v)", value, e24[2*k])
		}
	}
}

func TestSeriesNotKeptAndCallersCopy(t *testing.T) {
	if decade, found := Preferred("E7"); found {
		t.Errorf("E7 has %v", decade)
	}
	first, _ := Preferred("E96")
	kept := slices.Clone(first)
	first[0] = 99
	if again, _ := Preferred("E96"); !slices.Equal(again, kept) {
		t.Error("a caller changed the table")
	}
}
