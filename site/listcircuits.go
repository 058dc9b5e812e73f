package site

import (
	"asfound/installation"
	"asfound/list"
	"asfound/observation"
)

// spaceOn is what is on record of a space, or to be recorded.
type spaceOn struct {
	observation.Space
	seen []observation.ID
	want *wanted
}

// circuit judges a line of a list of circuits: what the label and the breaker at
// a space say, and what lands there.
func (t *taking) circuit(r list.Record) (bool, error) {
	c := &cells{Record: r}
	p := t.panelNamed(c)
	number, both := c.space()
	says := observation.Space{Number: number, Poles: c.whole("poles", sayWhole), Amps: c.amps("amps"), Tied: c.yes("tied"), Label: c.Get("label"),
		Lands: c.lands(), Cable: c.known("cable"), Wire: c.known("wire")}
	if both > 0 && says.Poles == 1 {
		c.refuse("poles", sayListSpace)
	} else if both > 0 {
		says.Poles = both
	}
	if c.fault != nil {
		return false, c.fault
	}
	if err := t.check(says, nil); err != nil {
		return false, err
	}
	s := p.space(number)
	line := 0
	if s.want != nil {
		line = s.want.line
	}
	next, f := s.Space, &filling{cells: c, line: line}
	fill(f, "poles", &next.Poles, says.Poles)
	fill(f, "amps", &next.Amps, says.Amps)
	fill(f, "tied", &next.Tied, says.Tied)
	fillText(f, "label", &next.Label, says.Label)
	fill(f, "lands", &next.Lands, says.Lands)
	fillText(f, "cable", &next.Cable, says.Cable)
	fillText(f, "wire", &next.Wire, says.Wire)
	if c.fault != nil {
		return false, c.fault
	}
	if err := p.admit(next); err != nil {
		return false, err
	}
	if !f.more {
		return false, nil
	}
	p.keepSpace(t, r.Line, s, next)
	return true, nil
}

// panelNamed is the panel on record that a line names.
func (t *taking) panelNamed(c *cells) *panelOn {
	name := c.name("panel")
	if name == "" {
		return nil
	}
	all := t.panels[plainName(name)]
	if c.known("building") != "" {
		b := t.buildingNamed(c)
		if b == nil {
			return nil
		}
		all = t.panelsIn(b, name)
	}
	p, n := pick(all, name, func(p *panelOn) string { return p.Name })
	switch n {
	case 0:
		c.refuse("panel", sayNoPanelSuch(name))
	case 1:
		return p
	default:
		c.refuse("panel", sayTwoSuch("panel", name))
	}
	return nil
}

// space is what is on record of a space.
func (p *panelOn) space(number int) *spaceOn {
	if s := p.spaces[number]; s != nil {
		return s
	}
	s := &spaceOn{Space: observation.Space{Number: number}}
	if seen, ok := p.on.Seen[number]; ok {
		s.Space = seen
	}
	for _, e := range p.on.Story {
		if b, ok := e.Body.(observation.Space); ok && b.Number == number && e.Live() {
			s.seen = append(s.seen, e.ID)
		}
	}
	p.spaces[number] = s
	return s
}

// admit judges a space beside those on record and those of the lines before.
func (p *panelOn) admit(s observation.Space) error {
	beside := &installation.Panel{Thing: p.thing, Panel: p.Panel, Seen: map[int]observation.Space{}}
	for n, seen := range p.on.Seen {
		beside.Seen[n] = seen
	}
	for n, on := range p.spaces {
		beside.Seen[n] = on.Space
	}
	return beside.Admit(s)
}

func (p *panelOn) keepSpace(t *taking, line int, s *spaceOn, next observation.Space) {
	s.Space = next
	if s.want == nil {
		s.want = t.record(line, observation.Observation{Subject: p.thing, Seen: s.seen})
	}
	s.want.o.Body = next
}
