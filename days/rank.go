package days

import (
	"cmp"
	"slices"
	"strings"

	"asfound/installation"
	"asfound/observation"
	"asfound/step"
	"asfound/trace"
)

// better orders candidates: what comes before all else, then most certainty a minute first; among equals the
// shorter way, then the lasting names.
func better(a, b *candidate) int {
	return cmp.Or(trueFirst(a.first, b.first), cmp.Compare(b.rate, a.rate), cmp.Compare(a.Moving, b.Moving), strings.Compare(a.Key, b.Key))
}

func trueFirst(a, b bool) int {
	switch {
	case a == b:
		return 0
	case a:
		return -1
	}
	return 1
}

// from is a proposal for somebody at a place: with the minutes of getting there
// and through it, and what that takes along.
func (r *ranked) from(at observation.Thing, p trace.Proposal) *candidate {
	c := &candidate{Proposal: p, proposed: p}
	to := observation.Thing(p.Place)
	seconds := r.ways.walk(at, to)
	var reach reached
	for i, name := range p.Places {
		next := observation.Thing(name)
		if i > 0 {
			seconds += r.ways.walk(to, next)
			to = next
		}
		if opens(p.Kind) {
			reach.add(r.ways.reach(next))
		}
	}
	c.Moving = (seconds + reach.seconds) / 60
	c.Minutes = p.Minutes + c.Moving
	c.Plates = reach.plates
	c.Bring = slices.Concat(p.Bring, reach.bring())
	c.Do = slices.Concat(reach.before(), p.Do, reach.after())
	c.ends = to
	c.first, c.rate = p.First && !r.taken[r.ways.end(observation.Thing(p.Place))], r.rate(c)
	return c
}

// rate is the gain a minute, all minutes counted, less for what another person
// is at, and more for the panel that this one stands at.
func (r *ranked) rate(c *candidate) float64 {
	rate := c.Gain / max(c.Minutes+c.Ahead, least)
	switch here := r.ways.end(observation.Thing(c.Place)); {
	case r.taken[here] && r.ways.in.Panel(here) != nil:
		rate *= inTheWay
	case r.taken[here]:
		rate *= nearlySame
	case here == r.ways.end(r.at) && r.ways.in.Panel(r.at) != nil:
		rate *= stays
	}
	return rate
}

// least is the minutes below which no step is told from another.
const least = 0.01

// opens reports whether a step of this kind goes into the boxes of openings.
func opens(k step.Kind) bool { return k == step.Read }

// reached is what it takes to get into the boxes of a step.
type reached struct {
	seconds                       float64
	boxes, plates, steps, extends int
}

func (r *reached) add(one reached) {
	r.seconds += one.seconds
	r.boxes, r.plates, r.steps, r.extends = r.boxes+one.boxes, r.plates+one.plates, r.steps+one.steps, r.extends+one.extends
}

func (r *reached) bring() []string {
	var out []string
	if r.steps > 0 {
		out = append(out, "stepladder with nonconductive rails") // 29 CFR 1926.1053(b)(12)
	}
	if r.extends > 0 {
		out = append(out, "extension ladder with nonconductive rails")
	}
	if r.plates > 0 {
		out = append(out, "screwdriver for the plates")
	}
	return out
}

func (r *reached) before() []string {
	if r.plates == 0 {
		return nil
	}
	return []string{"Take the plate off" + ofSeveral(r.plates, r.boxes) + ". What is behind it counts as live until it is tested."}
}

func (r *reached) after() []string {
	if r.plates == 0 {
		return nil
	}
	return []string{"Put the plate on again."}
}

func ofSeveral(n, of int) string {
	if of == 1 {
		return ""
	}
	return " where it is on: " + counted(n, "opening")
}

// reach is what it takes to get into the box of an opening.
func (w *ways) reach(t observation.Thing) reached {
	o := w.in.Opening(t)
	if o == nil {
		return reached{}
	}
	out := reached{boxes: 1, seconds: bareBox}
	if o.Plate == observation.Yes {
		out.plates, out.seconds = 1, plateOff+plateOn
	}
	switch h := w.height(o); {
	case h > extensionOver:
		out.extends, out.seconds = 1, out.seconds+extensionLadder
	case h > stepladderOver:
		out.steps, out.seconds = 1, out.seconds+stepladder
	}
	return out
}

// height is how far above the floor an opening is, in inches, as recorded, or as
// high as the ceiling it is in; 0 is not known and asks for no ladder.
func (w *ways) height(o *installation.Opening) float64 {
	if o.Height > 0 || o.Spot == nil || o.Spot.Wall != observation.Overhead {
		return float64(o.Height)
	}
	if room := w.in.Room(o.Room); room != nil && room.Size != nil {
		return float64(room.Size.Ceiling)
	}
	return 0
}
