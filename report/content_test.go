package report_test

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"asfound/evidence"
	"asfound/observation"
	"asfound/pattern"
	"asfound/report"
	"asfound/site"
	"asfound/trace"
)

func rowsOf(t interface{ Fatal(...any) }, data []byte) [][]string {
	rows, err := csv.NewReader(bytes.NewReader(data)).ReadAll() // RFC 4180
	if err != nil {
		t.Fatal(err)
	}
	return rows
}

func cellsOf(t *testing.T, data []byte) []string { return slices.Concat(rowsOf(t, data)...) }

// drawJob gives every opening of the small job a line of any standing, on any
// of the spaces of both panels, or on none.
func drawJob(t *rapid.T) *job {
	j := smallJob()
	for _, l := range j.tr.Lines {
		l.Verdict.Standing = evidence.Standing(rapid.IntRange(0, 4).Draw(t, "standing"))
		l.Source, l.Others = drawSource(t, j), nil
		if l.Verdict.Standing == evidence.Undecided || l.Verdict.Standing == evidence.Clash {
			for range rapid.IntRange(0, 2).Draw(t, "others") {
				l.Others = append(l.Others, drawSource(t, j))
			}
		}
	}
	return j
}

func drawSource(t *rapid.T, j *job) trace.Source {
	s := trace.Source{Kind: rapid.SampledFrom([]trace.SourceKind{trace.FromSpace, trace.FromSpace, trace.FromSpace, trace.Nothing, trace.Outside, trace.Another}).Draw(t, "kind")}
	if s.Kind == trace.FromSpace {
		panel := rapid.SampledFrom([]string{"A1", "C1"}).Draw(t, "panel")
		s.At = trace.SpacePoint(j.at[panel], rapid.IntRange(1, 8).Draw(t, "space"))
	}
	return s
}

// No line that is not settled reaches a directory without its mark, and one
// without a single answer is never told as one. The words are also those that
// stand on the page.
func TestDirectoryNeverGuesses(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := drawJob(t)
		a := j.asFound()
		for _, name := range []string{"directory-a1", "directory-c1"} {
			got, err := report.CSV(a, name)
			if err != nil {
				t.Fatal(err)
			}
			s, err := report.Make(a, name)
			if err != nil {
				t.Fatal(err)
			}
			page := strings.Join(strings.Fields(textOf(s)), " ")
			for _, row := range rowsOf(t, got)[1:] {
				checkRow(t, a, row)
				if !strings.Contains(page, row[2]) {
					t.Fatalf("%q is in the file and not on the sheet", row[2])
				}
			}
		}
	})
}

// checkRow checks one row of a directory against the lines themselves.
func checkRow(t *rapid.T, a *site.AsFound, row []string) {
	note := strings.HasPrefix(row[0], "note")
	for _, l := range a.Trace.Lines {
		end := a.Name(l.End.At)
		if end == "A02-08" { // the one opening with two lines
			end += " cable " + l.End.Cable
		}
		if !slices.Contains(words(row[2]), end) && !strings.Contains(row[2], end+" ") {
			continue
		}
		st := l.Verdict.Standing
		switch {
		case st == evidence.Settled && row[3] == "settled":
		case st == evidence.Likely && strings.HasPrefix(row[2], "Not settled, likely: "):
		case st == evidence.Settled || st == evidence.Likely:
			t.Fatalf("%s is %s, and the row says %q", end, st, row[2])
		case !note:
			t.Fatalf("%s is %s, and a space names it: %q", end, st, row[2])
		case !strings.HasPrefix(row[2], "Not settled, "+st.String()+": "):
			t.Fatalf("%s is %s, and the note says %q", end, st, row[2])
		case st == evidence.Undecided && len(l.Others) > 0 && strings.Count(row[2], "; or ") != len(answers(a, l))-1:
			t.Fatalf("%s has the answers %v, and the note says %q", end, answers(a, l), row[2])
		case (st != evidence.Undecided || len(l.Others) == 0) && (strings.Contains(row[2], "A1-") || strings.Contains(row[2], "C1-")):
			t.Fatalf("%s is %s, and the note gives an answer: %q", end, st, row[2])
		}
	}
}

// answers are the different places that stand for a line.
func answers(a *site.AsFound, l *trace.Line) map[string]bool {
	out := map[string]bool{}
	for _, s := range append([]trace.Source{l.Source}, l.Others...) {
		out[fmt.Sprint(s.Kind, a.PointName(s.At))] = true
	}
	return out
}

// words splits at what stands between the names of openings.
func words(s string) []string {
	return strings.FieldsFunc(s, func(r rune) bool { return r == ',' || r == ' ' || r == ':' || r == ';' || r == '(' || r == ')' })
}

// NEC 2020 408.4(A), from memory: every circuit described by its clear,
// specific purpose, spare positions described as spare, and no description that
// depends on transient conditions of occupancy.
func TestDirectoryFollows408(t *testing.T) {
	j := smallJob()
	j.room("Main house", "Owner's bedroom")
	j.openings("Owner's bedroom", observation.Receptacle, "A04-01")
	j.line("A04-01", "1", evidence.Settled, j.source("A1", 11))
	text := textOf(made(t, j.asFound(), "directory-a1"))
	for _, want := range []string{"Kitchen: equipment A03-05 (range)", "Spare", "Room named after a person: Owner's bedroom"} {
		if !strings.Contains(text, want) {
			t.Errorf("the directory does not say %q", want)
		}
	}
	if strings.Contains(text, "GFI KIT") || strings.Contains(text, "LIVING N") {
		t.Error("a label found at the panel is given as what a space feeds")
	}
}

