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

// explain walks the doubts in order, keeping each false where a least
// explanation allows it, and branching where it allows both.
func (p *Problem) explain(factors []factor, q Var, max int) []Explanation {
	least, _ := p.total(factors)
	if least == never {
		return nil
	}
	_, all := p.total(p.factors)
	var out []Explanation
	var walk func(fs []factor, from int, chosen []Doubt)
	walk = func(fs []factor, from int, chosen []Doubt) {
		if len(out) == max {
			return
		}
		for v := from; v < len(p.vars); v++ {
			d := p.vars[v].doubt
			if d == nil {
				continue
			}
			with := fix(fs, Var(v), 1)
			if cost, _ := p.total(with); cost == least {
				walk(with, v+1, append(slices.Clip(chosen), *d))
			}
			fs = fix(fs, Var(v), 0)
			if cost, _ := p.total(fs); cost != least {
				return
			}
		}
		_, log := p.total(fs)
		out = append(out, Explanation{Doubts: slices.Clone(chosen), Answer: p.answerOf(fs, q), Chance: math.Exp(log - all)})
	}
	walk(factors, 0, nil)
	return out
}

func fix(fs []factor, v Var, value int) []factor {
	out := make([]factor, len(fs))
	for i, f := range fs {
		out[i] = f.fixed(v, value)
	}
	return out
}

// total is the least cost under the factors, and the logarithm of the sum of
// the weights of all explanations.
func (p *Problem) total(factors []factor) (cost uint16, log float64) {
	e := newElimination(p, factors)
	for v := range p.vars {
		e.open(Var(v))
	}
	e.run(largest, func([]Var) bool { return true })
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

func (p *Problem) answerOf(fs []factor, q Var) string {
	t, _ := p.marginal(fs, q)
	best := 0
	for i, c := range t.cells {
		if c.cost < t.cells[best].cost || c.cost == t.cells[best].cost && c.weight > t.cells[best].weight {
			best = i
		}
	}
	return p.vars[q].answers[best].Key
}
