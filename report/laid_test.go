package report_test

import (
	"fmt"
	"strings"
	"testing"

	"asfound/evidence"
	"asfound/observation"
	"asfound/paper"
	"asfound/report"
)

// noOverlap checks that every text lies on its page and none lies over another.
func noOverlap(t *testing.T, s *paper.Sheet) {
	t.Helper()
	for n, p := range s.Pages {
		var boxes []paper.Area
		var texts []string
		eachText(p.Marks, func(x paper.Text) {
			left := x.At.X - x.Width*[...]float64{0, 0.5, 1}[x.Style.Anchor]
			boxes = append(boxes, paper.Area{X: left, Y: x.At.Y - 0.7*x.Style.MM(), W: x.Width, H: 0.85 * x.Style.MM()})
			texts = append(texts, x.S)
		})
		for i, a := range boxes {
			if a.X < 0 || a.Y < 0 || a.X+a.W > p.Width+0.01 || a.Y+a.H > p.Height+0.01 {
				t.Errorf("page %d: %q leaves the page", n+1, texts[i])
			}
			for j, b := range boxes[:i] {
				if a.X < b.X+b.W && b.X < a.X+a.W && a.Y < b.Y+b.H && b.Y < a.Y+a.H {
					t.Errorf("page %d: %q lies over %q", n+1, texts[i], texts[j])
				}
			}
		}
	}
}

func TestNothingOverlaps(t *testing.T) {
	a := sample(t)
	for _, k := range report.Sheets(a) {
		t.Run(k.Name, func(t *testing.T) { noOverlap(t, made(t, a, k.Name)) })
	}
}

// bigJob is a panel of 84 spaces, the most there are, with a busy line on each.
func bigJob() *job {
	j := newJob()
	j.building("Main house")
	j.room("Main house", "Mechanical room")
	for r := range 12 {
		j.room("Main house", fmt.Sprintf("Bedroom %d with a long name", r+1))
	}
	j.panel("Main house", "Mechanical room", "A1", 84)
	for s := 1; s <= 84; s++ {
		j.space("A1", observation.Space{Number: s, Poles: 1, Amps: 20, Lands: observation.LandsBranch, Wire: "black 12", Label: "DO NOT TURN OFF"})
		room := fmt.Sprintf("Bedroom %d with a long name", s%12+1)
		for i := range 3 {
			number := fmt.Sprintf("A%02d-%02d", s%12+1, s/12*6+2*i)
			j.openings(room, observation.Receptacle, number)
			j.line(number, "1", evidence.Standing(1+(s+i)%4), j.source("A1", s), j.source("A1", s%84+1))
		}
	}
	return j.withBigTour()
}

func (j *job) withBigTour() *job {
	j.add("", observation.Tour{Name: "Tour 1", Means: observation.ByResistor, Panels: []observation.Thing{j.at["A1"]}, Tolerance: 0.01, MeterRelative: 0.009, MeterOhm: 0.3})
	return j
}

func TestPanelOf84Spaces(t *testing.T) {
	a := bigJob().asFound()
	for _, k := range report.Sheets(a) {
		t.Run(k.Name, func(t *testing.T) {
			s := made(t, a, k.Name)
			noOverlap(t, s)
			if k.Sort != report.Directory {
				return
			}
			text := "\n" + textOf(s)
			for space := 1; space <= 84; space++ {
				if !strings.Contains(text, fmt.Sprintf("\n%d\n", space)) {
					t.Errorf("space %d is not on the directory", space)
				}
			}
		})
	}
}

func TestRoomOf42Openings(t *testing.T) {
	j := newJob()
	j.building("Main house")
	j.room("Main house", "Great room")
	j.panel("Main house", "Great room", "A1", 12)
	j.space("A1", observation.Space{Number: 1, Poles: 1, Amps: 20, Lands: observation.LandsBranch})
	for i := range 42 {
		j.openings("Great room", observation.Receptacle, fmt.Sprintf("A02-%02d", i+1))
	}
	s := made(t, j.withBigTour().asFound(), "tour-tour-1")
	noOverlap(t, s)
	text := textOf(s)
	last := 0
	for i := range 42 {
		at := strings.Index(text, fmt.Sprintf("\n%d\nA02-%02d\n", i+1, i+1))
		if at < last {
			t.Fatalf("row %d is missing or out of order", i+1)
		}
		last = at
	}
	if look := strings.Index(text, "Look around"); look < last {
		t.Error("the look around does not follow the last opening of its room")
	}
	for n, p := range s.Pages[1:] {
		var page strings.Builder
		eachText(p.Marks, func(x paper.Text) { page.WriteString(x.S + "\n") })
		if !strings.Contains(page.String(), "Hot to ground") {
			t.Errorf("page %d has no head over its columns", n+2)
		}
	}
}