func TestCheckLettersStandOnTapeListAlone(t *testing.T) {
	a := sample(t)
	tour, tapes := textOf(made(t, a, "tour-tour-1")), textOf(made(t, a, "tapes-main-house"))
	for _, o := range a.Openings {
		letters := pattern.Letters(o.Number)
		apart := letters[:1] + " " + letters[1:]
		for _, line := range strings.Split(tour, "\n") {
			if line == letters || line == apart {
				t.Errorf("the tour sheet tells the letters of %s", o.Number)
			}
		}
		if a.BuildingOf(o.Thing).Name == "Main house" && !strings.Contains(tapes, o.Number+"\n"+apart+"\n") {
			t.Errorf("the tape list lacks the letters of %s", o.Number)
		}
	}
}

func TestReadBackTellsNoValue(t *testing.T) {
	a := sample(t)
	list, err := report.CSV(a, "resistors-tour-1")
	if err != nil {
		t.Fatal(err)
	}
	blind := textOf(made(t, a, "readback-tour-1"))
	if strings.Contains(blind, "Ω") {
		t.Error("the read-back sheet tells a value")
	}
	placed := rowsOf(t, list)[1:]
	values := map[string]bool{}
	for _, row := range placed {
		values[row[2]] = true
		if n := strings.Count(blind, row[0]+", space "+row[1]+"\n"); n != 2 {
			t.Errorf("%s space %s is read back %d times, want before and after", row[0], row[1], n)
		}
	}
	if len(values) != len(placed) || placed[0][2] != "470" {
		t.Errorf("values %v: want all different, and the one recorded kept", placed)
	}
	if want := fmt.Sprintf("Resistors back, of %d", len(placed)); !strings.Contains(blind, want) {
		t.Errorf("the read-back sheet does not say %q", want)
	}
}

func TestChanged(t *testing.T) {
	before, after := smallJob(), smallJob()
	after.tr.Lines[8].Verdict.Standing = evidence.Settled   // A02-12 was likely
	after.tr.Lines[11].Verdict.Standing = evidence.Untested // A03-05 was settled
	got, err := report.Changed(before.asFound(), after.asFound(), "directory-a1")
	if err != nil {
		t.Fatal(err)
	}
	want := []string{
		"space 2: was “Entry: switch A01-02, lighting A01-01; Not settled, likely: Great room: lighting A02-12”, is now “Entry: switch A01-02, lighting A01-01; Great room: lighting A02-12”",
		"space 5: was “Kitchen: equipment A03-05 (range)”, is now “Not known what it feeds”",
		"A03-05: is new, “Not settled, untested: nothing was read that says what A03-05 is on”",
	}
	if !slices.Equal(got, want) {
		t.Errorf("changed:\n%s\nwant:\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
	if same, err := report.Changed(before.asFound(), before.asFound(), "directory-a1"); err != nil || len(same) > 0 {
		t.Errorf("the same state has changed: %v, %v", same, err)
	}
}

func TestUnknownSheetIsRefused(t *testing.T) {
	_, err := report.Make(sample(t), "directory-z9")
	var refused observation.Unusable
	if !errors.As(err, &refused) || refused.Field != "sheet" || !strings.Contains(refused.Say, "directory-a1") {
		t.Errorf("got %v, want a refusal that lists the sheets", err)
	}
}

func TestIsolationWithoutBranches(t *testing.T) {
	j := newJob()
	j.building("Main house")
	j.panel("Main house", "", "A1", 12)
	_, err := report.Make(j.asFound(), "isolation-a1")
	var refused observation.Unusable
	if !errors.As(err, &refused) || !strings.Contains(refused.Say, "Record what lands on each space first") {
		t.Errorf("got %v, want to be told what to record", err)
	}
}

func TestUnsettledJoinBearsItsMark(t *testing.T) {
	j := smallJob()
	j.tr.Joins[0].Verdict.Standing, j.tr.Joins[0].Cross = evidence.Likely, observation.Yes
	text := textOf(made(t, j.asFound(), "directory-a1"))
	if strings.Contains(text, "\nJoined with") || !strings.Contains(text, "Not settled: joined with 6;") || !strings.Contains(strings.ReplaceAll(text, "\n", " "), "do not energize") {
		t.Errorf("a join that is only likely is told without its mark:\n%s", text)
	}
}

// Openings in a row at which nothing was read are written as a range; one that
// was not reached, or is missing between, ends it.
func TestUnreadOpeningsAreWrittenAsRanges(t *testing.T) {
	j := smallJob()
	j.room("Main house", "Loft")
	j.openings("Loft", observation.Receptacle, "A05-01", "A05-02", "A05-03", "A05-04", "A05-06", "A05-07", "A05-08")
	j.add(j.at["A05-04"], observation.NotReached{Why: "locked"})
	text := strings.ReplaceAll(textOf(made(t, j.asFound(), "directory-a1")), "\n", " ")
	if want := "Untested: nothing was read in Loft at A05-01 to A05-03, A05-04 (not reached), A05-06 to A05-08"; !strings.Contains(text, want) {
		t.Errorf("the directory does not say %q:\n%s", want, text)
	}
}

// Answers told by the same words are told once.
func TestAnswersOfTheSameWordsAreToldOnce(t *testing.T) {
	j := smallJob()
	another := trace.Source{Kind: trace.Another}
	l := j.tr.Lines[7] // A02-10, undecided
	l.Source, l.Others = another, []trace.Source{{Kind: trace.Outside}, another}
	text := strings.ReplaceAll(textOf(made(t, j.asFound(), "directory-a1")), "\n", " ")
	if n := strings.Count(text, "is on a circuit that no reading named"); n != 1 {
		t.Errorf("the same answer is told %d times", n)
	}
}
