package site

import (
	"asfound/installation"
	"asfound/list"
	"asfound/observation"
)

// panelOn is a panel on record, or to be recorded.
type panelOn struct {
	thing observation.Thing
	observation.Panel
	on     *installation.Panel // nil when it is of this list
	spaces map[int]*spaceOn
	want   *wanted
}

func (p *panelOn) line() int {
	if p.want != nil {
		return p.want.line
	}
	return 0
}

// panel judges a line of a list of panels.
func (t *taking) panel(r list.Record) (bool, error) {
	c := &cells{Record: r}
	b := t.buildingNamed(c)
	var room *roomOn
	if c.known("room") != "" {
		room = t.roomNamed(c, b)
	}
	says := observation.Panel{Building: "?", Name: c.name("name"), Spaces: c.whole("spaces", saySpacesTold), FedFrom: c.known("fed_from"), Note: c.known("note")}
	if c.fault != nil {
		return false, c.fault
	}
	p, n := pick(t.panelsIn(b, says.Name), says.Name, func(p *panelOn) string { return p.Name })
	if n > 1 {
		return false, bad("name", says.Name, sayTwoSuch("panel", says.Name))
	}
	if err := t.check(says, nil); err != nil {
		return false, err
	}
	if n == 0 {
		t.newPanel(r.Line, says, b, room)
		return true, nil
	}
	return t.fillPanel(c, p, says, room)
}

// panelsIn are the panels of a building that bear a name.
func (t *taking) panelsIn(b *buildingOn, name string) (out []*panelOn) {
	for _, p := range t.panels[plainName(name)] {
		if b.thing != "" && p.Building == b.thing {
			out = append(out, p)
		}
	}
	return out
}

func (t *taking) newPanel(line int, p observation.Panel, b *buildingOn, room *roomOn) {
	p.Building = t.buildingThing(b, line)
	if room != nil {
		p.Room = t.roomThing(room, line)
	}
	on := &panelOn{Panel: p, spaces: map[int]*spaceOn{}, want: t.record(line, observation.Observation{Body: p})}
	on.thing = on.want.thing
	t.panels[plainName(p.Name)] = append(t.panels[plainName(p.Name)], on)
}

// fillPanel sets what a line says beside what is on record.
func (t *taking) fillPanel(c *cells, p *panelOn, says observation.Panel, room *roomOn) (bool, error) {
	next, f := p.Panel, &filling{cells: c, line: p.line()}
	fill(f, "spaces", &next.Spaces, says.Spaces)
	fillText(f, "fed_from", &next.FedFrom, says.FedFrom)
	fillText(f, "note", &next.Note, says.Note)
	if room != nil && next.Room != "" && next.Room != room.thing {
		c.refuse("room", sayOther(t.roomName(next.Room), f.line))
	}
	if c.fault != nil {
		return false, c.fault
	}
	if room != nil && next.Room == "" {
		next.Room, f.more = t.roomThing(room, c.Line), true
	}
	if !f.more {
		return false, nil
	}
	p.Panel = next
	if p.want == nil {
		p.want = t.record(c.Line, observation.Observation{Subject: p.thing, Seen: records[observation.Panel](p.on.Story), Body: next})
	} else {
		t.last(p.want)
	}
	p.want.o.Body = next
	return true, nil
}

// last puts an observation behind the others: it names a room that was recorded
// after it.
func (t *taking) last(w *wanted) {
	for i, other := range t.wanted {
		if other == w {
			t.wanted = append(append(t.wanted[:i:i], t.wanted[i+1:]...), w)
			return
		}
	}
}
