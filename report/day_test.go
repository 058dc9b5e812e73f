package report_test

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"asfound/evidence"
	"asfound/observation"
	"asfound/paper"
	"asfound/report"
	"asfound/site"
)

// held stands in for the photographs of a device.
type held map[string][]byte

func (h held) Here(hash string) bool          { return h[hash] != nil }
func (h held) TooLarge(hash string) bool      { return string(h[hash]) == tooLarge }
func (h held) JPEG(hash string, _ int) []byte { return h[hash] }

// tooLarge stands in for a photograph that cannot be read for its size.
const tooLarge = "too large"

// before stands in for a job's history: it was like this in the morning.
type before struct{ morning, evening *site.AsFound }

func (b before) Between(_, _ time.Time) (morning, evening *site.AsFound, err error) {
	return b.morning, b.evening, nil
}

func makeWith(t testing.TB, b report.Beside, a *site.AsFound, name string) *paper.Sheet {
	t.Helper()
	s, err := b.Make(a, name)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// busyDay is a small job with locks, notes, something put off and photographs.
func busyDay() *job {
	j := smallJob()
	lock := j.add(j.at["A1"], observation.LockOut{Device: "lock 4"})
	j.add(j.at["C1"], observation.LockOut{Spaces: []int{2}, Device: "lock 9"})
	j.add(j.at["A1"], observation.Released{Locks: []observation.ID{lock}})
	j.add(j.at["A02-05"], observation.Note{Text: "Mud ring sits crooked"})
	j.add("", observation.Note{Text: "Builder comes on Tuesday"})
	j.add("", observation.Decision{About: "read " + string(j.at["A02-06"]), Answer: "not now", Reason: "No access today"})
	j.add(j.at["A03-05"], observation.Photo{Hash: strings.Repeat("a", 64), Type: "image/jpeg", Bytes: 3, Caption: "Range box"})
	return j
}

func TestDaySheet(t *testing.T) {
	j := busyDay()
	a := j.asFound()
	morning := newJob().asFound()
	s := makeWith(t, report.Beside{History: before{morning, a}}, a, "day-2025-02-18")
	noOverlap(t, s)
	text := textOf(s)
	for _, want := range []string{"Marit Sandvei, 09:", "Main house: Entry (2 openings), Great room (6 openings)", "Panels: C1, A1",
		"Lines settled in the morning: 0 of 0. In the evening: 10 of 15", "1 photograph taken", "15 openings put on record",
		"Stands in the evening: C1-2, “lock 9”", "Taken off at ", "1 lock at A1", "Read A02-06: No access today",
		"Mud ring sits crooked", "Builder comes on Tuesday", "The readings at A03-01 cannot all be right"} {
		if !strings.Contains(text, want) {
			t.Errorf("the day does not say %q:\n%s", want, text)
		}
	}
	if strings.Contains(text, "Stands in the evening: the supply of A1") {
		t.Error("a lock that was taken off stands")
	}
	alone := textOf(made(t, a, "day-2025-02-18"))
	for _, what := range []string{"How much was settled", "What was found", "Which locks stood"} {
		if !strings.Contains(alone, what) || strings.Contains(alone, "No lock") {
			t.Errorf("without a history the sheet does not say that it cannot tell %q", what)
		}
	}
}

// However much happens on a day, it is one page, and what is left out is counted.
func TestDayIsOnePage(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		j := busyDay()
		for i := range rapid.IntRange(0, 120).Draw(r, "notes") {
			j.add(j.at["A02-05"], observation.Note{Text: fmt.Sprint(i, strings.Repeat(" word", rapid.IntRange(1, 120).Draw(r, "words")))})
		}
		for i := range rapid.IntRange(0, 60).Draw(r, "locks") {
			j.add(j.at["C1"], observation.LockOut{Device: fmt.Sprint("lock ", 20+i)})
		}
		for i := range rapid.IntRange(0, 60).Draw(r, "put off") {
			j.add("", observation.Decision{About: fmt.Sprint("look ", i), Answer: "not now", Reason: strings.Repeat("because ", rapid.IntRange(1, 30).Draw(r, "why"))})
		}
		a := j.asFound()
		s := makeWith(t, report.Beside{History: before{newJob().asFound(), a}}, a, "day-2025-02-18")
		if len(s.Pages) != 1 {
			r.Fatalf("%d pages", len(s.Pages))
		}
		bottom := s.Free()
		if bottom.H < 0 || bottom.Y > s.Pages[0].Height {
			r.Fatalf("the page is over full: %v", bottom)
		}
		eachText(s.Pages[0].Marks, func(x paper.Text) {
			if x.Style.Size == 10 && x.Style.Face == paper.Regular && x.At.Y > s.Pages[0].Height-27 {
				r.Fatalf("%q stands in the foot", x.S)
			}
		})
	})
}

