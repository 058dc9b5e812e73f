package drawing_test

import (
	"encoding/xml"
	"fmt"
	"io"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"asfound/drawing"
	"asfound/evidence"
	"asfound/observation"
	"asfound/paper"
)

func eachText(marks []paper.Mark, do func(paper.Text)) {
	for _, m := range marks {
		switch m := m.(type) {
		case paper.Text:
			do(m)
		case *paper.Group:
			eachText(m.Marks, do)
		}
	}
}

func noOverlap(t interface {
	Helper()
	Errorf(string, ...any)
}, p *paper.Page) {
	t.Helper()
	var boxes []paper.Area
	var texts []string
	eachText(p.Marks, func(x paper.Text) {
		left := x.At.X - x.Width*[...]float64{0, 0.5, 1}[x.Style.Anchor]
		a := paper.Area{X: left, Y: x.At.Y - 0.7*x.Style.MM(), W: x.Width, H: 0.85 * x.Style.MM()}
		if a.X < 0 || a.Y < 0 || a.X+a.W > p.Width || a.Y+a.H > p.Height {
			t.Errorf("%q leaves the drawing", x.S)
		}
		for j, b := range boxes {
			if a.X < b.X+b.W && b.X < a.X+a.W && a.Y < b.Y+b.H && b.Y < a.Y+a.H {
				t.Errorf("%q lies over %q", x.S, texts[j])
			}
		}
		boxes, texts = append(boxes, a), append(texts, x.S)
	})
}

// faces draws both widths.
func (h *house) faces() []*paper.Page {
	in := h.fold.Installation()
	return []*paper.Page{drawing.PanelFace(in, &h.tr, h.panel, link), drawing.NarrowPanelFace(in, &h.tr, h.panel, link)}
}

// labels are the names read out in place of a drawing, which must be sound XML.
func labels(t *testing.T, p *paper.Page) string {
	t.Helper()
	var out strings.Builder
	d := xml.NewDecoder(strings.NewReader(string(paper.SVG(p, paper.SVGOptions{}))))
	for {
		token, err := d.Token()
		if err == io.EOF {
			return out.String()
		}
		if err != nil {
			t.Fatal(err)
		}
		if e, ok := token.(xml.StartElement); ok {
			if e.Name.Local == "script" || e.Name.Local == "hall" {
				t.Errorf("a name became the element %s", e.Name.Local)
			}
			for _, a := range e.Attr {
				if a.Name.Local == "aria-label" {
					out.WriteString(a.Value + "\n")
				}
			}
		}
	}
}

func TestFaceSaysWhatIsOnRecord(t *testing.T) {
	h := sampleHouse()
	for _, p := range h.faces() {
		noOverlap(t, p)
		got := labels(t, p)
		for _, want := range []string{
			"Panel A1, face as built",
			"Space 1: 20 A, 1-pole; branch conductor, black 12. Great room: receptacles A02-03 to A02-08, lighting A02-12 (false only if two mistakes were made). likely: Kitchen: receptacle A03-01 (one answer stands, but a single mistake could overturn it).",
			"Space 2: 20 A, 1-pole; branch conductor, red 12. undecided whether here: Kitchen: receptacle A03-02 (several answers stand).",
			"Space 3: 20 A, 1-pole, handle tied to space 5; branch conductor, black 14. Not settled: joined with 5. readings clash: Loft <hall> & stair: lighting A14-01",
			"Space 4: 50 A, 2-pole with space 6",
			"Space 6: 50 A, 2-pole with space 4",
			"Space 7: 15 A, 1-pole; nothing lands here. Spare.",
			"Space 8: open space, no breaker on record; nothing lands here. Open space.",
			"Space 9: 60 A, 2-pole with space 11; feeder conductor, black 3. Feeder; where it goes is not read.",
			"Space 10: breaker not looked at; branch conductor, cable 4. Boathouse, Boat bay: opening C01-02 (use not known)",
			"Space 12: ampere rating not read, 1-pole; branch conductor. undecided whether here: Kitchen: receptacle A03-02",
			"Space 16: not looked at; what lands here was not looked at. Not looked at.",
		} {
			if !strings.Contains(got, want) {
				t.Errorf("not read out: %q in\n%s", want, got)
			}
		}
		if strings.Contains(got, "A03-09") {
			t.Error("an untested opening stands at a space")
		}
	}
}

func TestFaceOfNoPanel(t *testing.T) {
	h := sampleHouse()
	if p := drawing.PanelFace(h.fold.Installation(), &h.tr, "k7m3qd8x2a-999", nil); p != nil {
		t.Error("a panel that was never recorded has a face")
	}
}

