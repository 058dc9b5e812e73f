package report

import (
	"fmt"
	"slices"
	"strings"

	"asfound/diary"
	"asfound/drawing"
	"asfound/installation"
	"asfound/observation"
	"asfound/paper"
	"asfound/site"
)

var takeOverCaution = []string{
	"This record says what was seen, by whom and when, and what was not looked at. It does not say that anything is dead, in order, or as the drawings show it. What is not named here was not looked at.",
}

// makeTakeOver makes the record of the job as it stood at the end of a day: what
// was found before the work began, for whoever asks later who did what.
func makeTakeOver(a *site.AsFound, k Kind) (*paper.Sheet, error) {
	was, err := asOf(a, k)
	if err != nil {
		return nil, err
	}
	f := frameOf(was, k, takeOverCaution...)
	f.Place, f.Date, f.People = allBuildings(was), "As of the end of "+dayWords(k.day), nil
	for _, p := range diary.Of(was.Installation, was.Entries(), k.day).People {
		f.People = append(f.People, p.Who)
	}
	s, err := paper.NewSheet(f)
	if err != nil {
		return nil, err
	}
	s.Paragraph(fmt.Sprintf("Made from %s, journal state %s. Each statement is what a person recorded; the journal keeps it with name and time, and keeps what was withdrawn.",
		counts(was.Events, "entry", "entries"), was.State))
	if k.beside.History == nil {
		s.Paragraph("How the job stood on that day cannot be told here: this is how it stands now.")
	}
	takeOverBuildings(s, was)
	for _, p := range was.Panels {
		takeOverPanel(s, was, p)
	}
	for _, r := range was.Rooms {
		takeOverRoom(s, was, r)
	}
	takeOverUnseen(s, was)
	takeOverPhotos(s, was, k)
	signatures(s)
	return s, nil
}

// asOf is the site at the end of the day a sheet is about.
func asOf(a *site.AsFound, k Kind) (*site.AsFound, error) {
	if k.beside.History == nil {
		return a, nil
	}
	_, evening, err := k.beside.History.Between(k.day, diary.Next(k.day))
	if err != nil {
		return nil, fmt.Errorf("read the job as of %s: %w", diary.Name(k.day), err)
	}
	return evening, nil
}

func takeOverBuildings(s *paper.Sheet, a *site.AsFound) {
	s.Heading("Buildings and rooms")
	t := &paper.Table{Size: 9.5, Columns: []paper.Column{{Head: "Building", Width: 34, Face: paper.Bold}, {Head: "Rooms, in walking order"}, {Head: "Panels", Width: 30}}}
	for _, b := range a.Buildings {
		var rooms, panels []string
		for _, r := range a.Rooms {
			if r.Building == b.Thing {
				rooms = append(rooms, r.Name)
			}
		}
		for _, p := range a.Panels {
			if p.Building == b.Thing {
				panels = append(panels, p.Name)
			}
		}
		t.Rows = append(t.Rows, paper.Row{Cells: []paper.Cell{{Text: b.Name}, {Text: orNone(rooms, "no room on record")}, {Text: orNone(panels, "none on record")}}})
	}
	if len(t.Rows) == 0 {
		s.Paragraph("No building was on record by then.")
		return
	}
	s.Table(t)
}

// headed writes a heading where a first row still fits beneath it.
func headed(s *paper.Sheet, heading string) {
	const row = 45.0 // heading, head of the table, and a row of some lines
	if s.Free().H < row {
		s.Break()
	}
	s.Heading(heading)
}

func orNone(names []string, none string) string {
	if len(names) == 0 {
		return none
	}
	return strings.Join(names, ", ")
}

// takeOverRoom lists the openings of a room with what was seen of each.
func takeOverRoom(s *paper.Sheet, a *site.AsFound, r *installation.Room) {
	headed(s, roomName(a, r.Thing))
	openings := a.In(r.Thing)
	if len(openings) == 0 {
		s.Paragraph("No opening of this room was on record by then.")
		return
	}
	t := &paper.Table{Size: 8.5, Columns: []paper.Column{{Head: "Opening", Width: 19, Face: paper.Bold}, {Head: "Use", Width: 29},
		{Head: "Height and depth", Width: 31}, {Head: "Cables and conductors, marks exactly as found"}, {Head: "Not seen", Width: 37}}}
	for _, o := range openings {
		t.Rows = append(t.Rows, paper.Row{Cells: []paper.Cell{{Text: o.Number}, {Text: seenUse(o)}, {Text: seenSize(o)}, {Text: seenCables(o)}, {Text: notSeen(o)}}})
	}
	s.Table(t)
}

func seenUse(o *installation.Opening) string {
	use := string(o.Use)
	if o.Use == observation.NoUse {
		use = "use not known"
	}
	gangs := "gangs not counted"
	if o.Gangs > 0 {
		gangs = counted(o.Gangs, "gang")
	}
	out := use + ", " + gangs
	if o.Note != "" {
		out += ". Note: " + o.Note
	}
	return out
}

func seenSize(o *installation.Opening) string {
	height, depth := "height not measured", "depth not measured"
	if o.Height > 0 {
		height = o.Height.String() + " above the floor"
	}
	if o.Depth > 0 {
		depth = "box front " + o.Depth.String() + " behind the finish"
	}
	return height + ", " + depth
}

// seenCables says each cable with its conductors; what was not looked at is said.
func seenCables(o *installation.Opening) string {
	if len(o.Cables) == 0 {
		return "cables not looked at"
	}
	var out []string
	for _, c := range o.Cables {
		out = append(out, seenCable(c))
	}
	return strings.Join(out, ". ")
}

