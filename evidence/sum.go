package evidence

import "slices"

// sumTo multiplies factors and sums all variables out but those to keep.
func sumTo(p *Problem, fs []factor, keep []Var, sizes []int) factor {
	fs = merged(p, fs)
	w := walk{keep: len(keep), vars: slices.Clone(keep)}
	for _, f := range fs {
		for _, v := range f.vars {
			if !slices.Contains(w.vars, v) {
				w.vars = append(w.vars, v)
			}
		}
	}
	w.sizes = append(slices.Clone(sizes), p.sizes(w.vars[len(keep):])...)
	w.over(fs)
	return w.all()
}

// merged multiplies factors into fewer, where that makes no table much larger
// than those it is made of: then the large table over all variables is walked
// once for few of them.
func merged(p *Problem, fs []factor) []factor {
	const (
		room  = 4   // times as large as the two tables together
		share = 4   // of the table over all variables a made one may be a quarter
		worth = 256 // entries of the table over all variables
	)
	var over []Var
	for _, f := range fs {
		over = union(over, f.vars)
	}
	full := entries(p.sizes(over))
	if len(fs) < 3 || full < worth {
		return fs
	}
	fs = slices.Clone(fs)
	slices.SortStableFunc(fs, func(a, b factor) int { return len(a.cells) - len(b.cells) })
	for i := 0; i < len(fs); i++ {
		for k := i + 1; k < len(fs); k++ {
			vars := union(fs[k].vars, fs[i].vars)
			sizes := p.sizes(vars)
			if n := entries(sizes); n > room*(len(fs[i].cells)+len(fs[k].cells)) || n*share > full {
				continue
			}
			fs[k] = multiplied([]factor{fs[k], fs[i]}, vars, sizes)
			fs[i].cells = nil
			break
		}
	}
	return slices.DeleteFunc(fs, func(f factor) bool { return f.cells == nil })
}

func union(a, b []Var) []Var {
	out := slices.Clone(a)
	for _, v := range b {
		if !slices.Contains(a, v) {
			out = append(out, v)
		}
	}
	return out
}

func entries(sizes []int) int {
	n := 1
	for _, s := range sizes {
		n = min(n*s, endless)
	}
	return n
}

// multiplied multiplies factors into one table over the variables of all.
func multiplied(fs []factor, vars []Var, sizes []int) factor {
	w := walk{keep: len(vars), vars: vars, sizes: sizes}
	w.over(fs)
	return w.all()
}

// walk goes through all values of some variables, the last fastest, and knows
// where each of some tables stands.
type walk struct {
	vars    []Var
	sizes   []int
	keep    int // how many of vars, the first ones, are kept
	values  []int
	tables  [][]cell
	at      []int // in each table
	strides []int // of each variable in each table
}

func (w *walk) over(fs []factor) {
	w.values = make([]int, len(w.vars))
	w.at = make([]int, len(fs))
	w.strides = make([]int, len(w.vars)*len(fs))
	for k, f := range fs {
		w.tables = append(w.tables, f.cells)
		stride := 1
		for i := len(f.vars) - 1; i >= 0; i-- {
			w.strides[slices.Index(w.vars, f.vars[i])*len(fs)+k] = stride
			stride *= f.sizes[i]
		}
	}
}

// all gives the table over the variables that are kept.
func (w *walk) all() factor {
	out := newFactor(w.vars[:w.keep:w.keep], w.sizes[:w.keep:w.keep])
	for i := range out.cells {
		out.cells[i] = w.sum()
		w.step(w.keep-1, 0)
	}
	return out
}

// step moves to the next values of the variables from the one at index last down
// to the one at index first; it reports whether they have not come round.
func (w *walk) step(last, first int) bool {
	for i := last; i >= first; i-- {
		strides := w.strides[i*len(w.at) : (i+1)*len(w.at)]
		w.values[i]++
		if w.values[i] < w.sizes[i] {
			for k, s := range strides {
				w.at[k] += s
			}
			return true
		}
		w.values[i] = 0
		for k, s := range strides {
			w.at[k] -= s * (w.sizes[i] - 1)
		}
	}
	return false
}

// sum adds up the products over all values of the variables that are not kept.
func (w *walk) sum() cell {
	sum := cell{cost: never}
	for {
		cost, weight := uint16(0), 1.0
		for k, t := range w.tables {
			c := &t[w.at[k]]
			if c.cost == never {
				cost = never
				break
			}
			cost += c.cost
			weight *= c.weight
		}
		if cost != never {
			sum.cost = min(sum.cost, cost)
			sum.weight += weight
		}
		if !w.step(len(w.vars)-1, w.keep) {
			return sum
		}
	}
}
