package quantity

import (
	"encoding/json"
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestParseResistance(t *testing.T) {
	for name, c := range map[string]struct {
		typed, printed string
		want           Resistance
	}{
		"kilohms":                           {"2.49k", "2.49 kΩ", Resistance{Ohm: 2490}},
		"decimal comma":                     {"2,49 k", "2.49 kΩ", Resistance{Ohm: 2490}},
		"bare ohms":                         {"830", "830 Ω", Resistance{Ohm: 830}},
		"megohms of a leak":                 {"0.03M", "30 kΩ", Resistance{Ohm: 30000}},
		"low ohms":                          {"0,1", "0.1 Ω", Resistance{Ohm: 0.1}},
		"three figures after a comma":       {"2,490", "2.49 Ω", Resistance{Ohm: 2.49}},
		"marked like a resistor":            {"2k49", "2.49 kΩ", Resistance{Ohm: 2490}},
		"marked with R":                     {"4R7", "4.7 Ω", Resistance{Ohm: 4.7}},
		"marked, with unit":                 {"2K49 Ω", "2.49 kΩ", Resistance{Ohm: 2490}},
		"R after the figures":               {"470R", "470 Ω", Resistance{Ohm: 470}},
		"over limit":                        {"OL", "open", Resistance{Open: true}},
		"over limit in small letters":       {"ol", "open", Resistance{Open: true}},
		"over limit, a figure for the O":    {"0L", "open", Resistance{Open: true}},
		"over limit with the meter's point": {"0.L MΩ", "open", Resistance{Open: true}},
		"open in words":                     {" Open ", "open", Resistance{Open: true}},
		"kohm":                              {"1.2 kohm", "1.2 kΩ", Resistance{Ohm: 1200}},
		"omega":                             {"68.1Ω", "68.1 Ω", Resistance{Ohm: 68.1}},
		"ohm sign":                          {"68.1 k\u2126", "68.1 kΩ", Resistance{Ohm: 68100}},
		"ohms in words":                     {"12 ohms", "12 Ω", Resistance{Ohm: 12}},
		"ohms run together":                 {"12ohms", "12 Ω", Resistance{Ohm: 12}},
		"insulation":                        {"1.5 GΩ", "1.5 GΩ", Resistance{Ohm: 1.5e9}},
		"megohms in words":                  {"2 megohms", "2 MΩ", Resistance{Ohm: 2e6}},
		"zeroed leads":                      {"0.00", "0 Ω", Resistance{}},
	} {
		t.Run(name, func(t *testing.T) {
			got, err := ParseResistance(c.typed)
			if err != nil || got != c.want {
				t.Fatalf("ParseResistance(%q) = %v, %v; want %v", c.typed, got, err, c.want)
			}
			if got.String() != c.printed {
				t.Errorf("printed %q, want %q", got.String(), c.printed)
			}
		})
	}
}

func TestResistanceRefused(t *testing.T) {
	for name, c := range map[string]struct{ typed, says string }{
		"nothing":             {"  ", "could not be read"},
		"below zero":          {"-0.3", "voltage"},
		"below zero, typeset": {"−12k", "voltage"},
		"volts":               {"120 V", "treat it as live"},
		"letter O":            {"1O0", "Character 2"},
		"small letter O":      {"1o", "letter o"},
		"letter O before k":   {"1Ok", "letter O"},
		"letter l for 1":      {"l00", "Character 1"},
		"two readings":        {"2.49k 830", "more than one"},
		"two with a stroke":   {"2.49/2.50", "more than one"},
		"space in thousands":  {"10 000", "more than one"},
		"thousands mark":      {"2,490.5", "one decimal mark"},
		"millions":            {"1,000,000", "one decimal mark"},
		"small m":             {"0.03m", "capital M"},
		"small mohm":          {"30 mΩ", "capital M"},
		"split mark":          {"2k 49", "more than one"},
		"words":               {"good", "Start with a number"},
		"beyond any meter":    {"999999 G", "larger"},
		"power of ten":        {"2e3", "more than one"},
		"spoilt bytes":        {"12\xff", "cannot be read"},
	} {
		t.Run(name, func(t *testing.T) {
			got, err := ParseResistance(c.typed)
			var unusable *Unusable
			if !errors.As(err, &unusable) {
				t.Fatalf("ParseResistance(%q) = %v, %v; want it refused", c.typed, got, err)
			}
			if unusable.Typed != c.typed || !strings.Contains(unusable.Say, c.says) {
				t.Errorf("refused %q with %q; want %q in it", unusable.Typed, unusable.Say, c.says)
			}
		})
	}
}

func TestResistancePrintedIsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want := Resistance{Ohm: Ohms(rapid.Float64Range(0, largest).Draw(t, "ohm"))}
		if got, err := ParseResistance(want.String()); err != nil || got != want {
			t.Fatalf("%v printed %q read %v, %v", float64(want.Ohm), want, float64(got.Ohm), err)
		}
	})
}

func TestResistanceJSON(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want := Resistance{Open: rapid.Bool().Draw(t, "open")}
		if !want.Open {
			want.Ohm = Ohms(rapid.Float64Min(0).Draw(t, "ohm"))
		}
		data, err := json.Marshal(want)
		if err != nil {
			t.Fatal(err)
		}
		var got Resistance
		if err := json.Unmarshal(data, &got); err != nil || got != want {
			t.Fatalf("%v written %s read %v, %v", want, data, got, err)
		}
	})
}

func TestResistanceJSONRefused(t *testing.T) {
	for _, data := range []string{`null`, `-1`, `"OL"`, `"12"`, `{}`, `true`, `1e999`} {
		kept := Resistance{Ohm: 7}
		if err := json.Unmarshal([]byte(data), &kept); err == nil || kept.Ohm != 7 {
			t.Errorf("read %s as %v", data, kept)
		}
	}
	for _, ohm := range []Ohms{-1, Ohms(math.NaN()), Ohms(math.Inf(1))} {
		if data, err := json.Marshal(Resistance{Ohm: ohm}); err == nil {
			t.Errorf("wrote %v as %s", ohm, data)
		}
	}
}

func FuzzParseResistance(f *testing.F) {
	for _, seed := range []string{"2.49k", "2,49 k", "2k49", "OL", "0.03M", "1O0", "1.2 kohm", "4R7 Ω", "-1", "0l.m"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, typed string) {
		first, err := ParseResistance(typed)
		if err != nil {
			checkUnusable(t, typed, err)
			return
		}
		again, err := ParseResistance(first.String())
		if err != nil || again != first {
			t.Fatalf("%q read %v, then %v, %v", typed, first, again, err)
		}
	})
}

func checkUnusable(t *testing.T, typed string, err error) {
	t.Helper()
	var unusable *Unusable
	if !errors.As(err, &unusable) || unusable.Typed != typed || unusable.Say == "" {
		t.Fatalf("%q refused with %#v", typed, err)
	}
}
