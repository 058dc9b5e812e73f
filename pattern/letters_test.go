package pattern

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// everyNumber calls try with numbers of the forms A02-08 and A02-108: every figure
// at every place for some buildings, and every building with some rooms. (What the
// building adds to the letters does not depend on the figures.)
func everyNumber(try func(number string)) {
	for building := 'A'; building <= 'Z'; building++ {
		step := 9
		if strings.ContainsRune("AMZ", building) {
			step = 1
		}
		for room := 0; room < 100; room += step {
			for opening := range 100 {
				try(fmt.Sprintf("%c%02d-%02d", building, room, opening))
			}
		}
	}
	for room := 0; room < 100; room += 7 {
		for opening := range 1000 {
			try(fmt.Sprintf("C%02d-%03d", room, opening))
		}
	}
}

// TestOneFigureWrong holds the main promise, and more: both letters change.
func TestOneFigureWrong(t *testing.T) {
	everyNumber(func(number string) {
		letters := Letters(number)
		for at := range number {
			if number[at] < '0' || number[at] > '9' {
				continue
			}
			for figure := number[at] + 1; figure <= '9'; figure++ { // the smaller ones are tried the other way round
				wrong := number[:at] + string(figure) + number[at+1:]
				if other := Letters(wrong); other[0] == letters[0] || other[1] == letters[1] {
					t.Fatalf("%s has %s, %s has %s", number, letters, wrong, other)
				}
			}
		}
	})
}

func TestNeighboringFiguresExchanged(t *testing.T) {
	everyNumber(func(number string) {
		figures := []int{}
		for at, r := range number {
			if '0' <= r && r <= '9' {
				figures = append(figures, at)
			}
		}
		for i := range len(figures) - 1 { // across the dash as well
			wrong := []byte(number)
			wrong[figures[i]], wrong[figures[i+1]] = wrong[figures[i+1]], wrong[figures[i]]
			if string(wrong) != number && Letters(string(wrong)) == Letters(number) {
				t.Fatalf("%s and %s both have %s", number, wrong, Letters(number))
			}
		}
	})
}

// TestNearbyNumbers tries every pair up to 59 apart in each group of figures, with
// every carry, beside several other groups.
func TestNearbyNumbers(t *testing.T) {
	for _, form := range []string{"A%d-08", "K%d-199", "A02-%d", "Z99-%d", "M0-%d"} {
		letters := make([]string, 10000)
		for n := range letters {
			letters[n] = Letters(fmt.Sprintf(form, n))
			for before := max(0, n-59); before < n; before++ {
				if letters[before] == letters[n] {
					t.Fatalf(form+" and %d both have %s", before, n, letters[n])
				}
			}
		}
	}
}

// TestNextNumberInAnyForm covers numbers of other forms than letter and two groups.
func TestNextNumberInAnyForm(t *testing.T) {
	for _, form := range []string{"%d", "%d-3", "7-%d", "AB%d", "1-2-%d", "1-2-%d-4", "A1B2C%d", "%06d", "1-1-1-1-1-1-1-1-1-1-1-1-%d"} {
		for n := range 20000 {
			number, next := fmt.Sprintf(form, n), fmt.Sprintf(form, n+1)
			if Letters(number) == Letters(next) {
				t.Fatalf("%s and %s both have %s", number, next, Letters(number))
			}
		}
	}
}

// TestTwoFiguresWrong is the distance argument, checked: any two figures at any two
// places.
func TestTwoFiguresWrong(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		number := rapid.StringMatching(`[A-Z][0-9]{1,4}-[0-9]{1,4}`).Draw(t, "number")
		wrong := []byte(number)
		for range 2 {
			at := rapid.IntRange(1, len(number)-1).Draw(t, "at")
			if number[at] != '-' {
				wrong[at] = byte('0' + rapid.IntRange(0, 9).Draw(t, "figure"))
			}
		}
		if string(wrong) != number && Letters(string(wrong)) == Letters(number) {
			t.Fatalf("%s and %s both have %s", number, wrong, Letters(number))
		}
	})
}

// TestWrongFigureAndWrongCheckLetter: a misread check letter never makes up for a
// wrong figure.
func TestWrongFigureAndWrongCheckLetter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		number := rapid.StringMatching(`[A-Z][0-9]{2}-[0-9]{2,3}`).Draw(t, "number")
		at := rapid.SampledFrom([]int{1, 2, 4, 5}).Draw(t, "at")
		wrong := number[:at] + rapid.SampledFrom(strings.Split("0123456789", "")).Draw(t, "figure") + number[at+1:]
		letters := []byte(Letters(number))
		letters[rapid.IntRange(0, 1).Draw(t, "letter")] = byte(rapid.IntRange('A', 'Z').Draw(t, "misread"))
		if wrong != number && LettersMatch(wrong, string(letters)) {
			t.Fatalf("%s misread as %s with %s matches", number, wrong, letters)
		}
	})
}

