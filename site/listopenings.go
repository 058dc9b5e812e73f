package site

import (
	"strconv"
	"strings"
	"unicode"

	"asfound/installation"
	"asfound/list"
	"asfound/observation"
)

// openingOn is an opening on record, or to be recorded.
type openingOn struct {
	thing observation.Thing
	observation.Opening
	cables int
	on     *installation.Opening // nil when it is of this list
	want   *wanted               // the entry of this list, if there is one
}

// line is the line of the file that recorded it, 0 when it was there before.
func (o *openingOn) line() int {
	if o.want != nil {
		return o.want.line
	}
	return 0
}

// opening judges a line of a list of openings.
func (t *taking) opening(r list.Record) (bool, error) {
	c := &cells{Record: r}
	room := t.roomNamed(c, t.buildingNamed(c))
	number := c.name("number")
	if number != "" && !strings.ContainsFunc(number, func(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) }) {
		c.refuse("number", sayNoFigure)
	}
	says := observation.Opening{Room: "?", Number: number, Use: c.use(), Gangs: c.whole("gangs", sayWhole),
		Height: c.inches("height"), Depth: c.inches("depth"), Note: c.known("note")}
	cables := c.whole("cables", sayCables)
	if cables < 0 || cables > 20 {
		c.refuse("cables", sayCables)
	}
	if c.fault != nil {
		return false, c.fault
	}
	if err := t.check(says, nil); err != nil {
		return false, err
	}
	o, err := t.numbered(c, number, room)
	if err != nil {
		return false, err
	}
	if o == nil {
		t.newOpening(r.Line, says, room, cables)
		return true, nil
	}
	return t.fillOpening(c, o, says, cables)
}

// numbered is the opening of a room that bears a number, or nil when none does
// anywhere.
func (t *taking) numbered(c *cells, number string, room *roomOn) (*openingOn, error) {
	all := t.openings[numberKey(number)]
	var here []*openingOn
	for _, o := range all {
		if room.thing != "" && o.Room == room.thing {
			here = append(here, o)
		}
	}
	switch {
	case len(all) == 0:
		return nil, nil
	case len(here) == 1:
		return here[0], nil
	case len(here) > 1:
		return nil, bad("number", number, sayNumberTwice(number))
	}
	return nil, bad("number", number, sayNumberElsewhere(number, t.roomName(all[0].Room)))
}

// roomName is what a room is called, on record or to be.
func (t *taking) roomName(thing observation.Thing) string {
	if r := t.rooms[thing]; r != nil {
		return r.name + " of " + r.building.name
	}
	return "a room that is not on record"
}

// numberKey is a number without capitals; its spaces may tell two numbers apart.
func numberKey(number string) string {
	return strings.ToLower(strings.Join(strings.Fields(number), " "))
}

// newOpening records an opening at the end of the walk through its room.
func (t *taking) newOpening(line int, o observation.Opening, room *roomOn, cables int) {
	o.Room = t.roomThing(room, line)
	t.lastIn[o.Room]++
	o.Order = t.lastIn[o.Room]
	on := &openingOn{Opening: o, want: t.record(line, observation.Observation{Body: o})}
	on.thing = on.want.thing
	t.openings[numberKey(o.Number)] = append(t.openings[numberKey(o.Number)], on)
	t.addCables(line, on, cables)
}

// fillOpening sets what a line says beside what is on record.
func (t *taking) fillOpening(c *cells, o *openingOn, says observation.Opening, cables int) (bool, error) {
	next, f := o.Opening, &filling{cells: c, line: o.line()}
	fill(f, "use", &next.Use, says.Use)
	fill(f, "gangs", &next.Gangs, says.Gangs)
	fill(f, "height", &next.Height, says.Height)
	fill(f, "depth", &next.Depth, says.Depth)
	fillText(f, "note", &next.Note, says.Note)
	told := o.cables
	of := &filling{cells: c, line: o.line()}
	fill(of, "cables", &told, cables)
	if c.fault != nil {
		return false, c.fault
	}
	if of.more {
		t.addCables(c.Line, o, cables)
	}
	if !f.more {
		return of.more, nil
	}
	o.Opening = next
	if o.want == nil {
		o.want = t.record(c.Line, observation.Observation{Subject: o.thing, Seen: records[observation.Opening](o.on.Story), Body: next})
	}
	o.want.o.Body = next
	return true, nil
}

// addCables records the cables of an opening that has none on record.
func (t *taking) addCables(line int, o *openingOn, n int) {
	for i := range n {
		t.record(line, observation.Observation{Subject: o.thing, Body: observation.CableEnd{Tag: strconv.Itoa(i + 1)}})
	}
	o.cables = max(o.cables, n)
}
