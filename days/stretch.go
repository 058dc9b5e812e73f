package days

import (
	"asfound/installation"
	"asfound/observation"
	"asfound/site"
	"asfound/step"
)

// Stretch is the work of a person for about so many minutes without another look
// at a card: the best steps that fit, then put in walking order from where he
// stands. The last may be part of a room. Each can be done as the record stands;
// what becomes possible only by doing one of them is not among them. A choice
// that stands begins it, and what is put off or passed over is left out. So is
// what stands on the paper of another who is at work now and comes before him by
// name, unless nothing else is left.
func Stretch(a *site.AsFound, who Person, minutes float64) []step.Step {
	r := rank(a, who)
	others := map[string]bool{}
	for _, s := range Stands(a.Installation) { // by name
		if s.Who < who.Name && r.last.Sub(s.Since) <= recently {
			for _, x := range rank(a, Person{Name: s.Who}).besides(a.Installation, s.Who, minutes, others) {
				others[x.Key] = true
			}
		}
	}
	return r.besides(a.Installation, who.Name, minutes, others)
}

// besides is the work of a person besides that of others, or the same as theirs
// when nothing else is left.
func (r *ranked) besides(in *installation.Installation, who string, minutes float64, others map[string]bool) []step.Step {
	if out := r.stretch(in, who, minutes, others); len(out) > 0 {
		return out
	}
	return r.stretch(in, who, minutes, nil)
}

func (r *ranked) stretch(in *installation.Installation, who string, minutes float64, others map[string]bool) []step.Step {
	off := putOff(in)
	choice, passed := standingChoice(in, who, r)
	var open, picked []*candidate
	at, left := r.at, minutes
	for _, c := range r.candidates {
		if choice != nil && c.Key == choice.Chosen {
			picked, at, left = append(picked, c), c.ends, left-c.Minutes
		} else if !off[c.Key] && !passed[c.Key] && !others[c.Key] {
			open = append(open, c)
		}
	}
	for len(open) > 0 {
		best, next := -1, (*candidate)(nil)
		for i, c := range open {
			c = r.from(at, c.proposed)
			if (c.Minutes <= left || len(picked) == 0) && (next == nil || better(c, next) < 0) {
				best, next = i, c
			}
		}
		if next == nil {
			break
		}
		picked, at, left = append(picked, next), next.ends, left-next.Minutes
		open = append(open[:best], open[best+1:]...)
	}
	if c := r.part(at, open, left); c != nil {
		picked = append(picked, c)
	}
	return r.walked(picked, choice)
}

// fewest is the fewest openings of a room worth a walk of their own (assumed).
const fewest = 3

// part is the best of the steps that go to several openings, cut to as many of
// them as fit; nil when none does.
func (r *ranked) part(at observation.Thing, open []*candidate, minutes float64) *candidate {
	var best *candidate
	for _, c := range open {
		for n := len(c.Places) - 1; n >= fewest; n-- {
			p := c.proposed
			share := float64(n) / float64(len(p.Places))
			p.Places, p.Minutes, p.Gain = p.Places[:n], p.Minutes*share, p.Gain*share
			if cut := r.from(at, p); cut.Minutes <= minutes {
				if best == nil || better(cut, best) < 0 {
					best = cut
				}
				break
			}
		}
	}
	return best
}

// walked puts picked steps in the order of the shortest next way. A choice stays
// first; what ends the work at a panel stays last.
func (r *ranked) walked(picked []*candidate, choice *Choice) []step.Step {
	var out []step.Step
	at := r.at
	take := func(i int) {
		c := r.from(at, picked[i].proposed)
		out, at = append(out, reasoned(c)), c.ends
		picked = append(picked[:i], picked[i+1:]...)
	}
	if choice != nil && len(picked) > 0 {
		take(0)
	}
	for len(picked) > 0 {
		best := 0
		for i, c := range picked {
			if r.sooner(at, c, picked[best]) {
				best = i
			}
		}
		take(best)
	}
	return out
}

// sooner reports whether one step comes before another on a walk.
func (r *ranked) sooner(at observation.Thing, c, other *candidate) bool {
	if ends(c.Kind) != ends(other.Kind) {
		return ends(other.Kind)
	}
	x, y := r.ways.walk(at, observation.Thing(c.Place)), r.ways.walk(at, observation.Thing(other.Place))
	if x != y {
		return x < y
	}
	if (c.Kind == step.Record) != (other.Kind == step.Record) {
		return c.Kind == step.Record // what is known first helps with the rest
	}
	return better(c, other) < 0
}

// ends reports whether a step ends the work at a panel.
func ends(k step.Kind) bool { return k == step.TakeOff || k == step.Release }
