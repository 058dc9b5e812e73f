package scenario

import (
	"cmp"
	"slices"

	"asfound/observation"
	"asfound/pattern"
	"asfound/quantity"
	"asfound/table"
	"asfound/trace"
)

// conductorMost is the most that conductors add to a reading, as trace allows.
const conductorMost quantity.Ohms = 20

// resistorSet is what the people brought: 1 % resistors as marked when these are
// enough, else the same measured one by one to 0.2 %.
func resistorSet(circuits int) pattern.ResistorSet {
	series, _ := table.Preferred("E96")
	of := func(name string) pattern.ResistorSet {
		return pattern.Resistors(series, atPellam().Instrument(name).Relative, multimeter(), conductorMost, 100, 100e3)
	}
	set := of("resistors as marked")
	if set.Enough(circuits) != nil {
		set = of("resistors measured one by one")
	}
	return set
}

// setUp makes the panels ready, one after the other and each in one visit: dead,
// isolation test, resistors on, read back blind. The tour is on record from the
// first of them on. Planning it for one panel more leaves the values of those
// before as they are.
func (p *player) setUp() {
	in := p.installation()
	branches := 0
	for _, thing := range p.panels {
		panel := in.Panel(thing)
		branches += len(panel.Branches())
		for _, c := range panel.Cables {
			branches += len(c.Conductors)
		}
	}
	set := resistorSet(branches)
	p.tour = p.record(observation.Observation{Body: observation.Tour{Name: "dead tour", Means: observation.ByResistor, Panels: p.panels,
		Tolerance: set.Tolerance, MeterRelative: set.Meter.Relative, MeterOhm: set.Meter.AbsoluteOhm, NeutralJoined: observation.Yes}})
	for i, panel := range p.panels {
		p.isolate(i)
		found := p.asFound()
		plan, err := trace.PlanTour(found.Installation, found.Trace, p.panels[:i+1], set)
		if err != nil {
			p.err = cmp.Or(p.err, err)
			return
		}
		p.plan = plan
		p.putAll(panel)
		p.readBack(panel, false)
	}
}

// putAll puts the resistors of a panel on. Now and then two end up exchanged:
// one slip, and the record of both is wrong.
func (p *player) putAll(panel observation.Thing) {
	p.goTo(p.view.Panels[p.played.Panel[panel]].Room)
	for i, put := range p.plan.Puts {
		if put.On.At != panel {
			continue
		}
		p.spend(p.people.Costs.Resistor)
		p.ohms = append(p.ohms, made(p.rng, put.Ohm, p.plan.Set.Tolerance))
		p.really = append(p.really, i)
		p.put = append(p.put, p.record(observation.Observation{Under: []observation.ID{p.tour}, Subject: panel,
			Body: observation.Resistor{On: put.On, Ohm: put.Ohm}}))
	}
	for i, put := range p.plan.Puts {
		if put.On.At == panel && p.slip(WrongSpace, p.people.Rates.Space) {
			p.exchange(i)
		}
	}
	p.settleOn()
}

// exchange swaps a resistor with that of a space close by in the same panel.
func (p *player) exchange(i int) {
	for _, j := range []int{i + 1, i - 1} {
		if j >= 0 && j < len(p.plan.Puts) && p.plan.Puts[i].On.At == p.plan.Puts[j].On.At {
			p.really[i], p.really[j] = p.really[j], p.really[i]
			return
		}
	}
}

// settleOn works out what is really on each terminal.
func (p *player) settleOn() {
	on := map[Terminal][]quantity.Ohms{}
	for i, put := range p.really {
		if p.off[put] {
			continue
		}
		at := p.terminal(put)
		on[at] = append(on[at], p.ohms[i])
	}
	p.rig.put(on)
}

// terminal is where a planned resistor goes.
func (p *player) terminal(put int) Terminal {
	on := p.plan.Puts[put].On
	return Terminal{Panel: p.played.Panel[on.At], Space: on.Space, Cable: on.Cable}
}

