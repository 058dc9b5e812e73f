package evidence

import "slices"

// cell is one entry of a table: the least number of doubts with which the
// combination is possible, and the sum of the weights of all ways to it.
type cell struct {
	cost   uint16
	weight float64
}

// never is the cost of what cannot be.
const never = ^uint16(0)

func cellOf(weight float64) cell {
	if weight <= 0 {
		return cell{cost: never}
	}
	return cell{weight: weight}
}

// both is the cell of two things that hold together.
func both(a, b cell) cell {
	if a.cost == never || b.cost == never {
		return cell{cost: never}
	}
	return cell{a.cost + b.cost, a.weight * b.weight}
}

// either is the cell of two ways to one thing.
func either(a, b cell) cell {
	return cell{min(a.cost, b.cost), a.weight + b.weight}
}

// factor is a table over some variables, in ascending order, the last fastest.
type factor struct {
	vars  []Var
	sizes []int
	cells []cell
}

func newFactor(vars []Var, sizes []int) factor {
	n := 1
	for _, s := range sizes {
		n *= s
	}
	return factor{vars: vars, sizes: sizes, cells: make([]cell, n)}
}

// strides gives for each variable of over the step it makes in f's table, zero
// for variables that f lacks.
func (f factor) strides(over []Var) []int {
	out := make([]int, len(over))
	stride := 1
	for i := len(f.vars) - 1; i >= 0; i-- {
		if at := slices.Index(over, f.vars[i]); at >= 0 {
			out[at] = stride
		}
		stride *= f.sizes[i]
	}
	return out
}

// product multiplies factors into one table over the variables of all.
func product(fs []factor, vars []Var, sizes []int) factor {
	out := newFactor(vars, sizes)
	for i := range out.cells {
		out.cells[i] = cell{weight: 1}
	}
	values := make([]int, len(vars))
	for _, f := range fs {
		strides := f.strides(vars)
		clear(values)
		at := 0
		for i := range out.cells {
			out.cells[i] = both(out.cells[i], f.cells[at])
			for k := len(values) - 1; k >= 0; k-- {
				values[k]++
				at += strides[k]
				if values[k] < sizes[k] {
					break
				}
				at -= strides[k] * sizes[k]
				values[k] = 0
			}
		}
	}
	return out
}

// without sums v out of the table.
func (f factor) without(v Var) factor {
	at := slices.Index(f.vars, v)
	inner := 1
	for _, s := range f.sizes[at+1:] {
		inner *= s
	}
	size := f.sizes[at]
	out := newFactor(slices.Delete(slices.Clone(f.vars), at, at+1), slices.Delete(slices.Clone(f.sizes), at, at+1))
	for o := range out.cells {
		sum := cell{cost: never}
		from := o/inner*inner*size + o%inner
		for k := range size {
			sum = either(sum, f.cells[from+k*inner])
		}
		out.cells[o] = sum
	}
	return out
}

// fixed is the table with v held at a value, and so without it.
func (f factor) fixed(v Var, value int) factor {
	at := slices.Index(f.vars, v)
	if at < 0 {
		return f
	}
	inner := 1
	for _, s := range f.sizes[at+1:] {
		inner *= s
	}
	size := f.sizes[at]
	out := newFactor(slices.Delete(slices.Clone(f.vars), at, at+1), slices.Delete(slices.Clone(f.sizes), at, at+1))
	for o := range out.cells {
		out.cells[o] = f.cells[o/inner*inner*size+value*inner+o%inner]
	}
	return out
}

// at is the entry for the values of all variables.
func (f factor) at(values []int) cell {
	i := 0
	for k, v := range f.vars {
		i = i*f.sizes[k] + values[v]
	}
	return f.cells[i]
}

// doubtless is the table with every doubt held at its value.
func (f factor) doubtless(p *Problem, values []int) factor {
	var vars []Var
	var sizes, strides []int
	at, stride := 0, 1
	for i, v := range slices.Backward(f.vars) {
		if p.vars[v].doubt != nil {
			at += values[v] * stride
		} else {
			vars, sizes, strides = append(vars, v), append(sizes, f.sizes[i]), append(strides, stride)
		}
		stride *= f.sizes[i]
	}
	if len(vars) == len(f.vars) {
		return f
	}
	slices.Reverse(vars)
	slices.Reverse(sizes)
	slices.Reverse(strides)
	out := newFactor(vars, sizes)
	now := make([]int, len(vars))
	for i := range out.cells {
		out.cells[i] = f.cells[at]
		for k := len(now) - 1; k >= 0; k-- {
			now[k]++
			at += strides[k]
			if now[k] < sizes[k] {
				break
			}
			at -= strides[k] * sizes[k]
			now[k] = 0
		}
	}
	return out
}
