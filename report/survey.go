package report

import (
	"cmp"
	"strconv"
	"strings"

	"asfound/installation"
	"asfound/observation"
	"asfound/paper"
	"asfound/site"
)

var surveyCaution = []string{
	"Every conductor is live until it was tested here. Test for absence of voltage at every opening, tester tried on a known source before and after, before a finger or a tape goes in.",
	"Move nothing: write the marks as they stand, and where each cable lies.",
}

var surveyFields = []field{
	{head: "No.", width: 9}, {head: "Number on the tape", width: 27, face: paper.Bold}, {head: "Use", width: 21}, {head: "Gangs", width: 12},
	{head: "Height, in.", width: 15}, {head: "Depth, in.", width: 14}, {head: "Cables", width: 31}, {head: "Free length, in.", width: 15}, {head: "Problems seen, marks found", width: 41.9}}

// emptyRows are for openings that are not on record: more where a room has none.
const (
	emptyRows = 5
	bareRows  = 14
)

func makeSurvey(a *site.AsFound, k Kind) (*paper.Sheet, error) {
	f := frameOf(a, k, surveyCaution...)
	if r := a.Room(k.Of); r != nil {
		f.Place = a.Name(r.Building)
	}
	s, err := paper.NewSheet(f)
	if err != nil {
		return nil, err
	}
	checks(s, "Walked by", "Begun at", "Power found on or off", "Ended at")
	for _, line := range []string{
		"Walk the room to the right from the door. One row for each opening, in that order.",
		"Use: receptacle, switch, lighting, equipment, junction. Height: floor to the middle of the box. Depth: front of the box behind the finished wall.",
		"Cables: one for each as it enters, by what its jacket says, 14/2, 12/3, or a plain number. Write “not reached” where nobody gets to it.",
	} {
		s.Paragraph(line)
	}
	g := &grid{sheet: s, columns: surveyFields, size: 11, height: 10.6}
	for _, room := range surveyed(a, k) {
		surveyRoom(g, a, room)
	}
	return s, nil
}

// surveyed are the rooms of a survey sheet in walking order.
func surveyed(a *site.AsFound, k Kind) []*installation.Room {
	if r := a.Room(k.Of); r != nil {
		return []*installation.Room{r}
	}
	var out []*installation.Room
	for _, r := range a.Rooms {
		if r.Building == k.Of {
			out = append(out, r)
		}
	}
	return out
}

// surveyRoom writes the rows of one room, numbered from 1, with empty ones.
func surveyRoom(g *grid, a *site.AsFound, room *installation.Room) {
	g.page = nil // the heading comes between
	if g.sheet.Free().H < 15+gridHead+3*g.height {
		g.sheet.Break()
	}
	g.sheet.Heading(roomName(a, room.Thing))
	openings := a.In(room.Thing)
	for i, o := range openings {
		g.row(0, surveyRow(i+1, o)...)
	}
	empty := emptyRows
	if len(openings) == 0 {
		empty = bareRows
	}
	for i := range empty {
		g.row(0, strconv.Itoa(len(openings)+i+1))
	}
}

// surveyRow prints what is on record of an opening; what is not stays empty, to
// be written.
func surveyRow(no int, o *installation.Opening) []string {
	out := []string{strconv.Itoa(no), o.Number, string(o.Use), "", "", "", "", ""}
	if o.Gangs > 0 {
		out[3] = strconv.Itoa(o.Gangs)
	}
	if o.Height > 0 {
		out[4] = o.Height.String()
	}
	if o.Depth > 0 {
		out[5] = o.Depth.String()
	}
	out[6] = jackets(o.Cables)
	return out
}

// jackets names cables as one writes them: each by its jacket, else by its tag;
// where no jacket was read, how many there are.
func jackets(cables []observation.CableEnd) string {
	var out []string
	read := false
	for _, c := range cables {
		read = read || c.Jacket != ""
		out = append(out, cmp.Or(c.Jacket, "cable "+c.Tag))
	}
	if len(cables) > 0 && !read {
		return counted(len(cables), "cable")
	}
	return strings.Join(out, ", ")
}

func surveyRows(a *site.AsFound, k Kind) (list, error) {
	l := list{head: []string{"no", "room", "number", "use", "gangs", "height", "depth", "cables"}}
	for _, room := range surveyed(a, k) {
		for i, o := range a.In(room.Thing) {
			row := surveyRow(i+1, o)
			l.add(o.Number, row[2]+" "+row[6], row[0], roomName(a, room.Thing), row[1], row[2], row[3], row[4], row[5], row[6])
		}
	}
	return l, nil
}
