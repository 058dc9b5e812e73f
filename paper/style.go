package paper

import (
	_ "embed"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Face is one of the four faces of the Go fonts in use.
type Face int

const (
	Regular Face = iota
	Bold
	Italic
	Mono
	faces
)

// Anchor says which point of a line of text lies at the given place.
type Anchor int

const (
	Start Anchor = iota
	Middle
	End
)

// Style is how a text is set.
type Style struct {
	Size   float64 // points; 0 is 10
	Face   Face
	Ink    Ink
	Anchor Anchor
	Turn   float64 // degrees clockwise about the anchor
}

// MMPerPoint is the length of a point in millimeters: 1/72 inch.
const MMPerPoint = 25.4 / 72

func (st Style) points() float64 {
	if st.Size <= 0 {
		return 10
	}
	return st.Size
}

// Points returns the size in points, never zero.
func (st Style) Points() float64 { return st.points() }

// MM returns the size in millimeters.
func (st Style) MM() float64 { return st.points() * MMPerPoint }

// Leading returns the distance between base lines, in millimeters.
func (st Style) Leading() float64 { return 1.35 * st.MM() }

// Width returns how wide the text is, in millimeters.
func (st Style) Width(s string) float64 {
	sum := 0
	for _, r := range s {
		w, _ := advance(st.Face, r)
		sum += w
	}
	return float64(sum) * st.MM() / 1000
}

// Has tells whether the face can show the character. On paper, one it cannot
// show is replaced by a visible sign; a screen finds another font.
func (f Face) Has(r rune) bool {
	_, ok := advance(f, r)
	return ok
}

// advance returns the width of a character in thousandths of the size. One the
// face lacks counts as a full square, or as nothing if it is a combining mark.
func advance(f Face, r rune) (thousandths int, known bool) {
	if w, ok := widths[f][r]; ok {
		return w, true
	}
	if unicode.Is(unicode.Mn, r) {
		return 0, false
	}
	return 1000, false
}

// widthTable lists the widths of the Go fonts (golang.org/x/image/font/gofont),
// one line per run of characters: face, first character, widths. It is made
// from the fonts by "go test ./paper -run Widths -update". A table rather than
// the fonts, because a phone needs the widths and not the outlines.
//
//go:embed widths.txt
var widthTable string

var widths = readWidths(widthTable)

func readWidths(text string) (all [faces]map[rune]int) {
	for f := range all {
		all[f] = map[rune]int{}
	}
	for line := range strings.Lines(text) {
		part := strings.Fields(line)
		f, _ := strconv.Atoi(part[0])
		first, _ := strconv.ParseInt(part[1], 16, 32)
		for i, w := range part[2:] {
			n, _ := strconv.Atoi(w)
			all[f][rune(first)+rune(i)] = n
		}
	}
	return all
}

// Clean makes a string one printable line: control characters and line breaks
// become spaces, and bytes that are no UTF-8 become the replacement character.
func Clean(s string) string {
	if !strings.ContainsFunc(s, unprintable) && utf8.ValidString(s) {
		return s
	}
	return strings.Map(func(r rune) rune {
		switch {
		case unicode.IsControl(r), r == '\u2028', r == '\u2029':
			return ' '
		case r == '\uFFFE', r == '\uFFFF':
			return utf8.RuneError
		}
		return r
	}, strings.ToValidUTF8(s, string(utf8.RuneError)))
}

func unprintable(r rune) bool {
	return unicode.IsControl(r) || r == '\u2028' || r == '\u2029' || r == '\uFFFE' || r == '\uFFFF'
}
