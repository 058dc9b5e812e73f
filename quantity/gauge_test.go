package quantity

import (
	"encoding/json"
	"math"
	"strconv"
	"testing"
)

func TestParseGauge(t *testing.T) {
	for name, c := range map[string]struct {
		typed   string
		want    Gauge
		printed string
	}{
		"bare":                {"14", "14", "14 AWG"},
		"hash":                {"#12", "12", "12 AWG"},
		"with unit":           {"12 AWG", "12", "12 AWG"},
		"unit first":          {"AWG 12", "12", "12 AWG"},
		"number abbreviated":  {"No. 8", "8", "8 AWG"},
		"one nought":          {"1/0", "1/0", "1/0 AWG"},
		"four noughts spaced": {"4/0 awg", "4/0", "4/0 AWG"},
		"noughts on old work": {"000", "3/0", "3/0 AWG"},
		"by area":             {"250 kcmil", "250 kcmil", "250 kcmil"},
		"old name of area":    {"500MCM", "500 kcmil", "500 kcmil"},
		"area without unit":   {"350", "350 kcmil", "350 kcmil"},
	} {
		got, err := ParseGauge(c.typed)
		if err != nil || got != c.want || got.String() != c.printed {
			t.Errorf("%s: ParseGauge(%q) = %q %v, %v; want %q", name, c.typed, got, got, err, c.want)
		}
	}
	for name, typed := range map[string]string{
		"nothing": "", "between AWG and kcmil": "100", "fifth nought": "5/0", "letter": "1O", "metric": "2.5 mm2",
		"two sizes": "12/2", "below the areas": "200 kcmil", "hash on an area": "#250", "padded": "012", "fraction of kcmil": "250.5 kcmil",
	} {
		if got, err := ParseGauge(typed); err == nil {
			t.Errorf("%s: ParseGauge(%q) = %q, want it refused", name, typed, got)
		} else {
			checkUnusable(t, typed, err)
		}
	}
}

// inOrder lists every size a Gauge can hold, finest first.
func inOrder() []Gauge {
	var sizes []Gauge
	for n := finestAWG; n >= -3; n-- {
		sizes = append(sizes, named(n))
	}
	for k := firstKcmil; k <= lastKcmil; k++ {
		sizes = append(sizes, Gauge(strconv.Itoa(k)+" "+kcmil))
	}
	return sizes
}

func TestEverySizeReadsBackAndGrows(t *testing.T) {
	sizes := inOrder()
	for i, size := range sizes {
		if got, err := ParseGauge(size.String()); err != nil || got != size {
			t.Errorf("%q read %q, %v", size.String(), got, err)
		}
		if i > 0 && (!sizes[i-1].Less(size) || size.Less(sizes[i-1])) {
			t.Errorf("%v should be smaller than %v", sizes[i-1], size)
		}
	}
}

// NEC chapter 9 table 8, circular mils column (2020 edition).
func TestCircularMilsAgainstHandbook(t *testing.T) {
	for size, want := range map[Gauge]float64{
		"18": 1620, "16": 2580, "14": 4110, "12": 6530, "10": 10380, "8": 16510, "6": 26240, "4": 41740, "3": 52620,
		"2": 66360, "1": 83690, "1/0": 105600, "2/0": 133100, "3/0": 167800, "4/0": 211600, "250 kcmil": 250000, "750 kcmil": 750000,
	} {
		if got := size.CircularMils(); math.Abs(got/want-1) > 0.003 { // table is cut to three or four figures; 18 AWG is 1620 against 1624
			t.Errorf("%v: %.0f cmil, table %.0f", size, got, want)
		}
	}
}

func TestUnknownSize(t *testing.T) {
	var unknown Gauge
	if !math.IsNaN(unknown.CircularMils()) || unknown.Less("12") || Gauge("12").Less(unknown) || unknown.String() != "unknown size" {
		t.Errorf("an unread size has area %v", unknown.CircularMils())
	}
	wire := map[string]Gauge{}
	if err := json.Unmarshal([]byte(`{"hot":"#12","neutral":""}`), &wire); err != nil || wire["hot"] != "12" || wire["neutral"] != "" {
		t.Errorf("read %v, %v", wire, err)
	}
	if err := json.Unmarshal([]byte(`{"hot":"thick"}`), &wire); err == nil {
		t.Error("read a size that is none")
	}
}

func FuzzParseGauge(f *testing.F) {
	for _, seed := range []string{"14", "#12", "12 AWG", "1/0", "0000", "250 kcmil", "500MCM", "awg no.8"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, typed string) {
		first, err := ParseGauge(typed)
		if err != nil {
			checkUnusable(t, typed, err)
			return
		}
		if again, err := ParseGauge(first.String()); err != nil || again != first || math.IsNaN(first.CircularMils()) {
			t.Fatalf("%q read %q, then %q, %v", typed, first, again, err)
		}
	})
}
