package report

import (
	"strconv"

	"asfound/installation"
	"asfound/observation"
	"asfound/paper"
	"asfound/site"
)

var walkCaution = []string{
	"Dead conductors only. Before the first reading every panel named here is open, locked, and tested for absence of voltage. Whoever holds the keys stays reachable and energizes nothing until the resistors are counted back.",
	"A box may hold a circuit of another panel or building. Test for absence of voltage at every opening, tester tried on a known source before and after, before a lead or a finger goes in.",
	"Volts, or a value below zero, on the ohmmeter: hands off, stop, say so.",
}

func makeWalk(a *site.AsFound, k Kind) (*paper.Sheet, error) {
	plan, err := tourPlan(a, k)
	if err != nil {
		return nil, err
	}
	s, err := begin(a, k, walkCaution...)
	if err != nil {
		return nil, err
	}
	walkHead(s, a, plan.Panel)
	g := &grid{sheet: s, columns: walkFields, size: 14, height: 11.4}
	row := 0
	for i, room := range plan.Rooms {
		if i == 0 {
			s.Break()
		}
		row = walkRoom(g, a, room.Room, room.Openings, row)
	}
	s.Heading("More conductors: a second circuit in a box, an opening that is not listed")
	g.page = nil
	for range 6 {
		row++
		g.row(0, strconv.Itoa(row))
	}
	return s, nil
}

var walkFields = []field{
	{head: "No.", width: 9}, {head: "Opening", width: 29, face: paper.Bold}, {head: "Check letters", width: 19, kind: twoLetters},
	{head: "Hot to ground", width: 25}, {head: "Hot to neutral", width: 25}, {head: "Again: hot to ground", width: 21}, {head: "Ground to neutral", width: 19},
	{head: "Time", width: 13}, {head: "Not reached", width: 13.6, kind: toTick}, {head: "Cannot read", width: 12.2, kind: toTick}}

// walkHead is the first page: what must be so, and how to read.
func walkHead(s *paper.Sheet, a *site.AsFound, panels []observation.Thing) {
	g := &grid{sheet: s, size: 13, height: 9, columns: []field{{head: "Panel", width: 25.9, face: paper.Bold}, {head: "Locked, by lock", width: 44},
		{head: "Tested dead at, by", width: 44}, {head: "Resistors on, counted", width: 36}, {head: "Read back blind at", width: 36}}}
	for _, p := range panels {
		g.row(0, a.Name(p))
	}
	s.Heading("At each opening")
	for i, line := range []string{
		"Test for absence of voltage. Then copy the two letters from the tape into their boxes.",
		"Read hot to ground. Lift both leads. Read hot to neutral. Write what the meter shows, with its unit: 2.49 k, 830, open.",
		"The two are not nearly alike, or one is open: lift both leads and read again, into Again: hot to ground.",
		"Open: read ground to neutral too. It tells a missing ground from a missing hot.",
		"Put one pencil mark on the tape of the opening, and write the time.",
		"Nobody gets to it: tick Not reached. It gives no steady value: tick Cannot read. Leave no row blank.",
		"A box with a second circuit: write its readings on the last page, with the number and the cable.",
	} {
		s.Paragraph(strconv.Itoa(i+1) + ".  " + line)
	}
	checks(s, "Read by", "Written by", "Begun at", "Ended at")
}

// walkRoom writes the rows of one room and the look around at its end, and
// returns the number of the last row.
func walkRoom(g *grid, a *site.AsFound, room observation.Thing, openings []observation.Thing, row int) int {
	g.page = nil // the heading comes between
	need := 15 + gridHead + 2*g.height
	if g.sheet.Free().H < need {
		g.sheet.Break()
	}
	g.sheet.Heading(roomName(a, room))
	for i, t := range openings {
		ends := cableEnds(a.Opening(t))
		for j, name := range ends {
			row++
			rest := 0.0
			if i == len(openings)-1 && j == len(ends)-1 {
				rest = lookRoom
			}
			g.row(rest, strconv.Itoa(row), name)
		}
	}
	lookAround(g.sheet)
	return row
}

func roomName(a *site.AsFound, t observation.Thing) string {
	room := a.Room(t)
	if b := a.Building(room.Building); b != nil {
		return b.Name + ": " + room.Name
	}
	return room.Name
}

// cableEnds are the rows of an opening: one for each hot on record, else one.
func cableEnds(o *installation.Opening) []string {
	var out []string
	for _, c := range o.Cables {
		for _, w := range c.Conductors {
			if w.Wire == observation.Hot {
				out = append(out, o.Number+" cable "+c.Tag)
			}
		}
	}
	if len(out) < 2 {
		return []string{o.Number}
	}
	return out
}

const lookRoom = 11.0

// lookAround asks for the marks at the end of a room.
func lookAround(s *paper.Sheet) {
	p, a := s.Room(lookRoom)
	st := paper.Style{Size: 11}
	y := a.Y + 6.5
	x := a.X + p.Text(a.X, y, "Look around: every opening bears one new mark?", paper.Style{Size: 11, Face: paper.Bold}) + 4
	for _, word := range []string{"yes", "no"} {
		p.Box(x, y-3.8, 4.6)
		x += 6.4 + p.Text(x+6.4, y, word, st) + 5
	}
	x += p.Text(x, y, "without:", st) + 2
	p.FillIn(x, y+0.8, a.X+a.W-x)
}

func walkRows(a *site.AsFound, k Kind) (list, error) {
	l := list{head: []string{"no", "room", "opening"}}
	plan, err := tourPlan(a, k)
	row := 0
	for _, room := range plan.Rooms {
		for _, t := range room.Openings {
			for _, name := range cableEnds(a.Opening(t)) {
				row++
				l.add(name, roomName(a, room.Room), strconv.Itoa(row), roomName(a, room.Room), name)
			}
		}
	}
	return l, err
}
