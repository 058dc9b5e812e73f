package report

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"asfound/diary"
	"asfound/evidence"
	"asfound/observation"
	"asfound/paper"
	"asfound/site"
)

var dayCaution = []string{
	"A lock or a test on this page is what was recorded, and may have changed since. Ask before you switch anything on or take a lock off.",
}

// section is a heading with sentences under it.
type section struct {
	head  string
	lines []string
}

func makeDay(a *site.AsFound, k Kind) (*paper.Sheet, error) {
	sections, day, err := daySections(a, k)
	if err != nil {
		return nil, err
	}
	f := frameOf(a, k, dayCaution...)
	f.Place, f.People = allBuildings(a), nil
	for _, p := range day.People {
		f.People = append(f.People, p.Who)
	}
	s, err := paper.NewSheet(f)
	if err != nil {
		return nil, err
	}
	onePage(s, sections)
	return s, nil
}

// allBuildings names every building of the job.
func allBuildings(a *site.AsFound) string {
	var names []string
	for _, b := range a.Buildings {
		names = append(names, b.Name)
	}
	return strings.Join(names, ", ")
}

func dayRows(a *site.AsFound, k Kind) (list, error) {
	l := list{head: []string{"what", "said"}}
	sections, _, err := daySections(a, k)
	for _, s := range sections {
		for _, line := range s.lines {
			l.add(s.head, line, s.head, line)
		}
	}
	return l, err
}

// daySections says a day in the order in which a builder asks.
func daySections(a *site.AsFound, k Kind) ([]section, diary.Day, error) {
	day := diary.Of(a.Installation, a.Entries(), k.day)
	var turn *diary.Turn
	if k.beside.History != nil {
		morning, evening, err := k.beside.History.Between(day.Begin, day.End)
		if err != nil {
			return nil, day, fmt.Errorf("read the job as of %s: %w", diary.Name(day.Begin), err)
		}
		t := diary.TurnOf(morning, evening)
		turn = &t
	}
	return []section{
		{"Who was there", presences(day)},
		{"Where", whereWords(a, day)},
		{"How far the work came", progress(day, turn)},
		{"What was found", foundWords(turn)},
		{"Locks", lockWords(a, day, turn)},
		{"Put off, and why", putOffs(a, day)},
		{"Notes", noteWords(a, day)},
	}, day, nil
}

func clock(t time.Time, at *time.Location) string { return t.In(at).Format("15:04") }

func presences(d diary.Day) []string {
	out := []string{}
	for _, p := range d.People {
		out = append(out, fmt.Sprintf("%s, %s to %s: %s", p.Who, clock(p.First, d.Begin.Location()), clock(p.Last, d.Begin.Location()), counts(p.Entries, "entry", "entries")))
	}
	return out
}

// counts is a number with its noun, whose plural is not regular.
func counts(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}

func whereWords(a *site.AsFound, d diary.Day) []string {
	var out []string
	var in []string
	for i, v := range d.Rooms {
		room := a.Room(v.Room)
		say := room.Name
		if v.Openings > 0 {
			say += " (" + counted(v.Openings, "opening") + ")"
		}
		in = append(in, say)
		if i == len(d.Rooms)-1 || a.Room(d.Rooms[i+1].Room).Building != room.Building {
			out = append(out, a.Name(room.Building)+": "+strings.Join(in, ", "))
			in = nil
		}
	}
	var panels []string
	for _, p := range d.Panels {
		panels = append(panels, a.Name(p))
	}
	if len(panels) > 0 {
		out = append(out, "Panels: "+strings.Join(panels, ", "))
	}
	if len(out) == 0 {
		out = []string{"No room and no panel is named in the entries of this day."}
	}
	return out
}

func progress(d diary.Day, turn *diary.Turn) []string {
	out := []string{counted(len(d.Read), "opening") + " read, " + counted(d.Photos, "photograph") + " taken"}
	if d.Put > 0 {
		out = append(out, counted(d.Put, "opening")+" put on record")
	}
	if turn == nil {
		return append(out, "How much was settled in the morning and in the evening cannot be told here.")
	}
	out = append(out, fmt.Sprintf("Lines settled in the morning: %d of %d. In the evening: %d of %d",
		turn.Morning[evidence.Settled], diary.Lines(turn.Morning), turn.Evening[evidence.Settled], diary.Lines(turn.Evening)))
	if n := turn.Evening[evidence.Clash]; n > 0 {
		out = append(out, counted(n, "line")+" on which readings clash, in the evening")
	}
	if d.Withdrawn > 0 {
		out = append(out, counts(d.Withdrawn, "entry", "entries")+" of this day counts no more: withdrawn or replaced since")
	}
	return out
}

func foundWords(turn *diary.Turn) []string {
	if turn == nil {
		return []string{"What was found on this day cannot be told here."}
	}
	out := append([]string{}, turn.Found...)
	for _, say := range turn.Gone {
		out = append(out, "No longer so: "+say)
	}
	if len(out) == 0 {
		out = []string{"Nothing odd, and no clash, that was not known in the morning."}
	}
	return out
}