func TestLettersOfTheNumberWrong(t *testing.T) {
	for a := 'A'; a <= 'Z'; a++ {
		for b := 'A'; b <= 'Z'; b++ {
			if one, other := fmt.Sprintf("%c12-34", a), fmt.Sprintf("%c12-34", b); a != b && Letters(one) == Letters(other) {
				t.Errorf("%s and %s both have %s", one, other, Letters(one))
			}
			if one, other := fmt.Sprintf("%c%c12", a, b), fmt.Sprintf("%c%c12", b, a); a != b && Letters(one) == Letters(other) {
				t.Errorf("%s and %s both have %s", one, other, Letters(one))
			}
		}
	}
}

// TestFigureTakenForLetter: outside the promise, so it is only counted. By chance
// alone one in 169 would slip through.
func TestFigureTakenForLetter(t *testing.T) {
	tried, missed := 0, 0
	everyNumber(func(number string) {
		for at, wrong := range number {
			for figure, letter := range map[rune]string{'0': "O", '1': "I", '2': "Z", '5': "S", '8': "B", '6': "G"} {
				if wrong != figure {
					continue
				}
				tried++
				if Letters(number[:at]+letter+number[at+1:]) == Letters(number) {
					missed++
				}
			}
		}
	})
	if tried == 0 || float64(missed) > 0.015*float64(tried) {
		t.Errorf("%d of %d unnoticed", missed, tried)
	}
}

func TestSameNumberWrittenOtherwise(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		number := rapid.StringMatching(`[A-Za-zÆØÅæøå]{1,2}[1-9][0-9]{0,5}-[0-9]{1,3}`).Draw(t, "number")
		padded := strings.Replace(number, "-", "-"+strings.Repeat("0", rapid.IntRange(0, 9).Draw(t, "zeros")), 1)
		for _, same := range []string{strings.ToUpper(number), strings.ToLower(number), padded, strings.Replace(number, "-", " . ", 1)} {
			if Letters(same) != Letters(number) {
				t.Fatalf("%q has %s, %q has %s", number, Letters(number), same, Letters(same))
			}
		}
	})
}

func TestLettersMatch(t *testing.T) {
	letters := Letters("A02-08")
	for _, typed := range []string{letters, strings.ToLower(letters), " " + letters[:1] + " " + letters[1:] + " "} {
		if !LettersMatch("a2-8", typed) {
			t.Errorf("%q should match %s", typed, letters)
		}
	}
	for _, typed := range []string{"", letters[:1], letters + "A", letters[1:] + letters[:1]} {
		if LettersMatch("A02-08", typed) {
			t.Errorf("%q matches %s", typed, letters)
		}
	}
	for _, nothing := range []string{"", " ", "--"} {
		if Letters(nothing) != "" || LettersMatch(nothing, "") {
			t.Errorf("%q has letters %q", nothing, Letters(nothing))
		}
	}
}

func TestGroupOfZeroCounts(t *testing.T) {
	for _, pair := range [][2]string{{"A02", "A02-0"}, {"A", "A0"}, {"8", "8-00"}} {
		if Letters(pair[0]) == Letters(pair[1]) {
			t.Errorf("%v both have %s", pair, Letters(pair[0]))
		}
	}
}

// TestTapesStayTrue is a snapshot, not a validation: letters already written on
// tapes must never change.
func TestTapesStayTrue(t *testing.T) {
	for number, want := range map[string]string{"A02-08": "MK", "A19-04": "TM", "B1-12": "EY", "C03-117": "YT", "Z99-999": "HA"} {
		if got := Letters(number); got != want {
			t.Errorf("%s: %s, tapes say %s", number, got, want)
		}
	}
}

func FuzzLetters(f *testing.F) {
	for _, seed := range []string{"A02-08", "", "ÆØ 12", "9999999999999999999999", "\xff7"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, number string) {
		letters := Letters(number)
		if letters == "" {
			return
		}
		if len(letters) != 2 || strings.Trim(letters, alphabet) != "" || !LettersMatch(number, strings.ToLower(letters)) {
			t.Fatalf("%q has %q", number, letters)
		}
	})
}