// readBack reads each resistor of a panel blind, in the plan's other order.
// Before the tour, one that differs is read again and put right; after it, it is
// only read again, since nobody can say since when it was so.
func (p *player) readBack(panel observation.Thing, after bool) {
	p.goTo(p.view.Panels[p.played.Panel[panel]].Room)
	order := slices.DeleteFunc(slices.Clone(p.plan.Back), func(i int) bool { return p.plan.Puts[i].On.At != panel || p.off[i] })
	repeats := map[int]bool{} // whose placer's mistake is made once more
	for _, i := range order {
		if p.really[i] != i && p.slip(BackRepeated, p.people.Rates.BackBlind) {
			repeats[i], repeats[p.really[i]] = true, true
		}
	}
	var left []int // skipped, and asked for at the end because the sheet shows them blank
	for _, i := range order {
		if p.slip(StepSkipped, p.people.Rates.Skipped) {
			left = append(left, i)
			continue
		}
		p.readBackTwice(i, after, repeats[i])
	}
	for _, i := range left {
		p.readBackTwice(i, after, repeats[i])
	}
}

// readBackTwice reads one resistor back, again if it differs, and puts it right
// if it may.
func (p *player) readBackTwice(i int, after, repeat bool) {
	id, same := p.readBackOne(i, after, repeat)
	if same {
		return
	}
	again, same := p.readBackOne(i, after, repeat)
	switch {
	case same:
		p.withdraw(p.tour.Thing(), "typed wrong: read again", id)
	case !after:
		p.putRight(i, after, id, again)
	}
}

// readBackOne reads one resistor back and compares the value typed.
func (p *player) readBackOne(i int, after, repeat bool) (observation.ID, bool) {
	put := p.plan.Puts[i]
	p.goTo(p.view.Panels[p.played.Panel[put.On.At]].Room)
	p.spendOn(&p.played.Spent.Checks, p.people.Costs.Terminal)
	at := p.terminal(i)
	if repeat {
		at = p.terminal(p.really[i])
	}
	r := p.typed(show(p.rng, p.world.AtTerminal(p.rig, at)))
	id := p.record(observation.Observation{Under: []observation.ID{p.tour}, Subject: put.On.At,
		Body: observation.ReadBack{At: put.On, Ohm: r, Blind: true, After: after}})
	named, ok := p.plan.Set.Named(r)
	return id, ok && named == i
}

// takeOff takes a resistor off that reads wrong where it is, and looks at the
// conductor without it. A load or leak there would make it read like another:
// the resistor stays off. Else the meter was read wrong twice: it goes back on,
// and the record clashes.
func (p *player) takeOff(i int, seen []observation.ID) {
	at := p.terminal(i)
	p.spend(p.people.Costs.Resistor + p.people.Costs.Terminal)
	p.off[i] = true
	p.settleOn()
	if p.world.AtTerminal(p.rig, at).Open {
		delete(p.off, i)
		p.settleOn()
		return
	}
	p.withdraw(p.tour.Thing(), "something lies beside it: taken off", append([]observation.ID{p.put[i]}, seen...)...)
}

// putRight exchanges two resistors that are on each other's spaces and records
// them anew in place of what was noted and read back so far.
func (p *player) putRight(i int, after bool, seen ...observation.ID) {
	j := p.really[i]
	if j == i {
		p.takeOff(i, seen)
		return
	}
	for k, space := range p.really {
		if space == i {
			p.really[k] = j
		}
	}
	p.really[i] = i
	p.spend(p.people.Costs.Resistor)
	p.settleOn()
	for _, k := range []int{i, j} {
		if p.really[k] != k {
			continue // three were mixed up: its own read-back tells
		}
		old := []observation.ID{p.put[k]}
		if k == i {
			old = append(old, seen...)
		}
		p.put[k] = p.record(observation.Observation{Under: []observation.ID{p.tour}, Subject: p.plan.Puts[k].On.At, Seen: old,
			Body: observation.Resistor{On: p.plan.Puts[k].On, Ohm: p.plan.Puts[k].Ohm}})
		p.readBackOne(k, after, false)
	}
}
