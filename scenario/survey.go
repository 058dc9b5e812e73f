package scenario

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"asfound/observation"
	"asfound/trace"
)

// survey is the first visit: it puts the property on record as seen.
func (p *player) survey() {
	v := p.view
	var buildings []observation.Thing
	for _, name := range v.Buildings {
		buildings = append(buildings, p.note(observation.Observation{Body: observation.Building{Name: name}}))
	}
	for i, r := range v.Rooms {
		p.rooms = append(p.rooms, p.note(observation.Observation{Body: observation.Room{
			Building: buildings[r.Building], Name: r.Name, Floor: r.Floor, Order: i + 1}}))
		for order, box := range v.in(i) {
			if !v.Boxes[box].Covered {
				p.whenDone()
				p.goTo(i)
				p.surveyOpening(box, order+1)
			}
		}
	}
	p.drawings()
	for i, panel := range v.Panels {
		thing := p.note(observation.Observation{Body: observation.Panel{
			Building: buildings[panel.Building], Room: p.rooms[panel.Room], Name: panel.Name, Spaces: panel.Spaces}})
		p.goTo(panel.Room)
		p.panels = append(p.panels, thing)
		p.played.Panel[thing] = i
		for _, b := range panel.Breakers {
			p.note(observation.Observation{Subject: thing, Body: b})
		}
		for _, c := range panel.Coiled {
			p.note(observation.Observation{Subject: thing, Body: c})
		}
		if panel.Passing > 0 {
			p.note(observation.Observation{Subject: thing, Body: observation.PassThrough{Count: panel.Passing, Spliced: observation.Yes}})
		}
	}
	p.renumber()
	p.supply()
}

// supply puts sources and feeders on record as their marks show them, while
// standing at the last panel.
func (p *player) supply() {
	var sources []observation.Thing
	for _, s := range p.view.Sources {
		sources = append(sources, p.record(observation.Observation{Body: s}).Thing())
	}
	for _, f := range p.view.Feeders {
		body := observation.Feeder{To: p.panels[f.To], Wires: f.Wires, Way: f.Way, How: observation.BasisLabel}
		if f.Source > 0 {
			body.From = sources[f.Source-1]
		} else {
			body.From, body.Space = p.panels[f.Panel], f.Space
		}
		p.record(observation.Observation{Body: body})
	}
}

// drawings takes the openings of the drawings over, room by room.
func (p *player) drawings() {
	const each = 4 * time.Second // assumed
	for _, d := range p.view.Drawn {
		p.spend(each)
		p.record(observation.Observation{Body: observation.Drawn{Room: p.rooms[d.Room], Use: d.Use, What: d.What, Sheet: "electrical plan"}})
	}
}

// renumber gives an opening whose number was given twice its own, as the tool
// asks for.
func (p *player) renumber() {
	found := p.asFound()
	for _, odd := range found.Trace.Oddities {
		if odd.Kind != trace.DuplicateNumber {
			continue
		}
		body := found.Opening(odd.Place).Opening
		body.Number = p.freeNumber(body)
		p.note(observation.Observation{Subject: odd.Place, Body: body})
	}
}

// freeNumber is the first number of a room that no opening bears.
func (p *player) freeNumber(o observation.Opening) string {
	room, _, _ := strings.Cut(o.Number, "-")
	for n := 1; ; n++ {
		number := fmt.Sprintf("%s-%02d", room, n)
		if len(p.installation().Numbered(number)) == 0 {
			return number
		}
	}
}

// note records a new thing, which takes a little while, and returns its name.
func (p *player) note(o observation.Observation) observation.Thing {
	const each = 15 * time.Second
	p.spend(each)
	return p.record(o).Thing()
}

