package quantity

import (
	"testing"

	"pgregory.net/rapid"
)

func TestParseVolts(t *testing.T) {
	for name, c := range map[string]struct {
		typed string
		want  Volts
	}{
		"bare":          {"118.6", 118.6},
		"decimal comma": {"118,6 V", 118.6},
		"in words":      {"240 volts", 240},
		"alternating":   {"0.3 VAC", 0.3},
		"phantom":       {"480 mV", 0.48},
		"kilovolts":     {"12.47kV", 12470},
	} {
		if got, err := ParseVolts(c.typed); err != nil || got != c.want {
			t.Errorf("%s: ParseVolts(%q) = %v, %v; want %v", name, c.typed, got, err, c.want)
		}
	}
	for name, typed := range map[string]string{
		"nothing": "", "ohms": "120 Ω", "over limit": "OL", "below zero": "-120", "letter": "12O", "two": "118 119",
		"megavolts": "1 MV", "direct voltage": "24 VDC",
	} {
		if got, err := ParseVolts(typed); err == nil {
			t.Errorf("%s: ParseVolts(%q) = %v, want it refused", name, typed, got)
		} else {
			checkUnusable(t, typed, err)
		}
	}
}

func TestVoltsPrintedIsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want := Volts(rapid.Float64Range(0, largest).Draw(t, "volts"))
		if got, err := ParseVolts(want.String()); err != nil || got != want {
			t.Fatalf("%q read %v, %v", want, got, err)
		}
	})
}

func FuzzParseVolts(f *testing.F) {
	for _, seed := range []string{"118.6", "118,6 V", "480 mV", "OL", "1..2"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, typed string) {
		first, err := ParseVolts(typed)
		if err != nil {
			checkUnusable(t, typed, err)
			return
		}
		if again, err := ParseVolts(first.String()); err != nil || again != first {
			t.Fatalf("%q read %v, then %v, %v", typed, first, again, err)
		}
	})
}