func seenCable(c observation.CableEnd) string {
	say := "Cable " + c.Tag
	if c.Jacket != "" {
		say += ", jacket “" + c.Jacket + "”"
	}
	if c.Mark != "" {
		say += ", marked “" + c.Mark + "”"
	}
	if len(c.Conductors) == 0 {
		return say + ": conductors not looked at"
	}
	var wires []string
	looked := slices.ContainsFunc(c.Conductors, func(w observation.Conductor) bool { return w.State != observation.StateNotSeen })
	for _, w := range c.Conductors {
		wires = append(wires, seenConductor(w, looked))
	}
	if !looked {
		wires = append(wires, "how their ends lie was not looked at")
	}
	return say + ": " + strings.Join(wires, "; ")
}

// seenConductor says one conductor; where others of its cable were looked at, it
// says when this one was not.
func seenConductor(w observation.Conductor, looked bool) string {
	out := string(w.Wire)
	if w.Wire == observation.EGC {
		out = "ground"
	}
	for _, part := range []string{w.Color, string(w.Size), string(w.State)} {
		if part != "" {
			out += " " + part
		}
	}
	if looked && w.State == observation.StateNotSeen {
		out += " (end not looked at)"
	}
	if w.Length > 0 {
		return out + ", " + w.Length.String() + " free"
	}
	return out
}

// notSeen says what nobody could see or read at an opening; an opening of which
// everything was seen has a dash.
func notSeen(o *installation.Opening) string {
	var out []string
	if o.NotReached != nil {
		out = append(out, because("not reached", o.NotReached.Body.(observation.NotReached).Why))
	}
	for _, stop := range o.Stops {
		for _, e := range stop.Cannot {
			b := e.Body.(observation.CannotRead)
			what := b.What
			if what == "" {
				what = "a reading"
			}
			out = append(out, because(what+" could not be read", b.Why))
		}
	}
	if len(o.Cables) == 0 {
		out = append(out, "cables")
	}
	if free := slices.ContainsFunc(o.Cables, unmeasured); free {
		out = append(out, "free length")
	}
	if len(out) == 0 {
		return "–"
	}
	return strings.Join(out, "; ")
}

// unmeasured reports whether no conductor of a cable has its free length on
// record.
func unmeasured(c observation.CableEnd) bool {
	return !slices.ContainsFunc(c.Conductors, func(w observation.Conductor) bool { return w.Length > 0 })
}

func because(what, why string) string {
	if why == "" {
		return what
	}
	return what + " (" + why + ")"
}

// takeOverUnseen gathers what was not seen of the property, so that nobody reads
// the rest as the whole.
func takeOverUnseen(s *paper.Sheet, a *site.AsFound) {
	s.Heading("What was not seen")
	unseen := unseenWords(a)
	if len(unseen) == 0 {
		unseen = []string{"Every opening on record was reached, and every space of every panel looked at. What is not on record was not looked for."}
	}
	for _, say := range unseen {
		s.Paragraph("–  " + say)
	}
}

func unseenWords(a *site.AsFound) []string {
	var out []string
	var away, bare []string
	for _, o := range a.Openings {
		if o.NotReached != nil {
			away = append(away, o.Number)
		} else if len(o.Cables) == 0 {
			bare = append(bare, o.Number)
		}
	}
	add := func(say string, numbers []string) {
		if len(numbers) > 0 {
			out = append(out, counted(len(numbers), "opening")+" "+say+": "+strings.Join(drawing.Ranges(numbers), ", "))
		}
	}
	add("not reached", away)
	add("of which no cable was looked at", bare)
	for _, p := range a.Panels {
		if n := p.Spaces - len(p.Seen); n > 0 {
			out = append(out, fmt.Sprintf("Panel %s: %s not looked at", p.Name, counted(n, "space")))
		}
	}
	for _, r := range a.Rooms {
		if len(a.In(r.Thing)) == 0 {
			out = append(out, roomName(a, r.Thing)+": no opening on record")
		}
	}
	return out
}

// signatures is room for two people to sign, kept together.
func signatures(s *paper.Sheet) {
	const tall = 46.0
	p, a := s.Room(tall)
	head := paper.Style{Size: 13, Face: paper.Bold}
	p.Text(a.X, a.Y+9, "Seen and signed", head)
	half := (a.W - 10) / 2
	st := paper.Style{Size: 9, Ink: paper.Faint}
	for i, who := range []string{"For the electrical contractor", "For the owner or the builder"} {
		x := a.X + float64(i)*(half+10)
		p.Text(x, a.Y+16, who, paper.Style{Size: 10, Face: paper.Bold})
		p.FillIn(x, a.Y+28, half)
		p.Text(x, a.Y+32, "Name and signature", st)
		p.FillIn(x, a.Y+40, half)
		p.Text(x, a.Y+44, "Date", st)
	}
}

func takeOverRows(a *site.AsFound, k Kind) (list, error) {
	l := list{head: []string{"where", "what", "seen", "not seen"}}
	was, err := asOf(a, k)
	if err != nil {
		return l, err
	}
	for _, p := range was.Panels {
		for _, row := range panelSpaces(p) {
			key := installation.SpaceName(p, row.space)
			l.add(key, row.say(), "panel "+p.Name, key, row.say(), "")
		}
	}
	for _, o := range was.Openings {
		seen := strings.Join([]string{seenUse(o), seenSize(o), seenCables(o)}, ". ")
		l.add(o.Number, seen+". Not seen: "+notSeen(o), roomName(was, o.Room), o.Number, seen, notSeen(o))
	}
	for _, e := range photosOf(was) {
		b := e.Body.(observation.Photo)
		l.add("photograph "+b.Hash[:16], b.Caption, was.Name(e.Subject), "photograph "+b.Hash, b.Caption, "")
	}
	return l, nil
}
