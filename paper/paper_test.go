package paper

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// samplePage holds every kind of mark and symbol once.
func samplePage() *Page {
	p := NewPage(Size{90, 100}, "Marks & symbols")
	p.Text(5, 9, "Marks", Style{Size: 16, Face: Bold})
	p.Rect(Area{5, 14, 20, 10}, Thin, NoInk)
	p.Rect(Area{30, 14, 20, 10}, Chalk, NoInk)
	p.Text(40, 20, "planned", Style{Size: 9, Ink: Planned, Anchor: Middle})
	p.Hatch(Area{55, 14, 20, 10})
	p.Polygon(StopPen, Ground, Point{10, 28}, Point{15, 36}, Point{5, 36})
	p.Text(20, 34, "STOP", Style{Size: 12, Face: Bold, Ink: Stop})
	p.Circle(45, 32, 4, Firm, NoInk)
	p.Arrow(55, 32, 75, 32, Firm)
	for i, s := range []Stroke{None, Dotted, Single, Double, Wavy} {
		y := 44 + float64(i)*7
		w := p.Text(5, y, "A02-08 hot", Style{Size: 10})
		p.Underline(5, y, w, s)
	}
	p.Box(45, 42, 4)
	p.Tick(45, 42, 4)
	p.Box(52, 42, 4)
	p.FillIn(60, 46, 25)
	p.Text(45, 56, "118.6 V, 0.04 Ω", Style{Size: 10, Face: Mono})
	p.Text(45, 62, "≥ 1 µs ± ½ °", Style{Size: 10, Face: Italic})
	p.Text(84, 74, "turned", Style{Size: 9, Turn: -90})
	link := p.Link(Area{45, 65, 30, 9}, "/line/34?at=1&x=2", `space 34: "attic"`)
	link.Fitted(47, 71, 25, "Bedroom outlets along the north wall", Style{Size: 10})
	if err := p.QR(5, 76, 20, "https://laptop.local/s/K7M2Q"); err != nil {
		panic(err)
	}
	return p
}

func golden(t *testing.T, name string, got []byte) {
	t.Helper()
	file := "testdata/" + name
	if *update {
		if err := os.WriteFile(file, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), string(got)); diff != "" {
		t.Errorf("%s changed (-want +got):\n%s", file, diff)
	}
}

func TestSVGGolden(t *testing.T) {
	golden(t, "marks.svg", SVG(samplePage(), SVGOptions{Standalone: true}))
	golden(t, "marks-inline.svg", SVG(samplePage(), SVGOptions{}))
}

func TestSVGTwiceTheSame(t *testing.T) {
	a, b := SVG(samplePage(), SVGOptions{}), SVG(samplePage(), SVGOptions{})
	if !bytes.Equal(a, b) {
		t.Error("the same page gave two drawings")
	}
}

// readSVG returns the characters of all text elements, all aria-labels and all
// element names; the decoder is the standard library's.
func readSVG(t interface{ Fatalf(string, ...any) }, svg []byte) (texts, labels, names, hrefs []string) {
	d := xml.NewDecoder(bytes.NewReader(svg))
	for in := ""; ; {
		tok, err := d.Token()
		if errors.Is(err, io.EOF) {
			return texts, labels, names, hrefs
		}
		if err != nil {
			t.Fatalf("not well formed: %v\n%s", err, svg)
		}
		switch tok := tok.(type) {
		case xml.StartElement:
			in = tok.Name.Local
			names = append(names, in)
			for _, a := range tok.Attr {
				switch a.Name.Local {
				case "aria-label":
					labels = append(labels, a.Value)
				case "href":
					hrefs = append(hrefs, a.Value)
				}
			}
			if in == "text" {
				texts = append(texts, "")
			}
		case xml.CharData:
			if in == "text" {
				texts[len(texts)-1] += string(tok)
			}
		case xml.EndElement:
			in = ""
		}
	}
}

var hostile = []string{
	`<script>alert(1)</script>`, `</text></svg><img src=x onerror=alert(1)>`, `" onload="alert(1)`, `]]>`, `&lt;`, `&#60;`,
	"a\x00b\x1bc", "line\nbreak\ttab", "\xff\xfe bad", "\uFFFE\uFFFF", "' or 1", "  two  spaces  ", "名前 🔌", "=1+1",
}

func checkEscaped(t interface {
	Fatalf(string, ...any)
	Errorf(string, ...any)
}, s string) {
	p := NewPage(Letter, s)
	p.Text(10, 10, s, Style{})
	p.Named(s).Line(0, 0, 1, 1, Thin)
	svg := SVG(p, SVGOptions{})
	texts, labels, names, _ := readSVG(t, svg)
	want := Clean(s)
	if got := strings.Join(texts, "|"); got != want {
		t.Errorf("text %q came back as %q", want, got)
	}
	for _, l := range labels {
		if l != want {
			t.Errorf("name %q came back as %q", want, l)
		}
	}
	for _, n := range names {
		switch n {
		case "svg", "title", "text", "g", "path":
		default:
			t.Errorf("text %q made an element <%s>", s, n)
		}
	}
	if n := bytes.Count(svg, []byte("<")); n != 2*len(names)-strings.Count(string(svg), "/>") {
		t.Errorf("text %q left a raw < in\n%s", s, svg)
	}
}

func TestHostileTextStaysText(t *testing.T) {
	for _, s := range hostile {
		checkEscaped(t, s)
	}
}

func TestEveryTextComesBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		checkEscaped(t, rapid.OneOf(rapid.String(), rapid.StringMatching(`[<>&"' a-z\n]{0,12}`)).Draw(t, "text"))
	})
}

func FuzzTextComesBack(f *testing.F) {
	for _, s := range hostile {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) { checkEscaped(t, s) })
}

func TestOnlyPlainAddressesAreLinked(t *testing.T) {
	for href, want := range map[string]bool{
		"/line/34?at=1": true, "#a": true, "line/34": true, "https://laptop.local/x": true,
		"": false, "javascript:alert(1)": false, "JavaScript:alert(1)": false, "java\nscript:alert(1)": false,
		"data:text/html,x": false, "//elsewhere/x": false, `\\elsewhere`: false, "https:alert(1)": false, " javascript:x": false,
	} {
		p := NewPage(Letter, "links")
		p.Link(Area{0, 0, 10, 10}, href, "to").Line(0, 0, 1, 1, Thin)
		_, _, _, hrefs := readSVG(t, SVG(p, SVGOptions{}))
		if (len(hrefs) == 1) != want {
			t.Errorf("href %q: linked %v, want %v", href, !want, want)
		}
	}
}

func TestStandaloneCarriesItsOwnColorsAndInlineDoesNot(t *testing.T) {
	p := samplePage()
	alone, inline := string(SVG(p, SVGOptions{Standalone: true})), string(SVG(p, SVGOptions{}))
	if !strings.Contains(alone, `color="#2b2b2b"`) || !strings.Contains(alone, `width="90mm"`) {
		t.Error("a standalone file lacks its color or its size")
	}
	if strings.Contains(inline, "#2b2b2b") || strings.Contains(inline, `width="90mm"`) {
		t.Error("an inline drawing overrides the page around it")
	}
	for _, class := range []string{`class="ink"`, `class="planned"`, `class="stop"`} {
		if !strings.Contains(inline, class) {
			t.Errorf("inline drawing has no %s", class)
		}
	}
	for _, i := range []Ink{Graphite, Faint, Planned, Stop, Ground} {
		if !strings.Contains(CSS, "."+i.Class()+"{") {
			t.Errorf("CSS has no color for %q", i.Class())
		}
	}
}

func TestALinkedDrawingIsNotHiddenFromListeners(t *testing.T) {
	p := NewPage(Letter, "panel")
	g := p.Named("row 1")
	g.Link(Area{0, 0, 1, 1}, "/x", "space 1")
	if svg := string(SVG(p, SVGOptions{})); strings.Contains(svg, `role="img"`) {
		t.Errorf("a link inside role=img:\n%s", svg)
	}
}

func TestUnderlinesDifferInShape(t *testing.T) {
	shape := func(s Stroke) string {
		p := NewPage(Letter, "")
		p.Underline(10, 10, 20, s)
		_, _, names, _ := readSVG(t, SVG(p, SVGOptions{}))
		points := 0
		for _, m := range p.Marks {
			if path, ok := m.(Path); ok {
				points += len(path.Runs[0])
			}
			if c, ok := m.(Circle); ok && c.Radius < 0.3 {
				t.Error("a dot too small to see at arm's length")
			}
		}
		return strings.Join(names[2:], " ") + strings.Repeat("+", points)
	}
	seen := map[string]Stroke{}
	for s := None; s <= Wavy; s++ {
		k := shape(s)
		if other, ok := seen[k]; ok {
			t.Errorf("strokes %d and %d look alike", s, other)
		}
		seen[k] = s
	}
	// Common practice, no source: at 0.7 m one minute of arc is 0.2 mm, so the
	// gap of the double line must be several times that.
	p := NewPage(Letter, "")
	p.Underline(0, 0, 20, Double)
	gap := p.Marks[1].(Path).Runs[0][0].Y - p.Marks[0].(Path).Runs[0][0].Y - p.Marks[0].(Path).Pen.Width
	if gap < 0.5 {
		t.Errorf("gap of the double line is %.2f mm", gap)
	}
}

func TestUnderlinesStayWithinTheirRoom(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		width := rapid.Float64Range(0.5, 200).Draw(t, "width")
		s := Stroke(rapid.IntRange(0, int(Wavy)).Draw(t, "stroke"))
		p := NewPage(Letter, "")
		p.Underline(5, 10, width, s)
		for _, m := range p.Marks {
			var pts []Point
			r := 0.0
			switch m := m.(type) {
			case Path:
				pts, r = m.Runs[0], m.Pen.Width/2
			case Circle:
				pts, r = []Point{m.Center}, m.Radius
			}
			for _, q := range pts {
				if q.Y-r < 10 || q.Y+r > 10+UnderlineRoom || q.X < 4.99 || q.X > 5.01+width {
					t.Fatalf("stroke %d draws at %v", s, q)
				}
			}
		}
	})
}

func TestHatchStaysInside(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := Area{3, 4, rapid.Float64Range(0, 50).Draw(t, "w"), rapid.Float64Range(0, 50).Draw(t, "h")}
		p := NewPage(Letter, "")
		p.Hatch(a)
		for _, run := range p.Marks[0].(Path).Runs {
			for _, q := range run {
				if q.X < a.X-1e-9 || q.X > a.X+a.W+1e-9 || q.Y < a.Y-1e-9 || q.Y > a.Y+a.H+1e-9 {
					t.Fatalf("hatching at %v outside %v", q, a)
				}
			}
		}
	})
}
