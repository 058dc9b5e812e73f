package evidence

import "slices"

// Weighed is what all readings together say of one question.
type Weighed struct {
	Answers []WeighedAnswer // in the order of the question
	Least   int             // least cost of any explanation
	Exact   bool            // depths are exact; else lower bounds, and chances are not to be trusted
}

// WeighedAnswer is one answer with the least cost of an explanation in which it
// is true, and its chance, every possible answer weighted alike.
type WeighedAnswer struct {
	Answer
	Possible bool // some explanation has it, at any cost
	Cost     int
	Chance   float64
}

// Solver holds a problem made ready for several questions. A Problem may not be
// added to while a Solver of it is in use.
type Solver struct {
	p       *Problem
	weighed map[Var]factor // what all readings say of each asked question
	reduced []factor       // without it
	exact   bool
}

// Solve weighs all asked questions at once where no table passes the limit. Past
// it, it sums out all that does not tie two of them together, so that each of
// them is then cheap to weigh.
func (p *Problem) Solve(asked ...Var) *Solver {
	if s := p.sums(); s != nil {
		return &Solver{p: p, weighed: s.weigh(asked), exact: true}
	}
	return p.reduce(asked)
}

// sums are the sums of the problem as it is now, or nil when a table would pass
// the limit.
func (p *Problem) sums() *summed {
	p.known.Lock()
	defer p.known.Unlock()
	p.renew()
	return p.known.sums
}

// renew works out what is known of the problem once more if it has grown.
func (p *Problem) renew() {
	if p.known.of == len(p.factors) {
		return
	}
	p.known.of, p.known.sums, p.known.start = len(p.factors), nil, nil
	if order, within := p.order(); within {
		p.known.sums = newTree(p, order).sum()
	}
}

// reduce is Solve past the limit.
func (p *Problem) reduce(asked []Var) *Solver {
	e := newElimination(p, p.factors)
	for v := range p.vars {
		if !slices.Contains(asked, Var(v)) {
			e.open(Var(v))
		}
	}
	const small = 4096
	e.run(small, func(joined []Var) bool {
		n := 0
		for _, v := range joined {
			if slices.Contains(asked, v) {
				n++
			}
		}
		return n <= 1
	})
	return &Solver{p: p, reduced: e.left(), exact: e.exact}
}

// Weigh weighs the answers of one asked question.
func (s *Solver) Weigh(q Var) Weighed {
	table, exact := s.weighed[q], true
	if s.weighed == nil {
		table, exact = s.p.marginal(s.reduced, q)
	}
	out := Weighed{Answers: make([]WeighedAnswer, len(s.p.vars[q].answers)), Exact: s.exact && exact}
	least, sum := never, 0.0
	for _, c := range table.cells {
		least = min(least, c.cost)
		sum += c.weight
	}
	out.Least = int(least)
	for i, a := range s.p.vars[q].answers {
		c := table.cells[i]
		out.Answers[i] = WeighedAnswer{Answer: a, Possible: c.cost != never, Cost: int(c.cost)}
		if sum > 0 {
			out.Answers[i].Chance = c.weight / sum
		}
	}
	return out
}

// marginal sums out all but v.
func (p *Problem) marginal(factors []factor, v Var) (factor, bool) {
	e := newElimination(p, factors)
	for w := range p.vars {
		if Var(w) != v {
			e.open(Var(w))
		}
	}
	e.run(largest, func([]Var) bool { return true })
	return product(e.left(), []Var{v}, []int{p.vars[v].size()}), e.exact
}

// Best is the answer with the least cost, the likelier among equals.
func (w Weighed) Best() WeighedAnswer {
	best := w.Answers[0]
	for _, a := range w.Answers[1:] {
		if a.Possible && (!best.Possible || a.Cost < best.Cost || a.Cost == best.Cost && a.Chance > best.Chance) {
			best = a
		}
	}
	return best
}

// Depth is the least cost of an explanation in which the answer is false, less
// the least cost of all: below zero never, 0 when another answer stands as well.
// It is at most MaxDepth, which also stands for "no explanation has it false".
func (w Weighed) Depth(key string) int {
	other := w.Least + MaxDepth
	for _, a := range w.Answers {
		if a.Possible && (a.Key != key || a.Count > 1) {
			other = min(other, a.Cost)
		}
	}
	return other - w.Least
}

// MaxDepth is how far depth is told; beyond it nothing changes for the person.
const MaxDepth = 9

// Standing are the answers that need no more doubts than the least.
func (w Weighed) Standing() []WeighedAnswer {
	var out []WeighedAnswer
	for _, a := range w.Answers {
		if a.Possible && a.Cost == w.Least {
			out = append(out, a)
		}
	}
	return out
}
