package scenario

import (
	"slices"

	"asfound/evidence"
	"asfound/installation"
	"asfound/observation"
	"asfound/trace"
)

// mostRounds is how often the crew goes back for what is not settled.
const mostRounds = 3

// confirm goes back, while the resistors are still on, to what is not settled:
// clashes by the reading that decides them, the rest by a second visit. It
// stops when nothing is left or three rounds are over.
func (p *player) confirm() {
	p.confirms = true
	p.who = len(p.crew) - 1 // another pair of eyes, if there is one
	for range mostRounds {
		found := p.asFound()
		back, again := p.unsettled(found.Installation, found.Trace)
		if len(back)+len(again) == 0 || p.err != nil {
			break
		}
		for _, i := range back {
			p.doneConfirming()
			p.readBackOne(i, true, false)
		}
		for _, thing := range slices.Backward(again) { // he stands at the last panel
			p.doneConfirming()
			p.goTo(slices.Index(p.rooms, found.Opening(thing).Room))
			p.played.Visits++
			p.stop(thing)
		}
	}
	p.confirms = false
}

// doneConfirming goes on with the next visit when this one is over.
func (p *player) doneConfirming() {
	if p.done(p.who) {
		p.nextVisit()
		p.who = len(p.crew) - 1
	}
}

// unsettled lists the resistors to read back and the openings to go back to, in
// walking order.
func (p *player) unsettled(in *installation.Installation, t *trace.Trace) (back []int, again []observation.Thing) {
	settled := map[observation.Thing]bool{}
	for _, c := range t.Clashes {
		if i := p.putOn(c.Settle.At); c.Settle.Back && i >= 0 {
			if !slices.Contains(back, i) {
				back = append(back, i)
			}
			settled[c.Lines[0].End.At] = true
		}
	}
	for _, o := range in.Openings {
		lines := t.At(o.Thing)
		open := slices.ContainsFunc(lines, func(l *trace.Line) bool { return l.Verdict.Standing != evidence.Settled && !l.Silent })
		if (open || len(lines) == 0) && !settled[o.Thing] {
			again = append(again, o.Thing)
		}
	}
	return back, again
}

func (p *player) putOn(at observation.Point) int {
	return slices.IndexFunc(p.plan.Puts, func(x trace.Put) bool { return x.On == at })
}
