package paper

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func pageTexts(p *Page) []string {
	var all []string
	var walk func([]Mark)
	walk = func(ms []Mark) {
		for _, m := range ms {
			switch m := m.(type) {
			case Text:
				all = append(all, m.S)
			case *Group:
				walk(m.Marks)
			}
		}
	}
	walk(p.Marks)
	return all
}

func testFrame() Frame {
	return Frame{
		Title: "Directory of panel A1", Place: "Pellam Point, house", Date: "3 March 2026",
		People:  []string{"Marit Sandvei", "Dell Amoah"},
		Caution: []string{"Test for voltage before you touch a conductor."},
		State:   "Made from 412 readings, the last at 14:05.", Find: "https://laptop.local/s/K7M2Q", Key: "K7M2Q",
	}
}

func TestEveryPageHasItsFoot(t *testing.T) {
	s, err := NewSheet(testFrame())
	if err != nil {
		t.Fatal(err)
	}
	for i := range 120 {
		s.Paragraph(fmt.Sprintf("Paragraph %d of a long sheet.", i))
	}
	if len(s.Pages) < 3 {
		t.Fatalf("120 paragraphs on %d pages", len(s.Pages))
	}
	for i, p := range s.Pages {
		text := strings.Join(pageTexts(p), "\n")
		for _, want := range []string{
			fmt.Sprintf("Page %d of %d", i+1, len(s.Pages)), "Directory of panel A1", "3 March 2026",
			"Made from 412 readings, the last at 14:05.", "K7M2Q",
		} {
			if !strings.Contains(text, want) {
				t.Errorf("page %d lacks %q", i+1, want)
			}
		}
		if n := strings.Count(text, "Page "); n != 1 {
			t.Errorf("page %d has %d page numbers", i+1, n)
		}
	}
}

func TestSheetLosesNoTextAndStaysOnThePage(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := testFrame()
		f.Size = rapid.SampledFrom([]Size{Letter, A4, Letter.Landscape()}).Draw(t, "size")
		for range rapid.IntRange(0, 40).Draw(t, "caution sentences") {
			f.Caution = append(f.Caution, "Zq1 says stop when the lamp lights.")
		}
		s, err := NewSheet(f)
		if err != nil {
			t.Fatal(err)
		}
		wanted := 0
		for range rapid.IntRange(0, 12).Draw(t, "parts") {
			wanted++
			switch rapid.IntRange(0, 3).Draw(t, "kind") {
			case 0:
				s.Heading("Zq2 heading")
			case 1:
				s.Paragraph("Zq2 " + strings.Repeat("paragraph ", rapid.IntRange(0, 900).Draw(t, "words")))
			case 2:
				s.Table(&Table{Columns: []Column{{Head: "a"}, {}}, Rows: []Row{{Cells: []Cell{{Text: "Zq2"}}, Height: 200}}})
			case 3:
				p, a := s.Room(rapid.Float64Range(5, 150).Draw(t, "room"))
				p.Text(a.X, a.Y+a.H, "Zq2", Style{})
			}
		}
		text := ""
		for _, p := range s.Pages {
			text += strings.Join(pageTexts(p), "\n") + "\n"
			checkOnPage(t, f, p)
		}
		if got := strings.Count(text, "Zq2"); got != wanted {
			t.Fatalf("%d parts of %d are on the sheet", got, wanted)
		}
		if got := strings.Count(text, "Zq1"); got != len(f.Caution)-1 {
			t.Fatalf("%d caution sentences of %d are on the sheet", got, len(f.Caution)-1)
		}
	})
}

// checkOnPage wants no text of the body in the foot or off the paper.
func checkOnPage(t *rapid.T, f Frame, p *Page) {
	for _, m := range p.Marks {
		text, ok := m.(Text)
		if ok && (text.At.Y > f.Size.Height-footRoom || text.At.Y < 10) {
			t.Fatalf("%q at %.1f mm of %.1f", text.S, text.At.Y, f.Size.Height)
		}
	}
}

func TestAnotherLanguageHasItsOwnWords(t *testing.T) {
	f := testFrame()
	f.Words = Words{Page: "Side %d av %d", Caution: "Forsiktig"}
	s, err := NewSheet(f)
	if err != nil {
		t.Fatal(err)
	}
	text := strings.Join(pageTexts(s.Pages[0]), "\n")
	if !strings.Contains(text, "Side 1 av 1") || !strings.Contains(text, "Forsiktig") || strings.Contains(text, "Page ") {
		t.Errorf("words of the sheet:\n%s", text)
	}
}

// A picture stands in the file with its name; without bytes it is said to be
// missing, in its place.
func TestPictureInSVG(t *testing.T) {
	p := NewPage(Letter, "record")
	p.Picture(Picture{Area: Area{10, 20, 80, 60}, Name: `box "A"`, JPEG: func() []byte { return []byte{0xff, 0xd8, 0xff} }, Else: "not read"})
	got := string(SVG(p, SVGOptions{Standalone: true}))
	if want := `<image x="10" y="20" width="80" height="60" aria-label="box &#34;A&#34;" href="data:image/jpeg;base64,/9j/"/>`; !strings.Contains(got, want) || strings.Contains(got, "not read") {
		t.Errorf("the picture is not in the file:\n%s", got)
	}
	none := NewPage(Letter, "record")
	none.Picture(Picture{Area: Area{10, 20, 80, 60}, JPEG: func() []byte { return nil }, Else: "It cannot be read here."})
	if got := string(SVG(none, SVGOptions{})); strings.Contains(got, "<image") || !strings.Contains(got, "It cannot be read here.") {
		t.Errorf("a picture without bytes is left out in silence:\n%s", got)
	}
}
