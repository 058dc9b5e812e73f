package pattern

import (
	"math/bits"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// locate halves until one terminal is left; joined says which have a path.
func locate(suspects []int, joined map[int]bool) (found, readings int) {
	for len(suspects) > 1 {
		read, rest := Halves(suspects)
		readings++
		if slices.ContainsFunc(read, func(terminal int) bool { return joined[terminal] }) {
			suspects = read
		} else {
			suspects = rest
		}
	}
	return suspects[0], readings
}

func TestHalvingFindsAJoin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 130).Draw(t, "terminals")
		suspects, joined := make([]int, n), map[int]bool{}
		for i := range suspects {
			suspects[i] = i
		}
		for range rapid.IntRange(1, 3).Draw(t, "joins") {
			joined[rapid.IntRange(0, n-1).Draw(t, "joined")] = true
		}
		found, readings := locate(suspects, joined)
		if !joined[found] {
			t.Fatalf("found %d, joined are %v", found, joined)
		}
		if most := bits.Len(uint(n - 1)); readings > most { // ⌈log2 n⌉
			t.Fatalf("%d readings for %d terminals, want at most %d", readings, n, most)
		}
	})
}

// TestIsolationFindsEveryJoin plays the whole panel test against a hidden truth.
func TestIsolationFindsEveryJoin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 42).Draw(t, "terminals")
		group := rapid.SliceOfN(rapid.IntRange(0, n-1), n, n).Draw(t, "super-circuit of each")
		var joins Joins[int]
		for terminal := range n {
			for {
				var others []int
				joined := map[int]bool{}
				for other := range n {
					if !joins.Same(terminal, other) {
						others = append(others, other)
						joined[other] = group[other] == group[terminal]
					}
				}
				if !slices.ContainsFunc(others, func(other int) bool { return joined[other] }) {
					break
				}
				found, _ := locate(others, joined)
				joins.Add(terminal, found)
			}
		}
		if diff := cmp.Diff(truth(group), joins.Groups()); diff != "" {
			t.Fatalf("groups (-hidden +found):\n%s", diff)
		}
	})
}

// truth lists the groups of two or more, in order.
func truth(group []int) (groups [][]int) {
	for terminal, g := range group {
		if slices.Index(group, g) != terminal {
			continue
		}
		var members []int
		for other, h := range group {
			if h == g {
				members = append(members, other)
			}
		}
		if len(members) > 1 {
			groups = append(groups, members)
		}
	}
	return groups
}

func TestJoinsForgetTheOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pair := rapid.Custom(func(t *rapid.T) [2]string {
			spaces := rapid.SampledFrom([]string{"A1-1", "A1-3", "A1-34", "B1-2", "B1-4", "C1-7"})
			return [2]string{spaces.Draw(t, "a"), spaces.Draw(t, "b")}
		})
		pairs := rapid.SliceOf(pair).Draw(t, "joins")
		var forward, backward Joins[string]
		for i := range pairs {
			forward.Add(pairs[i][0], pairs[i][1])
			last := pairs[len(pairs)-1-i]
			backward.Add(last[1], last[0])
		}
		if diff := cmp.Diff(forward.Groups(), backward.Groups()); diff != "" {
			t.Fatal(diff)
		}
		for _, p := range pairs {
			if !forward.Same(p[0], p[1]) {
				t.Fatalf("%v were joined and are apart", p)
			}
		}
	})
}

func TestNothingJoined(t *testing.T) {
	var joins Joins[string]
	if joins.Same("A1-1", "A1-3") || !joins.Same("A1-1", "A1-1") || joins.Groups() != nil {
		t.Errorf("nothing was joined: %v", joins.Groups())
	}
	if read, rest := Halves([]string{}); len(read)+len(rest) != 0 {
		t.Errorf("no suspects gave %v and %v", read, rest)
	}
}
