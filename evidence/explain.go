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
	out, _ := p.explain(q, nil, max)
	return out
}

// AgainstAnswer lists the least explanations in which the answer to q is false,
// at most max of them, told as Least does. Empty means that no explanation has it
// false.
func (p *Problem) AgainstAnswer(q Var, key string, max int) []Explanation {
	out, _ := p.explain(q, p.not(q, key), max)
	return out
}

// not rules an answer out.
func (p *Problem) not(q Var, key string) []factor {
	f := newFactor([]Var{q}, []int{p.vars[q].size()})
	for i, a := range p.vars[q].answers {
		f.cells[i] = cell{weight: 1}
		if a.Key == key && a.Count <= 1 {
			f.cells[i] = cell{cost: never}
		}
	}
	return []factor{f}
}

// sums of a problem, within the limit or past it.
type sums interface {
	// cheapest is the least cost of an explanation, and its values.
	cheapest() (cost uint16, values []int)
	// total is the least cost, and the logarithm of the weight of all.
	total() (cost uint16, log float64)
	// ruling has factors of one variable each besides.
	ruling(by ...factor) sums
	// without is, for each of some doubts, no more than the least cost of an
	// explanation in which it is false.
	without(doubts []Var) []uint16
}

// listing is what every listing of explanations begins with.
type listing struct {
	sums
	all    float64 // logarithm of the weight of all explanations
	values []int   // of the cheapest one
	of     [][]int // the factors that bear each variable
}

// begin works out what every listing begins with, or finds it.
func (p *Problem) begin() *listing {
	p.known.Lock()
	defer p.known.Unlock()
	p.renew()
	if p.known.start == nil {
		l := &listing{of: make([][]int, len(p.vars))}
		for i, f := range p.factors {
			for _, v := range f.vars {
				l.of[v] = append(l.of[v], i)
			}
		}
		if l.sums = p.known.sums; p.known.sums == nil {
			l.sums = p.pastLimit()
		}
		_, l.all = l.total()
		_, l.values = l.cheapest()
		p.known.start = l
	}
	return p.known.start
}

// explain lists the least sets of doubts. It finds one, then looks for others
// without its first doubt, with the first and without the second, and so on:
// every other set of the same size lacks one of them. What costs more without a
// doubt, whatever the others, is not looked into.
func (p *Problem) explain(q Var, besides []factor, max int) (out []Explanation, away []Var) {
	start := p.begin()
	apart, away := p.apart(start, besides, q)
	least := never
	var search func(s sums, held []Var)
	search = func(s sums, held []Var) {
		cost, values := s.cheapest()
		if len(out) == max || cost == never || least != never && cost > least {
			return
		}
		least = cost
		out = append(out, p.explanation(besides, values, away, q, start.all))
		var open []Var
		for v, x := range values {
			if p.vars[v].doubt != nil && x == 1 && !slices.Contains(held, Var(v)) {
				open = append(open, Var(v))
			}
		}
		var before []factor // the doubts told before, held as true
		for i, without := range s.without(open) {
			if len(out) == max {
				return
			}
			if without <= cost {
				search(s.ruling(append(slices.Clip(before), p.held(open[i], 0))...), slices.Concat(held, open[:i]))
			}
			before = append(before, p.held(open[i], 1))
		}
	}
	search(apart, away)
	return out, away
}

// held rules out all values of a variable but one.
func (p *Problem) held(v Var, value int) factor {
	f := newFactor([]Var{v}, []int{p.vars[v].size()})
	for i := range f.cells {
		f.cells[i].cost = never
	}
	f.cells[value] = cell{weight: 1}
	return f
}

// apart takes as true the doubts of the cheapest explanation of everything that
// do not bear on q, so that only those that do are weighed against each other;
// none of them, if that would cost more.
func (p *Problem) apart(start *listing, besides []factor, q Var) (sums, []Var) {
	near := p.near(q)
	s := start.ruling(besides...)
	var held []Var
	var by []factor
	for v, x := range start.values {
		if p.vars[v].doubt != nil && x == 1 && !near[v] {
			held = append(held, Var(v))
			by = append(by, p.held(Var(v), 1))
		}
	}
	if len(held) == 0 {
		return s, nil
	}
	free, _ := s.total()
	apart := s.ruling(by...)
	if cost, _ := apart.total(); cost != free {
		return s, nil
	}
	return apart, held
}

// Bears reports whether the cheapest explanation of everything doubts something
// that bears on q. If not, the one explanation that Least tells has no doubts.
func (p *Problem) Bears(q Var) bool {
	near := p.near(q)
	for v, x := range p.begin().values {
		if p.vars[v].doubt != nil && x == 1 && near[v] {
			return true
		}
	}
	return false
}

// near finds what bears on q: what stands in a factor with it, and what bears on
// that through factors without another question of several answers.
func (p *Problem) near(q Var) []bool {
	of := p.begin().of
	near := make([]bool, len(p.vars))
	near[q] = true
	for open := []Var{q}; len(open) > 0; open = open[1:] {
		for _, i := range of[open[0]] {
			vars := p.factors[i].vars
			about := slices.Contains(vars, q)
			if !about && slices.ContainsFunc(vars, func(v Var) bool { return p.vars[v].size() > 2 }) {
				continue
			}
			for _, v := range vars {
				if !near[v] && (about || p.vars[v].size() == 2) {
					near[v] = true
					open = append(open, v)
				}
			}
		}
	}
	return near
}

// explanation tells the doubts that values take as true, with the best answer
// to q under just these.
func (p *Problem) explanation(besides []factor, values []int, away []Var, q Var, all float64) Explanation {
	var e Explanation
	for v, x := range values {
		if d := p.vars[v].doubt; d != nil && x == 1 && !slices.Contains(away, Var(v)) {
			e.Doubts = append(e.Doubts, *d)
		}
	}
	var log float64
	e.Answer, log = p.under(besides, values, q)
	e.Chance = math.Exp(log - all)
	return e
}

// under is the best answer to q with every doubt held as values have it, and the
// logarithm of the weight of that.
func (p *Problem) under(besides []factor, values []int, q Var) (answer string, log float64) {
	held := &Problem{vars: p.vars}
	for _, f := range slices.Concat(p.factors, besides) {
		held.factors = append(held.factors, f.doubtless(p, values))
	}
	var cells []cell
	if s := held.sums(); s != nil {
		_, log = s.total()
		cells = s.weigh([]Var{q})[q].cells
	} else {
		_, log = held.pastLimit().total()
		table, _ := held.marginal(held.factors, q)
		cells = table.cells
	}
	best := 0
	for i, c := range cells {
		if c.cost < cells[best].cost || c.cost == cells[best].cost && c.weight > cells[best].weight {
			best = i
		}
	}
	return p.vars[q].answers[best].Key, log
}