// surveyOpening tapes a number on an opening and records it. The same opening
// may get a second number, or the number of the one before.
func (p *player) surveyOpening(box, order int) {
	o := p.view.Boxes[box]
	number := o.Number
	if order > 1 && p.slip(NumberShared, p.people.Rates.Twice/2) {
		number = p.view.Boxes[box-1].Number
	}
	body := observation.Opening{Room: p.rooms[o.Room], Number: number, Use: o.Use, Gangs: o.Gangs, Order: order, Height: o.Height, Depth: o.Setback}
	p.spend(p.world.Reach(p.people.Costs, box))
	thing := p.note(observation.Observation{Body: body})
	p.openings = append(p.openings, thing)
	p.played.Box[thing] = box
	for _, e := range o.Ends {
		p.note(observation.Observation{Subject: thing, Body: e.seen()})
	}
	if p.slip(NumberedTwice, p.people.Rates.Twice/2) {
		room, _, _ := strings.Cut(o.Number, "-")
		body.Number = fmt.Sprintf("%s-%02d", room, len(p.view.in(o.Room))+order)
		p.played.Box[p.note(observation.Observation{Body: body})] = box
	}
}

// seen is an end as it is recorded: what touches it in the box is one with it.
func (e EndView) seen() observation.CableEnd {
	c := observation.CableEnd{Tag: e.Tag, Mark: e.Mark, Conductors: []observation.Conductor{{Wire: observation.Hot, Color: e.Color, Size: e.Size, Length: e.Free}}}
	if !e.Bare {
		c.Conductors = append(c.Conductors, observation.Conductor{Wire: observation.Neutral, Color: "white", Size: e.Size, Length: e.Free})
	}
	c.Conductors = append(c.Conductors, observation.Conductor{Wire: observation.EGC, Color: "bare", Size: e.Size, Length: e.Free})
	return c
}

// isolate opens a panel, proves it dead and makes its isolation test.
func (p *player) isolate(panel int) {
	p.goTo(p.view.Panels[panel].Room)
	p.spend(p.people.Costs.ProveDead)
	thing := p.panels[panel]
	p.record(observation.Observation{Subject: thing, Body: observation.LockOut{Device: "lock " + strconv.Itoa(panel+1), Key: "with " + p.crew[p.who].Name}})
	p.record(observation.Observation{Subject: thing, Body: observation.ProvenDead{Before: observation.Yes, Absent: observation.Yes, After: observation.Yes}})
	const most = 40 // rounds of asking: each narrows by half what was hit
	for range most {
		todo := trace.PlanIsolation(p.installation(), thing).Open()
		for _, l := range todo {
			p.isolation(panel, l)
		}
		if len(todo) == 0 || p.err != nil {
			return
		}
	}
}

// isolation takes one reading of the test. A load that shows is unplugged: the
// reading is withdrawn and taken again.
func (p *player) isolation(panel int, l trace.IsolationLine) {
	for {
		p.spend(p.people.Costs.Terminal)
		ideal := p.world.Isolation(p.rig, panel, l.A, l.Against, l.B)
		r := p.typed(show(p.rng, ideal))
		id := p.record(observation.Observation{Subject: p.panels[panel], Body: observation.Isolation{A: l.A, Against: l.Against, B: l.B, Ohm: r,
			SwitchesOn: observation.Yes, LoadsOff: observation.Yes}})
		load := !ideal.Open && ideal.Ohm > 1 && p.world.Unplug(p.rig, panel, slices.Concat(l.A, l.B))
		mistyped := !ideal.Open && ideal.Ohm < 1 && r.Ohm > 1
		if !load && !mistyped || p.err != nil {
			return
		}
		reason := "typed wrong: read again"
		if load {
			reason = "a load was still plugged in: unplugged, read again"
		}
		p.withdraw(p.panels[panel], reason, id)
	}
}

func (p *player) withdraw(subject observation.Thing, reason string, ids ...observation.ID) {
	p.record(observation.Observation{Subject: subject, Seen: ids, Body: observation.Withdrawal{Reason: reason}})
}
