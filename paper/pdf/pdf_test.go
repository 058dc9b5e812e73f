package pdf

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/jpeg"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"asfound/paper"

	"pgregory.net/rapid"
)

var date = time.Date(2026, 3, 3, 14, 5, 0, 0, time.UTC)

// sampleSheet is a directory of a made-up panel with every kind of cell.
func sampleSheet(t testing.TB) *paper.Sheet {
	t.Helper()
	s, err := paper.NewSheet(paper.Frame{
		Title: "Directory of panel A1", Place: "Pellam Point, house", Date: "Tuesday 3 March 2026",
		People: []string{"Marit Sandvei, lead", "Dell Amoah", "Tomas Veil"},
		Caution: []string{
			"Test for voltage at the place of work before you touch a conductor, whatever this sheet says.",
			"A line that is not underlined twice may be wrong.",
		},
		State: "Made from 412 readings, the last taken 3 March 14:05 by Dell Amoah. Three phones heard.",
		Find:  "https://laptop.local/s/K7M2Q", Key: "K7M2Q",
	})
	if err != nil {
		t.Fatal(err)
	}
	s.Heading("Spaces as found")
	s.Table(sampleTable())
	s.Paragraph("No underline: untested. Dots: undecided. One line: likely. Two lines: settled. A wave: readings clash.")
	return s
}

func sampleTable() *paper.Table {
	tab := &paper.Table{Columns: []paper.Column{
		{Head: "Space", Width: 16, Anchor: paper.End, Face: paper.Mono}, {Head: "What it feeds"},
		{Head: "Volts", Width: 22, Anchor: paper.End, Face: paper.Mono}, {Head: "Seen", Width: 20}, {Head: "Note", Width: 38},
	}}
	feeds := []string{
		"Kitchen counter outlets", "Bedroom north, outlets and the hall as far as the stair; opening A02-08 is joined on",
		"Well pump", "Attic, not known", "Range",
	}
	for i := range 42 {
		if i%14 == 0 {
			tab.Rows = append(tab.Rows, paper.Row{Span: true, Cells: []paper.Cell{{Text: fmt.Sprintf("Column %d", i/14+1), Bold: true}}})
		}
		k := i % 5
		tab.Rows = append(tab.Rows, paper.Row{Href: "/x", Name: feeds[k], Cells: []paper.Cell{
			{Text: fmt.Sprint(i + 1)}, {Text: feeds[k], Stroke: paper.Stroke(k)},
			{Text: []string{"118.6", "121.0", "", "0.3", "240.2"}[k], Symbol: []paper.Symbol{0, 0, paper.NotKnown, 0, 0}[k]},
			{Symbol: []paper.Symbol{paper.Ticked, paper.EmptyBox}[i%2], Text: []string{"yes", ""}[i%2]},
			{Symbol: paper.WriteLine},
		}})
	}
	tab.Foot = []paper.Row{{Cells: []paper.Cell{{}, {Text: "42 spaces, 8 settled"}}}}
	return tab
}

func write(t testing.TB, s *paper.Sheet) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := Write(&b, s, Options{Date: date, Author: "Marit Sandvei"}); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func TestSameSheetSameBytes(t *testing.T) {
	want := write(t, sampleSheet(t))
	var wg sync.WaitGroup
	for range 4 {
		wg.Go(func() {
			if !bytes.Equal(write(t, sampleSheet(t)), want) {
				t.Error("the same sheet gave other bytes")
			}
		})
	}
	wg.Wait()
}

// text reads the file with pdftotext of poppler-utils, a reader that shares
// nothing with the writer.
func text(t testing.TB, file []byte) string {
	t.Helper()
	return poppler(t, file, "pdftotext", "-layout", "-enc", "UTF-8", "FILE", "-")
}

func poppler(t testing.TB, file []byte, command string, args ...string) string {
	t.Helper()
	name := filepath.Join(t.TempDir(), "sheet.pdf")
	if err := os.WriteFile(name, file, 0o600); err != nil {
		t.Fatal(err)
	}
	for i := range args {
		if args[i] == "FILE" {
			args[i] = name
		}
	}
	var complaint bytes.Buffer
	cmd := exec.Command(command, args...)
	cmd.Stderr = &complaint
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("%s (install poppler-utils): %v %s", command, err, &complaint)
	}
	if complaint.Len() > 0 {
		t.Errorf("%s complains of the file: %s", command, &complaint)
	}
	return string(out)
}

func TestTextIsFoundAgain(t *testing.T) {
	got := text(t, write(t, sampleSheet(t)))
	pages := strings.Split(strings.TrimSuffix(got, "\f"), "\f")
	if len(pages) < 2 {
		t.Fatalf("%d pages", len(pages))
	}
	for i, page := range pages {
		for _, want := range []string{fmt.Sprintf("Page %d of %d", i+1, len(pages)), "Made from 412 readings", "K7M2Q", "What it feeds"} {
			if !strings.Contains(page, want) {
				t.Errorf("page %d lacks %q:\n%s", i+1, want, page)
			}
		}
	}
	for _, want := range []string{"Test for voltage at the place of work", "Kitchen counter outlets", "118.6", "42 spaces, 8 settled"} {
		if !strings.Contains(got, want) {
			t.Errorf("the file lacks %q", want)
		}
	}
	if n := strings.Count(got, "Well pump"); n != 8 {
		t.Errorf("%d well pumps, want 8", n)
	}
}

