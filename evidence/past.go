package evidence

import (
	"maps"
	"math"
	"slices"
)

// past are the sums of a problem of which some table would pass the limit. Costs
// may be too low. Each sum is made anew, in the same order: holding some variables
// only makes tables smaller.
type past struct {
	p       *Problem
	factors []factor
	order   []Var
	held    map[Var]int // gone from the factors
}

func (p *Problem) pastLimit() *past {
	return &past{p: p, factors: p.factors, order: p.eliminated(p.factors, nil).order}
}

func (s *past) total() (cost uint16, log float64) { return s.p.eliminated(s.factors, s.order).rest() }

// ruling takes variables with one value left out of the factors.
func (s *past) ruling(by ...factor) sums {
	out := &past{p: s.p, factors: slices.Clone(s.factors), order: s.order, held: map[Var]int{}}
	maps.Copy(out.held, s.held)
	for _, f := range by {
		if value, one := f.only(); one {
			out.held[f.vars[0]] = value
		} else {
			out.factors = append(out.factors, f)
		}
	}
	for i, f := range out.factors {
		for _, v := range f.vars {
			if value, held := out.held[v]; held {
				out.factors[i] = out.factors[i].fixed(v, value)
			}
		}
	}
	return out
}

// without is zero: sums past the limit are too dear to rule anything out early.
func (s *past) without(doubts []Var) []uint16 { return make([]uint16, len(doubts)) }

// only is the one value that a factor of one variable leaves possible, if there
// is just one.
func (f factor) only() (value int, one bool) {
	n := 0
	for i, c := range f.cells {
		if c.cost != never {
			value = i
			n++
		}
	}
	return value, n == 1
}

// cheapest finds an explanation of least cost: one value for each variable.
func (s *past) cheapest() (cost uint16, values []int) {
	e := s.p.eliminated(s.factors, s.order)
	cost, _ = e.rest()
	values = make([]int, len(s.p.vars))
	for v, x := range s.held {
		values[v] = x
	}
	if cost == never {
		return cost, values
	}
	for _, m := range slices.Backward(e.made) {
		values[m.v] = best(s.p, m.v, m.with, values)
	}
	return cost, values
}

// best is the value of a variable that costs least with the values of others,
// the likelier where costs are equal.
func best(p *Problem, v Var, with []factor, values []int) int {
	least, at := cell{cost: never}, 0
	for x := range p.vars[v].size() {
		values[v] = x
		c := cell{weight: 1}
		for _, f := range with {
			c = both(c, f.at(values))
		}
		if c.cost < least.cost || c.cost == least.cost && c.weight > least.weight {
			least, at = c, x
		}
	}
	return at
}

// eliminated sums out every variable, in an order known from before or, without
// one, smallest table first. It keeps what it made on the way.
func (p *Problem) eliminated(factors []factor, order []Var) *elimination {
	e := newElimination(p, factors)
	e.keep = true
	if order != nil {
		for _, v := range order {
			if len(e.in[v]) > 0 {
				e.eliminate(v)
			}
		}
		return e
	}
	for v := range p.vars {
		e.open(Var(v))
	}
	e.run(largest, func([]Var) bool { return true })
	gone := make([]bool, len(p.vars))
	for _, m := range e.made {
		e.order = append(e.order, m.v)
		gone[m.v] = true
	}
	for v := range p.vars { // what no factor bears yet
		if !gone[v] {
			e.order = append(e.order, Var(v))
		}
	}
	return e
}

// rest multiplies what is left when every variable is gone.
func (e *elimination) rest() (cost uint16, log float64) {
	log = e.log
	for _, f := range e.left() {
		c := f.cells[0]
		if c.cost == never {
			return never, math.Inf(-1)
		}
		cost += c.cost
		log += math.Log(c.weight)
	}
	return cost, log
}
