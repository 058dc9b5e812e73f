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

// Least lists the least explanations of what was read about q, at most max of
// them, each set of doubts once, with the answer that each gives to q. Doubts
// that have nothing to do with q and are true in the cheapest explanation of
// everything are taken as true and not told again.
func (p *Problem) Least(q Var, max int) []Explanation {
	out, _ := p.explain(p.factors, q, max)
	return out
}

// AgainstAnswer lists the least explanations in which the answer to q is false,
// at most max of them, told as Least does. Empty means that no explanation has it
// false.
func (p *Problem) AgainstAnswer(q Var, key string, max int) []Explanation {
	out, _ := p.explain(p.not(q, key), q, max)
	return out
}

// not is everything, with an answer ruled out.
func (p *Problem) not(q Var, key string) []factor {
	f := newFactor([]Var{q}, []int{p.vars[q].size()})
	for i, a := range p.vars[q].answers {
		f.cells[i] = cell{weight: 1}
		if a.Key == key && a.Count <= 1 {
			f.cells[i] = cell{cost: never}
		}
	}
	return append(slices.Clone(p.factors), f)
}

// explain lists the least sets of doubts. It finds one, then looks for others
// without its first doubt, with the first and without the second, and so on:
// every other set of the same size lacks one of them.
//
// Which variable to sum out first is worked out once: holding some of them true
// or false only makes tables smaller.
func (p *Problem) explain(factors []factor, q Var, max int) (out []Explanation, away []Var) {
	order, all, base := p.begin()
	factors, away = p.apart(factors, order, base, q)
	least := never
	var search func(fs []factor, held []Var)
	search = func(fs []factor, held []Var) {
		cost, values := p.cheapest(fs, order, held)
		if len(out) == max || cost == never || least != never && cost > least {
			return
		}
		least = cost
		out = append(out, p.explanation(factors, order, values, away, q, all))
		for v, x := range values {
			if p.vars[v].doubt == nil || x == 0 || slices.Contains(held, Var(v)) {
				continue
			}
			search(fix(fs, map[Var]int{Var(v): 0}), held)
			fs, held = fix(fs, map[Var]int{Var(v): 1}), append(slices.Clip(held), Var(v))
		}
	}
	search(factors, away)
	return out, away
}

// begin works out what every listing begins with, or finds it.
func (p *Problem) begin() (order []Var, all float64, values []int) {
	p.known.Lock()
	defer p.known.Unlock()
	if p.known.order == nil || p.known.of != len(p.factors) {
		e := p.summed(p.factors, nil)
		p.known.of, p.known.order = len(p.factors), e.order
		_, p.known.all = e.rest()
		_, p.known.values = p.cheapest(p.factors, e.order, nil)
	}
	return p.known.order, p.known.all, p.known.values
}

// apart takes as true the doubts of the cheapest explanation of everything that
// do not bear on q, so that only those that do are weighed against each other;
// none of them, if that would cost more.
func (p *Problem) apart(factors []factor, order []Var, base []int, q Var) ([]factor, []Var) {
	near := p.near(q)
	at := map[Var]int{}
	var held []Var
	for v, x := range base {
		if p.vars[v].doubt != nil && x == 1 && !near[Var(v)] {
			at[Var(v)] = 1
			held = append(held, Var(v))
		}
	}
	if len(held) == 0 {
		return factors, nil
	}
	free, _ := p.cheapest(factors, order, nil)
	apart := fix(factors, at)
	if cost, _ := p.cheapest(apart, order, held); cost != free {
		return factors, nil
	}
	return apart, held
}

// near finds what bears on q: what stands in a factor with it, and what bears on
// that through factors without another question of several answers.
func (p *Problem) near(q Var) map[Var]bool {
	near := map[Var]bool{q: true}
	for grown := true; grown; {
		grown = false
		for _, f := range p.factors {
			bears, others := false, 0
			for _, v := range f.vars {
				bears = bears || near[v]
				if v != q && p.vars[v].size() > 2 {
					others++
				}
			}
			if !bears || others > 0 && !slices.Contains(f.vars, q) {
				continue
			}
			for _, v := range f.vars {
				if !near[v] && (p.vars[v].size() == 2 || slices.Contains(f.vars, q)) {
					near[v], grown = true, true
				}
			}
		}
	}
	return near
}

// explanation tells the doubts that values take as true, with the best answer
// to q under just these.
func (p *Problem) explanation(factors []factor, order []Var, values []int, away []Var, q Var, all float64) Explanation {
	var e Explanation
	doubts := map[Var]int{}
	for v, x := range values {
		if d := p.vars[v].doubt; d != nil && !slices.Contains(away, Var(v)) {
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