func TestFaceOf84Spaces(t *testing.T) {
	h := newHouse(84)
	for s := 1; s <= 84; s++ {
		h.space(branch(s, 1, "black 12", "DO NOT TURN OFF"))
		for i := range 3 {
			h.line("Great room", fmt.Sprintf("A02-%03d", 4*s+i), observation.Receptacle, evidence.Standing(1+(s+i)%4), s, s%84+1)
		}
	}
	for _, p := range h.faces() {
		noOverlap(t, p)
		got := labels(t, p)
		for s := 1; s <= 84; s++ {
			if !strings.Contains(got, fmt.Sprintf("Space %d: 20 A", s)) {
				t.Errorf("space %d is not drawn", s)
			}
		}
	}
}

// A run of spaces nobody looked at, or of open ones, is written once in its
// column; each of them still stands on the face as one thing to touch.
func TestFaceGathersRuns(t *testing.T) {
	h := newHouse(42)
	for _, s := range []int{1, 2, 21} {
		h.space(branch(s, 1, "black 12", ""))
	}
	for _, s := range []int{31, 33, 35} {
		h.space(observation.Space{Number: s, Lands: observation.LandsNothing})
	}
	h.line("Kitchen", "A03-01", observation.Receptacle, evidence.Settled, 12) // nobody looked, and something is read on it
	for i, p := range h.faces() {
		noOverlap(t, p)
		var texts []string
		eachText(p.Marks, func(x paper.Text) { texts = append(texts, x.S) })
		for _, want := range []string{"Not looked at, down to 19", "Not looked at, down to 29", "Open space, down to 35", "Not looked at, down to 41", "Not looked at, down to 10", "Not looked at, down to 42", "Kitchen: receptacle A03-01"} {
			if !slices.Contains(texts, want) {
				t.Errorf("face %d does not say %q: %q", i, want, texts)
			}
		}
		if n := strings.Count(strings.Join(texts, "\n"), "Not looked at"); n != 5 {
			t.Errorf("face %d says %d times that nobody looked, want once for each run", i, n)
		}
		got := labels(t, p)
		for s := 1; s <= 42; s++ {
			if !strings.Contains(got, fmt.Sprintf("Space %d: ", s)) {
				t.Errorf("face %d: space %d cannot be touched", i, s)
			}
		}
		if want := "Spaces 23 to 29 of this column. Not looked at."; !strings.Contains(got, want) {
			t.Errorf("face %d does not read out %q", i, want)
		}
	}
}

// Whatever is recorded of the spaces, nothing is drawn over anything else, and
// text is never smaller than 12 px on a phone 360 px wide (a size common in
// guides to legible text; common practice, no source).
func TestFaceStaysReadable(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := newHouse(2 * rapid.IntRange(1, 10).Draw(t, "rows"))
		spaces := h.fold.Installation().Panel(h.panel).Spaces
		for s := 1; s <= spaces; s++ {
			if rapid.Bool().Draw(t, "seen") {
				h.space(drawSpace(t, s))
			}
		}
		for i := range rapid.IntRange(0, 12).Draw(t, "openings") {
			s := rapid.IntRange(1, spaces).Draw(t, "space")
			h.line("Kitchen", fmt.Sprintf("A03-%02d", i*3), rapid.SampledFrom(observation.OpeningUses).Draw(t, "use"), evidence.Standing(rapid.IntRange(0, 4).Draw(t, "standing")), s)
		}
		pages := h.faces()
		for _, p := range pages {
			noOverlap(t, p)
		}
		eachText(pages[1].Marks, func(x paper.Text) {
			if px := x.Style.MM() * 360 / pages[1].Width; px < 12 {
				t.Fatalf("%q is %.1f px high on a phone", x.S, px)
			}
		})
	})
}

func drawSpace(t *rapid.T, n int) observation.Space {
	return observation.Space{Number: n, Poles: rapid.IntRange(0, 2).Draw(t, "poles"),
		Lands: rapid.SampledFrom([]observation.Lands{"", observation.LandsBranch, observation.LandsFeeder, observation.LandsNothing}).Draw(t, "lands"),
		Tied:  rapid.SampledFrom([]observation.Known{"", observation.Yes, observation.No}).Draw(t, "tied"),
		Label: rapid.SampledFrom([]string{"", "GFI", strings.Repeat("VERY LONG LABEL ", 8)}).Draw(t, "label")}
}
