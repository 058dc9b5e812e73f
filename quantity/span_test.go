package quantity

import (
	"testing"

	"pgregory.net/rapid"
)

func TestParseSpan(t *testing.T) {
	for typed, want := range map[string]Inches{
		`12' 6"`: 150, "12 ft 6 in": 150, "12.5": 150, "12.5 ft": 150, "150 in": 150, `150"`: 150, "12": 144, `12'-6-1/2"`: 150.5,
		"12 feet 7 inches": 151, "6-1/2 in": 6.5, "1/2": 6, "6''": 6, "7 ft": 84, "12,5": 150, "12’ 6”": 150, "12′ 6″": 150, "0": 0,
	} {
		if got, err := ParseSpan(typed); err != nil || got != want {
			t.Errorf("ParseSpan(%q) = %v, %v; want %v", typed, got, err, want)
		}
	}
	for _, typed := range []string{"", "wide", "-3 ft", `12' 13"`, "12 m", "twelve ft", "12-6", "12 6", "1e9 ft ft"} {
		if got, err := ParseSpan(typed); err == nil {
			t.Errorf("ParseSpan(%q) = %v, want it refused", typed, got)
		} else {
			checkUnusable(t, typed, err)
		}
	}
}

func TestSpan(t *testing.T) {
	for size, want := range map[Inches]string{150.5: "12 ft 6-1/2 in", 9: "9 in", 144: "12 ft", 0: "0 in", -18: "-1 ft 6 in"} {
		if got := size.Span(); got != want {
			t.Errorf("%v inches are %q, want %q", float64(size), got, want)
		}
	}
}

// What is printed reads back as the same length.
func TestSpanReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		size := Inches(rapid.IntRange(0, 64*12*1000).Draw(t, "64ths")) / 64
		if got, err := ParseSpan(size.Span()); err != nil || got != size {
			t.Fatalf("%q reads back as %v, %v", size.Span(), got, err)
		}
	})
}
