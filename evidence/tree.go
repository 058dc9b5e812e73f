package evidence

import (
	"math"
	"slices"
)

// tree is the order of summing out as a tree. A variable's node takes the factors
// that bear it and no variable summed out before, and what its children made of
// theirs; it sums the variable out and hands the rest on. One pass up and one
// down give what all factors together say of every variable.
type tree struct {
	p     *Problem
	nodes []node
	at    []int // the node of each variable; -1 of one that no factor bears
	fixed cell  // of the factors that bear no variable
}

type node struct {
	v        Var
	own      []factor
	children []int
	parent   int   // -1: what it makes bears no variable
	rest     []Var // the variables of what it makes, ascending
	sizes    []int // of rest
}

// newTree makes the tree of an order of all variables.
func newTree(p *Problem, order []Var) *tree {
	t := &tree{p: p, nodes: make([]node, len(order)), at: make([]int, len(p.vars)), fixed: cell{weight: 1}}
	for v := range t.at {
		t.at[v] = -1
	}
	for i, v := range order {
		t.nodes[i].v = v
		t.at[v] = i
	}
	for _, f := range p.factors {
		if len(f.vars) == 0 {
			t.fixed = both(t.fixed, f.cells[0])
			continue
		}
		n := &t.nodes[t.first(f.vars)]
		n.own = append(n.own, f)
	}
	for i := range t.nodes {
		t.join(i)
	}
	return t
}

// first is the earliest node of some variables.
func (t *tree) first(vars []Var) int {
	first := len(t.nodes)
	for _, v := range vars {
		first = min(first, t.at[v])
	}
	return first
}

// join works out what variables a node's table has, and so its parent.
func (t *tree) join(i int) {
	n := &t.nodes[i]
	for _, f := range n.own {
		n.rest = append(n.rest, f.vars...)
	}
	for _, c := range n.children {
		n.rest = append(n.rest, t.nodes[c].rest...)
	}
	slices.Sort(n.rest)
	n.rest = slices.DeleteFunc(slices.Compact(n.rest), func(v Var) bool { return v == n.v })
	n.sizes = t.p.sizes(n.rest)
	n.parent = -1
	if len(n.rest) > 0 {
		n.parent = t.first(n.rest)
		up := &t.nodes[n.parent]
		up.children = append(up.children, i)
	}
}

func (p *Problem) sizes(vars []Var) []int {
	out := make([]int, len(vars))
	for i, v := range vars {
		out[i] = p.vars[v].size()
	}
	return out
}

// message is what a node hands on, its weights divided so that the largest is 1.
type message struct {
	factor
	log float64 // of what they were divided by
}

// summed is a tree with what its nodes made, and what was ruled out besides.
type summed struct {
	t     *tree
	made  []*message // of each node
	ruled [][]factor // of each node, beside its own factors
}

// sum makes the pass up.
func (t *tree) sum() *summed {
	s := &summed{t: t, made: make([]*message, len(t.nodes)), ruled: make([][]factor, len(t.nodes))}
	for i := range t.nodes {
		s.make(i)
	}
	return s
}

// make sums a node's variable out of all that its node has.
func (s *summed) make(i int) {
	n := &s.t.nodes[i]
	m := &message{factor: sumTo(s.t.p, s.inputs(i), n.rest, n.sizes)}
	m.log = m.scale()
	s.made[i] = m
}

// inputs are the factors a node multiplies.
func (s *summed) inputs(i int) []factor {
	n := &s.t.nodes[i]
	out := make([]factor, 0, len(n.own)+len(s.ruled[i])+len(n.children))
	out = append(append(out, n.own...), s.ruled[i]...)
	for _, c := range n.children {
		out = append(out, s.made[c].factor)
	}
	return out
}

// ruling is s with factors of one variable each besides. Only what stands on
// them is made anew.
func (s *summed) ruling(by ...factor) sums {
	out := &summed{t: s.t, made: slices.Clone(s.made), ruled: slices.Clone(s.ruled)}
	stale := make([]bool, len(s.made))
	for _, f := range by {
		i := s.t.at[f.vars[0]]
		out.ruled[i] = append(slices.Clip(out.ruled[i]), f)
		stale[i] = true
	}
	for i, n := range s.t.nodes {
		if stale[i] {
			out.make(i)
			if n.parent >= 0 {
				stale[n.parent] = true
			}
		}
	}
	return out
}