func TestLongDayIsCounted(t *testing.T) {
	j := busyDay()
	for i := range 200 {
		j.add(j.at["A02-05"], observation.Note{Text: fmt.Sprint("note ", i)})
	}
	a := j.asFound()
	text := textOf(makeWith(t, report.Beside{History: before{newJob().asFound(), a}}, a, "day-2025-02-18"))
	shown := strings.Count(text, ": note ")
	if want := fmt.Sprintf("and %d more in the journal", 202-shown-2); shown < 3 || !strings.Contains(text, want) {
		t.Errorf("%d notes are shown, and the sheet does not say %q:\n%s", shown, want, text)
	}
	rows, err := report.CSV(a, "day-2025-02-18")
	if err != nil || strings.Count(string(rows), ": note ") != 200 {
		t.Errorf("the rows for a spreadsheet are cut too: %v", err)
	}
}

// Days are listed for two weeks and found by name and by code beyond; days
// without entries are no sheets.
func TestDaysListed(t *testing.T) {
	j := smallJob()
	for range 40 {
		j.now = j.now.Add(24 * time.Hour)
		j.add(j.at["A02-05"], observation.Note{Text: "again"})
	}
	a := j.asFound()
	days := 0
	for _, k := range report.Sheets(a) {
		if k.Sort == report.DaySheet {
			days++
		}
	}
	if days != 14 {
		t.Errorf("%d days are listed, want 14", days)
	}
	for name, want := range map[string]bool{"day-2025-02-18": true, "day-2025-02-20": true, "day-2025-02-17": false, "takeover-2025-02-20": true, "takeover-2025-02-17": false,
		"takeover": true, "survey-main-house-great-room": true, "survey-main-house-attic": false} {
		if _, ok := report.Named(a, name); ok != want {
			t.Errorf("sheet %s: %v, want %v", name, ok, want)
		}
	}
	k, _, err := report.Find(a, report.Key("day-2025-02-20", a.State))
	if err != nil || k.Name != "day-2025-02-20" {
		t.Errorf("the code finds %q, %v", k.Name, err)
	}
}

// The take-over record says what was seen exactly as found, and what was not;
// unknown is never blank.
func TestTakeOverRecord(t *testing.T) {
	j := busyDay()
	j.add(j.at["A02-05"], observation.CableEnd{Tag: "1", Jacket: "14/2", Mark: "DEN? ", Conductors: []observation.Conductor{
		{Wire: observation.Hot, Color: "black", Size: "14", State: observation.Coiled, Length: 6}, {Wire: observation.Neutral}}})
	j.add(j.at["A02-06"], observation.NotReached{Why: "behind the range"})
	j.add(j.at["A02-07"], observation.CannotRead{What: "hot to ground", Why: "too short"})
	here, gone, large := strings.Repeat("a", 64), strings.Repeat("b", 64), strings.Repeat("c", 64)
	j.add(j.at["A02-08"], observation.Photo{Hash: gone, Type: "image/jpeg", Bytes: 9, Caption: strings.Repeat("A long caption ", 20)})
	j.add(j.at["A02-08"], observation.Photo{Hash: large, Type: "image/png", Bytes: 9, Caption: "The whole wall"})
	a := j.asFound()
	s := makeWith(t, report.Beside{Photos: held{here: aPicture(t), large: []byte(tooLarge)}, History: before{a, a}}, a, "takeover")
	noOverlap(t, s)
	text := strings.ReplaceAll(textOf(s), "\n", " ")
	for _, want := range []string{"Cable 1, jacket “14/2”, marked “DEN? ”: hot black 14 coiled, 6 in free; neutral (end not looked at)",
		"not reached (behind the range)", "hot to ground could not be read (too short)", "cables not looked at", "height not measured", "gangs not counted",
		"“GFI KIT”", "no label", "not looked at", "Seen and signed", "For the owner or the builder", "SHA-256 " + here[:16], "SHA-256 " + gone[:16], "SHA-256 " + large[:16],
		"Left out: this picture has too many pixels to be read for paper. It is kept in full",
		"A03-05, Kitchen: Range box", "1 opening not reached: A02-06", "It does not say that anything is dead"} {
		if !strings.Contains(text, want) {
			t.Errorf("the record does not say %q", want)
		}
	}
	if n := strings.Count(text, "Not on this device: it is on the phone or laptop of"); n != 1 {
		t.Errorf("%d photographs are said not to be here, want 1", n)
	}
	if t.Failed() {
		t.Log(text)
	}
	var drawn []paper.Picture
	for _, p := range s.Pages {
		drawn = append(drawn, picturesIn(p.Marks)...)
	}
	if len(drawn) != 1 || len(drawn[0].JPEG()) == 0 {
		t.Errorf("%d photographs are drawn, want 1", len(drawn))
	}
}

