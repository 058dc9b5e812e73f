package evidence

import (
	"math"
	"slices"
)

// largest is the number of entries past which a table is not made; the
// relaxation that takes its place gives lower bounds of cost.
const largest = 1 << 16

// elimination sums variables out of a set of factors one at a time.
type elimination struct {
	p       *Problem
	factors []factor // of no variables once used up
	in      [][]int  // for each variable, the factors that bear it
	size    []int    // entries of the table its elimination makes; 0 when not open
	exact   bool
	log     float64 // logarithm of what the weights were divided by
	made    []made  // the tables summed, in order; kept only when asked for
	keep    bool
	order   []Var // of elimination, once all are gone
}

// made is what stood in the tables of a variable when it was summed out.
type made struct {
	v    Var
	with []factor
}

func newElimination(p *Problem, factors []factor) *elimination {
	e := &elimination{p: p, in: make([][]int, len(p.vars)), size: make([]int, len(p.vars)), exact: true}
	for _, f := range factors {
		e.put(f)
	}
	return e
}

func (e *elimination) put(f factor) {
	if len(f.vars) == 0 && f.cells[0].cost == 0 {
		e.log += math.Log(f.cells[0].weight) // says nothing about any variable
		return
	}
	for _, v := range f.vars {
		e.in[v] = append(e.in[v], len(e.factors))
	}
	e.factors = append(e.factors, f)
}

// open marks a variable to be eliminated.
func (e *elimination) open(v Var) {
	if len(e.in[v]) > 0 {
		e.size[v] = e.p.tableSize(e.with(v))
	}
}

func (e *elimination) with(v Var) []factor {
	out := make([]factor, len(e.in[v]))
	for i, at := range e.in[v] {
		out[i] = e.factors[at]
	}
	return out
}

// run eliminates open variables, smallest table first, as long as a table is
// within limit and may is content with the variables it joins.
func (e *elimination) run(limit int, may func(joined []Var) bool) {
	refused := map[Var]bool{}
	for {
		v := Var(-1)
		for w, n := range e.size {
			if n > 0 && !refused[Var(w)] && (v < 0 || n < e.size[v]) {
				v = Var(w)
			}
		}
		if v < 0 || e.size[v] > limit && limit < largest {
			return
		}
		joined, _ := e.p.union(e.with(v))
		if !may(joined) {
			refused[v] = true
			continue
		}
		e.eliminate(v)
		clear(refused)
	}
}

// eliminate sums v out of the factors that bear it.
func (e *elimination) eliminate(v Var) {
	with := e.with(v)
	touched, _ := e.p.union(with)
	for _, at := range slices.Clone(e.in[v]) {
		for _, w := range e.factors[at].vars {
			e.in[w] = slices.DeleteFunc(slices.Clone(e.in[w]), func(i int) bool { return i == at })
		}
		e.factors[at] = factor{}
	}
	if e.keep {
		e.made = append(e.made, made{v, with})
	}
	groups := e.p.split(with)
	e.exact = e.exact && len(groups) == 1
	for _, group := range groups {
		vars, sizes := e.p.union(group)
		f := product(group, vars, sizes).without(v)
		e.log += f.scale()
		e.put(f)
	}
	e.size[v] = 0
	for _, w := range touched {
		if e.size[w] > 0 {
			e.open(w)
		}
	}
}

// left returns the factors that remain.
func (e *elimination) left() []factor {
	return slices.DeleteFunc(slices.Clone(e.factors), func(f factor) bool { return f.cells == nil })
}

// scale divides the weights so that the largest is 1, since a long product must
// not vanish, and returns the logarithm of what they were divided by.
func (f factor) scale() float64 {
	most := 0.0
	for _, c := range f.cells {
		most = max(most, c.weight)
	}
	if most == 0 {
		return 0
	}
	for i := range f.cells {
		f.cells[i].weight /= most
	}
	return math.Log(most)
}

// split groups factors so that no group's table passes the limit.
func (p *Problem) split(fs []factor) [][]factor {
	if p.tableSize(fs) <= largest {
		return [][]factor{fs}
	}
	var groups [][]factor
next:
	for _, f := range fs {
		for i := range groups {
			if p.tableSize(append(slices.Clip(groups[i]), f)) <= largest {
				groups[i] = append(groups[i], f)
				continue next
			}
		}
		groups = append(groups, []factor{f})
	}
	return groups
}

func (p *Problem) tableSize(fs []factor) int {
	n := 1
	_, sizes := p.union(fs)
	for _, s := range sizes {
		n = min(n*s, 1<<40)
	}
	return n
}

// union gives the variables of all factors, ascending, with their sizes.
func (p *Problem) union(fs []factor) (vars []Var, sizes []int) {
	for _, f := range fs {
		vars = append(vars, f.vars...)
	}
	slices.Sort(vars)
	vars = slices.Compact(vars)
	for _, v := range vars {
		sizes = append(sizes, p.vars[v].size())
	}
	return vars, sizes
}
