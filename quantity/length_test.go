package quantity

import (
	"testing"

	"pgregory.net/rapid"
)

func TestParseInches(t *testing.T) {
	for name, c := range map[string]struct {
		typed string
		want  Inches
	}{
		"whole and fraction":     {"4-1/2", 4.5},
		"fraction after a space": {"4 1/2 in", 4.5},
		"fraction alone":         {`3/8"`, 0.375},
		"decimal":                {"4.5 inches", 4.5},
		"decimal comma":          {"4,5", 4.5},
		"sixty-fourths":          {"1-63/64 in.", 1 + 63.0/64},
		"typeset mark":           {"2 ″", 2},
	} {
		if got, err := ParseInches(c.typed); err != nil || got != c.want {
			t.Errorf("%s: ParseInches(%q) = %v, %v; want %v", name, c.typed, got, err, c.want)
		}
	}
	for name, typed := range map[string]string{
		"nothing": "", "thirds": "1/3", "no bottom": "4-1/", "zero bottom": "1/0", "top too large": "4 3/2",
		"two numbers": "4 5", "decimal with fraction": "4.5-1/2", "feet": "4 ft", "below zero": "-4", "letter": "4l",
	} {
		if got, err := ParseInches(typed); err == nil {
			t.Errorf("%s: ParseInches(%q) = %v, want it refused", name, typed, got)
		} else {
			checkUnusable(t, typed, err)
		}
	}
}

func TestParseFeet(t *testing.T) {
	for name, c := range map[string]struct {
		typed string
		want  Feet
	}{
		"bare":                   {"120", 120},
		"with unit":              {"12.5 ft", 12.5},
		"fraction":               {"12-1/2 FT", 12.5},
		"feet and inches":        {`12' 6"`, 12.5},
		"feet, inches, fraction": {"12 ft 4-1/2 in", 12.375},
		"with a dash":            {`12'-3"`, 12.25},
	} {
		if got, err := ParseFeet(c.typed); err != nil || got != c.want {
			t.Errorf("%s: ParseFeet(%q) = %v, %v; want %v", name, c.typed, got, err, c.want)
		}
	}
	for name, typed := range map[string]string{
		"nothing": " ", "inch marks": "6''", "inches": "6 in", "dash alone": "12-6", "thirteen inches": `1' 13"`,
		"below zero": "-3 ft", "inches below zero": "3 ft in",
	} {
		if got, err := ParseFeet(typed); err == nil {
			t.Errorf("%s: ParseFeet(%q) = %v, want it refused", name, typed, got)
		} else {
			checkUnusable(t, typed, err)
		}
	}
}

func TestLengthPrintedIsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		inches := Inches(rapid.Float64Range(0, largest).Draw(t, "inches"))
		if rapid.Bool().Draw(t, "on the tape") {
			inches = Inches(rapid.IntRange(0, 1<<20).Draw(t, "64ths")) / 64
		}
		if got, err := ParseInches(inches.String()); err != nil || got != inches {
			t.Fatalf("%q read %v, %v", inches, got, err)
		}
		feet := Feet(inches)
		if got, err := ParseFeet(feet.String()); err != nil || got != feet {
			t.Fatalf("%q read %v, %v", feet, got, err)
		}
	})
}

func FuzzParseInches(f *testing.F) {
	for _, seed := range []string{"4-1/2", "4 1/2 in", `3/8"`, "4,5", "10000000000000 63/64", "1/0", "''"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, typed string) {
		first, err := ParseInches(typed)
		if err != nil {
			checkUnusable(t, typed, err)
			return
		}
		if again, err := ParseInches(first.String()); err != nil || again != first {
			t.Fatalf("%q read %v, then %v, %v", typed, first, again, err)
		}
	})
}

func FuzzParseFeet(f *testing.F) {
	for _, seed := range []string{`12' 6"`, "12 ft 4-1/2 in", "12.5FT", "6''", "10000000000000' 11"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, typed string) {
		first, err := ParseFeet(typed)
		if err != nil {
			checkUnusable(t, typed, err)
			return
		}
		if again, err := ParseFeet(first.String()); err != nil || again != first {
			t.Fatalf("%q read %v, then %v, %v", typed, first, again, err)
		}
	})
}