func lockWords(a *site.AsFound, d diary.Day, turn *diary.Turn) []string {
	at := d.Begin.Location()
	var out []string
	if turn != nil {
		for _, l := range turn.Locks {
			b := l.Body.(observation.LockOut)
			out = append(out, fmt.Sprintf("Stands in the evening: %s, on by %s since %s", lockName(a, l.At, b), l.Who, l.When().In(at).Format("Jan 2, 15:04")))
		}
	}
	for _, e := range d.LocksOn {
		out = append(out, fmt.Sprintf("Put on at %s: %s, by %s", clock(e.When(), at), lockName(a, e.Subject, e.Body.(observation.LockOut)), e.Who))
	}
	for _, e := range d.LocksOff {
		b := e.Body.(observation.Released)
		out = append(out, fmt.Sprintf("Taken off at %s: %s at %s, by %s", clock(e.When(), at), counted(len(b.Locks), "lock"), a.Name(e.Subject), e.Who))
	}
	if turn == nil {
		return append(out, "Which locks stood in the evening cannot be told here.")
	}
	if len(out) == 0 {
		out = []string{"No lock is on record as put on, taken off or standing on this day."}
	}
	return out
}

func lockName(a *site.AsFound, at observation.Thing, b observation.LockOut) string {
	what := "the supply of " + a.Name(at)
	if len(b.Spaces) > 0 {
		var spaces []string
		for _, s := range b.Spaces {
			spaces = append(spaces, a.Name(at)+"-"+strconv.Itoa(s))
		}
		what = strings.Join(spaces, ", ")
	}
	return fmt.Sprintf("%s, “%s”", what, b.Device)
}

func putOffs(a *site.AsFound, d diary.Day) []string {
	var out []string
	for _, e := range d.PutOff {
		b := e.Body.(observation.Decision)
		out = append(out, diary.StepWords(a.Installation, b.About)+": "+b.Reason)
	}
	if len(out) == 0 {
		out = []string{"Nothing was put off."}
	}
	return out
}

func noteWords(a *site.AsFound, d diary.Day) []string {
	var out []string
	for _, e := range d.Notes {
		say := fmt.Sprintf("%s, %s: %s", clock(e.When(), d.Begin.Location()), e.Who, e.Body.(observation.Note).Text)
		if e.Subject != "" {
			say = a.Name(e.Subject) + ", " + say
		}
		out = append(out, say)
	}
	if len(out) == 0 {
		out = []string{"No note was written."}
	}
	return out
}

var (
	sectionHead = paper.Style{Size: 12, Face: paper.Bold}
	sectionText = paper.Style{Size: 10}
)

const (
	sectionGap = 3.2 // over a heading, in millimeters
	itemIndent = 4.0
)

// onePage writes sections on what is left of the page. What does not fit is
// cut from the longest section, which says how much more there is.
func onePage(s *paper.Sheet, sections []section) {
	shown := fitting(sections, s.Free().H, s.Free().W-itemIndent)
	for i, sec := range sections {
		p, a := s.Room(sectionGap + sectionHead.Leading())
		p.Text(a.X, a.Y+sectionGap+0.8*sectionHead.MM(), sec.head, sectionHead)
		for _, line := range cutTo(sec.lines, shown[i]) {
			item(s, line)
		}
	}
}

// fitting is how many sentences of each section stand on a page with so much
// room.
func fitting(sections []section, room, width float64) []int {
	shown, tall := make([]int, len(sections)), 0.0
	heights := make([][]float64, len(sections))
	for i, sec := range sections {
		tall += sectionGap + sectionHead.Leading()
		for _, line := range sec.lines {
			height := float64(len(wrapped(line, width))) * sectionText.Leading()
			heights[i] = append(heights[i], height)
			tall += height
		}
		shown[i] = len(sec.lines)
	}
	for tall > room {
		most := longest(shown)
		if shown[most] == 0 {
			break
		}
		if shown[most] == len(sections[most].lines) {
			tall += sectionText.Leading() // for how much more there is
		}
		shown[most]--
		tall -= heights[most][shown[most]]
	}
	return shown
}

// item writes one sentence with a dash before it.
func item(s *paper.Sheet, text string) {
	for i, line := range wrapped(text, s.Free().W-itemIndent) {
		p, a := s.Room(sectionText.Leading())
		y := a.Y + 0.8*sectionText.MM()
		if i == 0 {
			p.Text(a.X, y, "–", sectionText)
		}
		p.Text(a.X+itemIndent, y, line, sectionText)
	}
}

// mostWrapped is how many lines one sentence may take on a page that has room for
// all of a day.
const mostWrapped = 6

// wrapped breaks a sentence; one that is very long is cut, with an ellipsis.
func wrapped(text string, width float64) []string {
	lines := sectionText.Wrap(text, width)
	if len(lines) <= mostWrapped {
		return lines
	}
	rest := strings.Join(lines[mostWrapped-1:], " ")
	return append(slices.Clone(lines[:mostWrapped-1]), sectionText.Fit(rest, width))
}

// cutTo keeps so many lines and says how many more there are.
func cutTo(lines []string, shown int) []string {
	if shown >= len(lines) {
		return lines
	}
	return append(slices.Clone(lines[:shown]), fmt.Sprintf("and %d more in the journal", len(lines)-shown))
}

func longest(shown []int) int {
	most := 0
	for i, n := range shown {
		if n > shown[most] {
			most = i
		}
	}
	return most
}
