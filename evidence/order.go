package evidence

import (
	"container/heap"
	"math/bits"
)

// order is the order in which to sum out all variables that some factor bears:
// the one that makes the smallest table first, the earliest among equals. It is not within the limit
// when some table would pass it.
func (p *Problem) order() (order []Var, within bool) {
	o := newOrdering(p)
	for o.next.Len() > 0 {
		e := heap.Pop(&o.next).(sized)
		if o.size[e.v] != e.size {
			continue // it was put back with another size
		}
		if e.size > most {
			return nil, false
		}
		order = append(order, e.v)
		o.remove(e.v)
	}
	return order, true
}

// most is the number of entries up to which a table is summed in one piece. A
// problem with a larger one is summed one question after another instead, with
// tables split where they pass another limit.
const most = 1 << 20

// ordering knows of each variable those that share a table with it.
type ordering struct {
	p      *Problem
	beside []set
	size   []int // of the table that summing a variable out makes; 0 once it is gone
	next   queue
}

func newOrdering(p *Problem) *ordering {
	n := len(p.vars)
	o := &ordering{p: p, beside: make([]set, n), size: make([]int, n)}
	words := (n + 63) / 64
	all := make(set, n*words)
	for v := range o.beside {
		o.beside[v] = all[v*words : (v+1)*words : (v+1)*words]
	}
	for _, f := range p.factors {
		for _, v := range f.vars {
			for _, w := range f.vars {
				o.beside[v].add(w)
			}
		}
	}
	for v := range p.vars {
		if o.size[v] = o.table(Var(v)); o.size[v] > 0 {
			o.next = append(o.next, sized{Var(v), o.size[v]})
		}
	}
	heap.Init(&o.next)
	return o
}

// table is the size of the table over a variable and all beside it, as far as it
// matters: past the limit one is as bad as another. It is 0 where no factor bears
// the variable.
func (o *ordering) table(v Var) int {
	n := 0
	o.beside[v].each(func(w Var) bool {
		n = max(n, 1) * o.p.vars[w].size()
		return n < endless
	})
	return min(n, endless)
}

const endless = 1 << 40

// remove sums a variable out: all that stood beside it stand beside each other.
func (o *ordering) remove(v Var) {
	o.size[v] = 0
	o.beside[v].drop(v)
	o.beside[v].each(func(w Var) bool {
		o.beside[w].join(o.beside[v])
		o.beside[w].drop(v)
		if n := o.table(w); n != o.size[w] {
			o.size[w] = n
			heap.Push(&o.next, sized{w, n})
		}
		return true
	})
}

// set is a set of variables, a bit for each.
type set []uint64

func (s set) add(v Var)  { s[v/64] |= 1 << (v % 64) }
func (s set) drop(v Var) { s[v/64] &^= 1 << (v % 64) }

func (s set) join(other set) {
	for i, w := range other {
		s[i] |= w
	}
}

// each calls do with each variable, ascending, until it returns false.
func (s set) each(do func(Var) bool) {
	for i, w := range s {
		for ; w != 0; w &= w - 1 {
			if !do(Var(i*64 + bits.TrailingZeros64(w))) {
				return
			}
		}
	}
}

// sized is a variable with the size of the table that summing it out makes.
type sized struct {
	v    Var
	size int
}

// queue has the smallest table first, the earliest variable among equals.
type queue []sized

func (q queue) Len() int { return len(q) }
func (q queue) Less(i, j int) bool {
	return q[i].size < q[j].size || q[i].size == q[j].size && q[i].v < q[j].v
}
func (q queue) Swap(i, j int) { q[i], q[j] = q[j], q[i] }
func (q *queue) Push(x any)   { *q = append(*q, x.(sized)) }
func (q *queue) Pop() any {
	old := *q
	last := old[len(old)-1]
	*q = old[:len(old)-1]
	return last
}