// total is the least cost of all, and the logarithm of the weight of all.
func (s *summed) total() (cost uint16, log float64) {
	all := s.t.fixed
	for i, n := range s.t.nodes {
		log += s.made[i].log
		if n.parent < 0 {
			all = both(all, s.made[i].cells[0])
		}
	}
	if all.cost == never {
		return never, math.Inf(-1)
	}
	return all.cost, log + math.Log(all.weight)
}

// cheapest is a value for each variable, which together cost the least: from the
// last node to the first, the likelier where costs are equal.
func (s *summed) cheapest() (cost uint16, values []int) {
	values = make([]int, len(s.t.p.vars))
	if cost, _ = s.total(); cost == never {
		return cost, values
	}
	for i, n := range slices.Backward(s.t.nodes) {
		values[n.v] = best(s.t.p, n.v, s.inputs(i), values)
	}
	return cost, values
}

// weigh makes the pass down, as far as the asked variables need it, and gives
// for each what all factors together say of it.
func (s *summed) weigh(asked []Var) map[Var]factor {
	wanted := make([]bool, len(s.t.nodes))
	for _, v := range asked {
		for i := s.t.at[v]; i >= 0 && !wanted[i]; i = s.t.nodes[i].parent {
			wanted[i] = true
		}
	}
	from := make([][]factor, len(s.t.nodes)) // what all else says to each node
	for i := range slices.Backward(s.t.nodes) {
		if wanted[i] {
			if s.t.nodes[i].parent < 0 {
				from[i] = []factor{s.besides(i)}
			}
			s.down(i, wanted, from)
		}
	}
	out := map[Var]factor{}
	for _, v := range asked {
		i := s.t.at[v]
		out[v] = sumTo(s.t.p, append(s.inputs(i), from[i]...), []Var{v}, []int{s.t.p.vars[v].size()})
	}
	return out
}

// without is the least cost with each of some doubts false.
func (s *summed) without(doubts []Var) []uint16 {
	out := make([]uint16, len(doubts))
	if len(doubts) == 0 {
		return out
	}
	tables := s.weigh(doubts)
	for i, v := range doubts {
		out[i] = tables[v].cells[0].cost
	}
	return out
}

// besides is the cost of all that is not tied to a node at the top. Its weight
// says nothing.
func (s *summed) besides(top int) factor {
	all := cell{cost: s.t.fixed.cost, weight: 1}
	for i, n := range s.t.nodes {
		if n.parent < 0 && i != top {
			all = both(all, cell{cost: s.made[i].cells[0].cost, weight: 1})
		}
	}
	return factor{cells: []cell{all}}
}

// down tells the wanted children of a node what all but themselves say.
func (s *summed) down(i int, wanted []bool, from [][]factor) {
	n := &s.t.nodes[i]
	var to []int
	others := slices.Concat(n.own, s.ruled[i], from[i])
	for _, c := range n.children {
		if wanted[c] {
			to = append(to, c)
		} else {
			others = append(others, s.made[c].factor)
		}
	}
	slices.SortStableFunc(to, func(a, b int) int { return slices.Compare(s.t.nodes[a].rest, s.t.nodes[b].rest) })
	s.halve(to, others, from)
}

// halve tells each of some children what the others of them and all besides say,
// by halves: what one half says is summed up once for the other.
func (s *summed) halve(to []int, besides []factor, from [][]factor) {
	switch len(to) {
	case 0:
		return
	case 1:
		n := s.t.nodes[to[0]]
		f := sumTo(s.t.p, besides, n.rest, n.sizes)
		f.scale()
		from[to[0]] = []factor{f}
		return
	}
	for _, halves := range [][2][]int{{to[:len(to)/2], to[len(to)/2:]}, {to[len(to)/2:], to[:len(to)/2]}} {
		with := slices.Clone(besides)
		for _, c := range halves[1] {
			with = append(with, s.made[c].factor)
		}
		var keep []Var
		for _, c := range halves[0] {
			keep = append(keep, s.t.nodes[c].rest...)
		}
		slices.Sort(keep)
		keep = slices.Compact(keep)
		f := sumTo(s.t.p, with, keep, s.t.p.sizes(keep))
		f.scale()
		s.halve(halves[0], []factor{f}, from)
	}
}