func picturesIn(marks []paper.Mark) []paper.Picture {
	var out []paper.Picture
	for _, m := range marks {
		switch m := m.(type) {
		case paper.Picture:
			out = append(out, m)
		case *paper.Group:
			out = append(out, picturesIn(m.Marks)...)
		}
	}
	return out
}

func aPicture(t testing.TB) []byte {
	t.Helper()
	in := image.NewRGBA(image.Rect(0, 0, 40, 30))
	in.Set(3, 3, color.White)
	var out bytes.Buffer
	if err := jpeg.Encode(&out, in, nil); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// Every opening of the job stands in the record, and none of its cells is blank.
func TestTakeOverHoldsEveryOpening(t *testing.T) {
	j := bigJob()
	a := j.asFound()
	text := textOf(makeWith(t, report.Beside{History: before{a, a}}, a, "takeover"))
	for _, o := range a.Openings {
		if !strings.Contains(text, "\n"+o.Number+"\n") {
			t.Errorf("%s is not in the record", o.Number)
		}
	}
	rows, err := report.CSV(a, "takeover")
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range rowsOf(t, rows)[1:] {
		if row[2] == "" {
			t.Errorf("row %q says nothing of what was seen", row)
		}
	}
}

// The survey sheet has a row for each opening in walking order and empty ones
// after; a room without any has more.
func TestSurveySheet(t *testing.T) {
	j := smallJob()
	j.room("Main house", "Attic")
	a := j.asFound()
	s := made(t, a, "survey-main-house")
	noOverlap(t, s)
	text := "\n" + textOf(s)
	last := 0
	for _, want := range []string{"\nMain house: Great room\n", "\n1\nA02-05\nreceptacle\n", "\n6\nA02-12\nlighting\n", "\n7\n", "\n11\n", "\nMain house: Kitchen\n", "\nMain house: Attic\n", "\n14\n"} {
		i := strings.Index(text[last:], want)
		if i < 0 {
			t.Fatalf("%q does not come in its turn:\n%s", want, text)
		}
		last += i
	}
	for _, k := range []string{"survey-main-house-attic", "survey-boathouse"} {
		noOverlap(t, made(t, a, k))
	}
}

// The state of the evening counts, whatever came after.
func TestTakeOverIsOfItsDay(t *testing.T) {
	j := smallJob()
	then := j.asFound()
	j.now = j.now.Add(24 * time.Hour)
	j.openings("Kitchen", observation.Receptacle, "A03-77")
	j.line("A03-77", "1", evidence.Settled, j.source("A1", 3))
	now := j.asFound()
	s := makeWith(t, report.Beside{History: before{then, then}}, now, "takeover")
	text := textOf(s)
	if strings.Contains(text, "A03-77") || !strings.Contains(text, "Take-over record, February 18, 2025") || !strings.Contains(text, "Journal state "+then.State) {
		t.Errorf("the record is not of its day:\n%s", text)
	}
	if changed, err := (report.Beside{History: before{then, then}}).Changed(then, now, "takeover"); err != nil || len(changed) > 0 {
		t.Errorf("the record of a day changes: %v, %v", changed, err)
	}
}