func TestOddNames(t *testing.T) {
	j := newJob()
	j.building(`=cmd|' /C'!A0`)
	j.room(`=cmd|' /C'!A0`, `<script>alert("x")</script> & Søn's`+"\n\tден")
	j.panel(`=cmd|' /C'!A0`, "", `+A/1 ../"`, 4)
	j.openings(`<script>alert("x")</script> & Søn's`+"\n\tден", observation.Receptacle, "@SUM(1)", "-2-01", strings.Repeat("W", 120))
	j.space(`+A/1 ../"`, observation.Space{Number: 1, Poles: 1, Amps: 20, Lands: observation.LandsBranch, Label: "<b>"})
	j.at["A1"] = j.at[`+A/1 ../"`]
	j.line("@SUM(1)", "1", evidence.Settled, j.source("A1", 1))
	j.line("-2-01", "1", evidence.Likely, j.source("A1", 1))
	a := j.withBigTour().asFound()
	for _, k := range report.Sheets(a) {
		t.Run(k.Name, func(t *testing.T) {
			if strings.Trim(k.Name, "abcdefghijklmnopqrstuvwxyz0123456789-") != "" {
				t.Errorf("name %q cannot be typed", k.Name)
			}
			s := made(t, a, k.Name)
			noOverlap(t, s)
			for _, p := range s.Pages {
				if svg := string(paper.SVG(p, paper.SVGOptions{})); strings.Contains(svg, "<script") || strings.Contains(svg, "<b>") {
					t.Error("a name left its text")
				}
			}
			got, err := report.CSV(a, k.Name)
			if err != nil {
				t.Fatal(err)
			}
			for _, cell := range cellsOf(t, got) {
				if strings.ContainsAny(cell[:min(1, len(cell))], "=+-@\t\r") {
					t.Errorf("cell %q is a formula", cell)
				}
			}
		})
	}
}

// A large panel at which only a few spaces were looked at goes on one page: runs
// nobody looked at take one line each, the hatch is explained, and the file for a
// spreadsheet still has a row for each space.
func TestRunsNotLookedAtTakeOneLine(t *testing.T) {
	j := newJob()
	j.building("Main house")
	j.room("Main house", "Great room")
	j.panel("Main house", "Great room", "A1", 84)
	for _, n := range []int{1, 2, 3, 41} {
		j.space("A1", observation.Space{Number: n, Poles: 1, Amps: 20, Lands: observation.LandsBranch})
	}
	for n := 51; n <= 56; n++ {
		j.space("A1", observation.Space{Number: n, Lands: observation.LandsNothing})
	}
	j.openings("Great room", observation.Receptacle, "A02-01", "A02-02")
	j.line("A02-01", "1", evidence.Settled, j.source("A1", 1))
	j.line("A02-02", "1", evidence.Settled, j.source("A1", 12)) // nobody looked, and something is read on it
	a := j.asFound()
	s := made(t, a, "directory-a1")
	noOverlap(t, s)
	if len(s.Pages) != 1 {
		t.Errorf("the directory takes %d pages", len(s.Pages))
	}
	text := "\n" + textOf(s)
	for _, want := range []string{"Not looked at: 5 to 10", "Not looked at: 13 to 40", "Not looked at: 43 to 50", "Open spaces: 51 to 56", "Not looked at: 57 to 84", ": not looked at"} {
		if !strings.Contains(text, "\n"+want+"\n") {
			t.Errorf("the directory does not say %q:\n%s", want, text)
		}
	}
	for _, alone := range []string{"3", "4", "11", "12", "41", "42"} { // beside something, or with something on it
		if !strings.Contains(text, "\n"+alone+"\n") {
			t.Errorf("space %s does not stand by itself", alone)
		}
	}
	got, err := report.CSV(a, "directory-a1")
	if err != nil {
		t.Fatal(err)
	}
	if rows := rowsOf(t, got)[1:]; len(rows) != 84 {
		t.Errorf("the file has %d rows, want one for each of 84 spaces", len(rows))
	}
}

// A sheet without a hatch explains none.
func TestHatchIsExplainedWhereItIs(t *testing.T) {
	j := newJob()
	j.building("Main house")
	j.panel("Main house", "", "A1", 4)
	for n := 1; n <= 4; n++ {
		j.space("A1", observation.Space{Number: n, Poles: 1, Amps: 20, Lands: observation.LandsNothing})
	}
	if text := textOf(made(t, j.asFound(), "directory-a1")); strings.Contains(text, "not looked at") {
		t.Errorf("every space was looked at, and the sheet explains a hatch:\n%s", text)
	}
	if text := textOf(made(t, sample(t), "directory-a1")); !strings.Contains(text, "\n: not looked at\n") {
		t.Errorf("space 12 is hatched, and nothing says what that means:\n%s", text)
	}
}
