package evidence

import (
	"math"
	"slices"
)

// Explanation is a set of doubts which, taken as true, leaves every reading
// possible, with the answer it gives to the question asked and its chance among
// all explanations of any cost.
type Explanation struct {
	Doubts []Doubt
	Answer string
	Chance float64
}

// Cost is the number of doubts.
func (e Explanation) Cost() int { return len(e.Doubts) }

// Least lists the least explanations of everything, at most max of them, each
// set of doubts once, with the answer that each gives to q.
func (p *Problem) Least(q Var, max int) []Explanation {
	return p.explain(p.factors, q, max)
}

// AgainstAnswer lists the least explanations in which the answer to q is false,
// at most max of them. Empty means that no explanation has it false.
func (p *Problem) AgainstAnswer(q Var, key string, max int) []Explanation {
	fs := slices.Clone(p.factors)
	f := newFactor([]Var{q}, []int{p.vars[q].size()})
	for i, a := range p.vars[q].answers {
		f.cells[i] = cell{weight: 1}
		if a.Key == key && a.Count <= 1 {
			f.cells[i] = cell{cost: never}
		}
	}
	return p.explain(append(fs, f), q, max)
}

// explain lists the least sets of doubts. It finds one, then looks for others
// without its first doubt, with the first and without the second, and so on:
// every other set of the same size lacks one of them.
//
// Which variable to sum out first is worked out once: holding some of them true
// or false only makes tables smaller.
func (p *Problem) explain(factors []factor, q Var, max int) []Explanation {
	first := p.summed(p.factors, nil)
	_, all := first.rest()
	order := first.order
	least := never
	var out []Explanation
	var search func(fs []factor, held []Var)
	search = func(fs []factor, held []Var) {
		cost, values := p.cheapest(fs, order, held)
		if len(out) == max || cost == never || least != never && cost > least {
			return
		}
		least = cost
		out = append(out, p.explanation(factors, order, values, q, all))
		for v, x := range values {
			if p.vars[v].doubt == nil || x == 0 || slices.Contains(held, Var(v)) {
				continue
			}
			search(fix(fs, map[Var]int{Var(v): 0}), held)
			fs, held = fix(fs, map[Var]int{Var(v): 1}), append(slices.Clip(held), Var(v))
		}
	}
	search(factors, nil)
	return out
}

// explanation tells the doubts that values take as true, with the best answer
// to q under just these.
func (p *Problem) explanation(factors []factor, order []Var, values []int, q Var, all float64) Explanation {
	var e Explanation
	doubts := map[Var]int{}
	for v, x := range values {
		if d := p.vars[v].doubt; d != nil {
			doubts[Var(v)] = x
			if x == 1 {
				e.Doubts = append(e.Doubts, *d)
			}
		}
	}
	factors = fix(factors, doubts)
	_, log := p.summed(factors, order).rest()
	e.Chance = math.Exp(log - all)
	e.Answer = p.answerOf(factors, order, q)
	return e
}

// fix holds variables at values, and so takes them out of the factors.
func fix(fs []factor, at map[Var]int) []factor {
	out := slices.Clone(fs)
	for i, f := range out {
		for _, v := range f.vars {
			if value, held := at[v]; held {
				out[i] = out[i].fixed(v, value)
			}
		}
	}
	return out
}

// cheapest finds an explanation of least cost: one value for each variable.
// The doubts in held are true already and gone from the factors; cost counts
// them, as does the constant that fixing them left.
func (p *Problem) cheapest(factors []factor, order, held []Var) (cost uint16, values []int) {
	e := p.summed(factors, order)
	cost, _ = e.rest()
	values = make([]int, len(p.vars))
	for _, v := range held {
		values[v] = 1
	}
	if cost == never {
		return cost, values
	}
	for _, m := range slices.Backward(e.made) {
		best := cell{cost: never}
		at := 0
		for x := range p.vars[m.v].size() {
			values[m.v] = x
			c := cell{weight: 1}
			for _, f := range m.with {
				c = both(c, f.at(values))
			}
			if c.cost < best.cost || c.cost == best.cost && c.weight > best.weight {
				best, at = c, x
			}
		}
		values[m.v] = at
	}
	return cost, values
}

// summed eliminates every variable, in an order known from before or, without
// one, smallest table first. It keeps what it made on the way.
func (p *Problem) summed(factors []factor, order []Var) *elimination {
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

func (p *Problem) answerOf(fs []factor, order []Var, q Var) string {
	e := p.summed(fs, slices.DeleteFunc(slices.Clone(order), func(v Var) bool { return v == q }))
	t := product(e.left(), []Var{q}, []int{p.vars[q].size()})
	best := 0
	for i, c := range t.cells {
		if c.cost < t.cells[best].cost || c.cost == t.cells[best].cost && c.weight > t.cells[best].weight {
			best = i
		}
	}
	return p.vars[q].answers[best].Key
}
