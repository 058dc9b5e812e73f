package pattern

import (
	"cmp"
	"slices"
)

// Halves splits the terminals among which a join hides into the part to read
// against next and the rest. A path to the part read means a join is there; no path
// means it is in the rest. Starting from n terminals one join is found in at most
// ⌈log2 n⌉ readings; where several of them are joined, one is found, and the others
// by reading again without it.
func Halves[T any](suspects []T) (read, rest []T) {
	half := (len(suspects) + 1) / 2
	return suspects[:half:half], suspects[half:]
}

// Joins collects which terminals were found joined. Joined is shared: when a joins
// b and b joins c, all three are one group. The zero value is ready to use.
type Joins[T cmp.Ordered] struct {
	parent map[T]T
}

// Add records that a and b are joined; the order does not matter.
func (j *Joins[T]) Add(a, b T) {
	if j.parent == nil {
		j.parent = map[T]T{}
	}
	first, second := j.root(a), j.root(b)
	if first == second {
		return
	}
	// The smaller name leads, so that the order of adding leaves no trace.
	if second < first {
		first, second = second, first
	}
	j.parent[second] = first
}

// Same reports whether a and b are one group, or the same terminal.
func (j *Joins[T]) Same(a, b T) bool { return j.root(a) == j.root(b) }

// Groups lists every group of two or more, each in ascending order, the groups by
// their first member.
func (j *Joins[T]) Groups() [][]T {
	members := map[T][]T{}
	for terminal := range j.parent {
		members[j.root(terminal)] = append(members[j.root(terminal)], terminal)
	}
	var groups [][]T
	for first, group := range members {
		group = append(group, first)
		slices.Sort(group)
		groups = append(groups, group)
	}
	slices.SortFunc(groups, func(a, b []T) int { return cmp.Compare(a[0], b[0]) })
	return groups
}

// root walks up to the leading terminal; only terminals that follow another have a
// parent.
func (j *Joins[T]) root(terminal T) T {
	for {
		parent, follows := j.parent[terminal]
		if !follows {
			return terminal
		}
		if above, further := j.parent[parent]; further {
			j.parent[terminal] = above
		}
		terminal = parent
	}
}