func TestTitleAndDateAreInTheFile(t *testing.T) {
	got := poppler(t, write(t, sampleSheet(t)), "pdfinfo", "-isodates", "FILE")
	for _, want := range []string{"Directory of panel A1", "Marit Sandvei", "K7M2Q", "2026-03-03T14:05:00", "612 x 792 pts"} {
		if !strings.Contains(got, want) {
			t.Errorf("pdfinfo lacks %q:\n%s", want, got)
		}
	}
	if n := strings.Count(got, "2026-03-03T14:05:00"); n != 2 { // made and changed
		t.Errorf("%d dates of the sheet, want 2:\n%s", n, got)
	}
}

func TestSizesAndSigns(t *testing.T) {
	p := paper.NewPage(paper.A4.Landscape(), "")
	signs := "0.04 Ω 12 µs 40 °C ± ≤ ≥ ½ Åse Щ"
	p.Text(20, 20, signs, paper.Style{Size: 12})
	p.Text(20, 30, "🔌 名 <b>&amp;(x)\\ y", paper.Style{Size: 12})
	p.Text(20, 90, "turned", paper.Style{Turn: -90})
	small := paper.NewPage(paper.Size{Width: 90, Height: 40}, "")
	small.Text(5, 20, "small", paper.Style{Face: paper.Mono})
	file := write(t, &paper.Sheet{Title: "🔌 (signs) \\", Pages: []*paper.Page{p, small}})
	got := text(t, file)
	for _, want := range []string{signs, "\uFFFD \uFFFD <b>&amp;(x)\\ y", "turned", "small"} {
		if !strings.Contains(got, want) {
			t.Errorf("the file lacks %q:\n%s", want, got)
		}
	}
	if info := poppler(t, file, "pdfinfo", "-l", "2", "FILE"); !strings.Contains(info, "841.89 x 595.28") || !strings.Contains(info, "255.12 x 113.39") {
		t.Errorf("page sizes:\n%s", info)
	}
}

func TestEveryStringCanBeWritten(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		s := r2s(r)
		p := paper.NewPage(paper.Letter, s)
		p.Text(20, 20, s, paper.Style{Face: paper.Face(rapid.IntRange(0, 3).Draw(r, "face"))})
		var b bytes.Buffer
		if err := Write(&b, &paper.Sheet{Title: s, Key: s, Pages: []*paper.Page{p}}, Options{Date: date, Language: s}); err != nil {
			r.Fatal(err)
		}
	})
}

func r2s(r *rapid.T) string {
	return rapid.OneOf(rapid.String(), rapid.StringMatching(`[()\\<>/\n -~]{0,20}`)).Draw(r, "text")
}

// The PDF writer reads the fonts by itself; it must find the widths that package
// paper wraps by.
func TestWidthsAgree(t *testing.T) {
	d := newDoc(&paper.Sheet{}, Options{Date: date})
	for f := range fonts {
		face := paper.Face(f)
		d.face(face, 100)
		for r := rune(0x20); r < 0xFFFF; r++ {
			if !face.Has(r) {
				continue
			}
			got, want := (paper.Style{Size: 100, Face: face}).Width(string(r)), d.GetStringWidth(string(r))
			if diff := got - want; diff > 0.04 || diff < -0.04 { // one thousandth of the size
				t.Errorf("%s %q: paper %.3f mm, pdf %.3f mm", fonts[f].name, r, got, want)
			}
		}
	}
}

func TestASheetThatCannotBeWritten(t *testing.T) {
	var b bytes.Buffer
	if err := Write(&b, &paper.Sheet{}, Options{Date: date}); !errors.Is(err, ErrNoPages) {
		t.Errorf("no pages: %v", err)
	}
	if err := Write(&b, sampleSheet(t), Options{}); !errors.Is(err, ErrNoDate) {
		t.Errorf("no date: %v", err)
	}
	if b.Len() > 0 {
		t.Error("something was written all the same")
	}
}

// A picture is in the file once, however often it is drawn, upright and whole;
// pdfimages of poppler-utils reads it back.
func TestPictureInPDF(t *testing.T) {
	in := image.NewGray(image.Rect(0, 0, 40, 30))
	var file bytes.Buffer
	if err := jpeg.Encode(&file, in, nil); err != nil {
		t.Fatal(err)
	}
	picture := func(x float64, data []byte) paper.Picture {
		return paper.Picture{Area: paper.Area{X: x, Y: 20, W: 60, H: 60}, JPEG: func() []byte { return data }, Else: "It cannot be read here."}
	}
	p := paper.NewPage(paper.Letter, "record")
	p.Picture(picture(10, file.Bytes()))
	p.Picture(picture(80, file.Bytes()))
	p.Picture(picture(140, []byte("no picture")))
	sheet := &paper.Sheet{Title: "record", Pages: []*paper.Page{p}}
	got := write(t, sheet)
	if again := write(t, sheet); !bytes.Equal(got, again) {
		t.Error("the same sheet gave other bytes")
	}
	listed := poppler(t, got, "pdfimages", "-list", "FILE")
	lines := strings.Split(strings.TrimSpace(listed), "\n")[2:]
	if len(lines) != 2 || strings.Fields(lines[0])[10] != strings.Fields(lines[1])[10] || !strings.Contains(lines[0], " 40    30 ") {
		t.Errorf("want one picture of 40 by 30, drawn twice:\n%s", listed)
	}
	if !strings.Contains(text(t, got), "It cannot be read here.") {
		t.Error("a picture that cannot be read is left out in silence")
	}
}
