package days

import (
	"slices"
	"strings"

	"asfound/observation"
	"asfound/site"
	"asfound/step"
)

// Stretch is the work of a person for about so many minutes without another look
// at a card: the best steps that fit, then put in walking order from where he
// stands. The last may be part of a room. Each can be done as the record stands;
// what becomes possible only by doing one of them is not among them. A choice
// that stands begins it, and what is put off or passed over is left out.
//
// Others who are at work now are taken to go on by such papers too: they and he
// choose in turn, so that no step stands on two papers while each has one.
func Stretch(a *site.AsFound, who Person, minutes float64) []step.Step {
	own := newWalker(a, who, minutes)
	crew := []*walker{own}
	for _, s := range Stands(a.Installation) { // by name
		if s.Who != who.Name && own.last.Sub(s.Since) <= recently {
			crew = append(crew, newWalker(a, Person{Name: s.Who}, minutes))
		}
	}
	slices.SortFunc(crew, func(a, b *walker) int { return strings.Compare(a.who, b.who) })
	share(crew)
	if len(own.picked) == 0 {
		own = newWalker(a, who, minutes)
		share([]*walker{own})
	}
	return own.walked()
}

// walker is a person whose work is being put together.
type walker struct {
	*ranked
	who    string
	choice *Choice
	open   []*candidate
	picked []*candidate
	stands observation.Thing // after what is picked
	left   float64           // minutes
}

func newWalker(a *site.AsFound, who Person, minutes float64) *walker {
	r := rank(a, who)
	w := &walker{ranked: r, who: who.Name, stands: r.at, left: minutes}
	off := putOff(a.Installation)
	choice, passed := standingChoice(a.Installation, who.Name, r)
	w.choice = choice
	for _, c := range r.candidates {
		if choice != nil && c.Key == choice.Chosen {
			w.pick(c)
		} else if !off[c.Key] && !passed[c.Key] {
			w.open = append(w.open, c)
		}
	}
	return w
}

func (w *walker) pick(c *candidate) {
	w.picked, w.stands, w.left = append(w.picked, c), c.ends, w.left-c.Minutes
}

// share has people choose in turn, whoever has most time left first, and in the
// end each a part of a room if one fits.
func share(crew []*walker) {
	gone := map[string]bool{}
	for _, w := range crew {
		for _, c := range w.picked {
			gone[c.Key] = true
		}
	}
	for busy := slices.Clone(crew); len(busy) > 0; {
		turn := 0
		for i, w := range busy {
			if w.left > busy[turn].left {
				turn = i
			}
		}
		if c := busy[turn].best(gone); c != nil {
			busy[turn].pick(c)
			gone[c.Key] = true
		} else {
			busy = slices.Delete(busy, turn, turn+1)
		}
	}
	for _, w := range crew {
		if c := w.part(gone); c != nil {
			w.pick(c)
			gone[c.Key] = true
		}
	}
}

// best is the best step that is open and fits, however long the first is.
func (w *walker) best(gone map[string]bool) *candidate {
	var best *candidate
	for _, c := range w.open {
		if gone[c.Key] {
			continue
		}
		c = w.from(w.stands, c.proposed)
		if (c.Minutes <= w.left || len(w.picked) == 0) && (best == nil || better(c, best) < 0) {
			best = c
		}
	}
	return best
}

// fewest is the fewest openings of a room worth a walk of their own (assumed).
const fewest = 3

// part is the best of the steps that go to several openings, cut to as many of
// them as fit; nil when none does.
func (w *walker) part(gone map[string]bool) *candidate {
	var best *candidate
	for _, c := range w.open {
		if gone[c.Key] {
			continue
		}
		for n := len(c.Places) - 1; n >= fewest; n-- {
			p := c.proposed
			share := float64(n) / float64(len(p.Places))
			p.Places, p.Minutes, p.Gain = p.Places[:n], p.Minutes*share, p.Gain*share
			if cut := w.from(w.stands, p); cut.Minutes <= w.left {
				if best == nil || better(cut, best) < 0 {
					best = cut
				}
				break
			}
		}
	}
	return best
}

// walked puts the picked steps in the order of the shortest next way. A choice
// stays first; what ends the work at a panel stays last.
func (w *walker) walked() []step.Step {
	var out []step.Step
	at, picked := w.at, slices.Clone(w.picked)
	take := func(i int) {
		c := w.from(at, picked[i].proposed)
		out, at = append(out, reasoned(c)), c.ends
		picked = slices.Delete(picked, i, i+1)
	}
	if w.choice != nil && len(picked) > 0 {
		take(0)
	}
	for len(picked) > 0 {
		best := 0
		for i, c := range picked {
			if w.sooner(at, c, picked[best]) {
				best = i
			}
		}
		take(best)
	}
	return out
}

// sooner reports whether one step comes before another on a walk.
func (r *ranked) sooner(at observation.Thing, c, other *candidate) bool {
	if c.first != other.first {
		return c.first
	}
	if ends(c.Kind) != ends(other.Kind) {
		return ends(other.Kind)
	}
	x, y := r.ways.walk(at, observation.Thing(c.Place)), r.ways.walk(at, observation.Thing(other.Place))
	if x != y {
		return x < y
	}
	if c.Kind.Records() != other.Kind.Records() {
		return c.Kind.Records() // what is known first helps with the rest
	}
	return better(c, other) < 0
}

// ends reports whether a step ends the work at a panel.
func ends(k step.Kind) bool { return k == step.TakeOff || k == step.Release }
