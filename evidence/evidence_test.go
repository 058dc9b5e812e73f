package evidence

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// brute weighs a question by trying every combination of answers and doubts.
func brute(p *Problem, q Var) (least int, cost []int, chance []float64) {
	n := p.vars[q].size()
	cost, chance = make([]int, n), make([]float64, n)
	for i := range cost {
		cost[i] = int(never)
	}
	sizes := make([]int, len(p.vars))
	total := 1
	for i, v := range p.vars {
		sizes[i] = v.size()
		total *= sizes[i]
	}
	values := make([]int, len(p.vars))
	sum := 0.0
	least = int(never)
	for range total {
		c := cell{weight: 1}
		for _, f := range p.factors {
			at := 0
			for k, v := range f.vars {
				at = at*f.sizes[k] + values[v]
			}
			c = both(c, f.cells[at])
		}
		if c.cost != never {
			cost[values[q]] = min(cost[values[q]], int(c.cost))
			least = min(least, int(c.cost))
			chance[values[q]] += c.weight
			sum += c.weight
		}
		step(values, sizes)
	}
	for i := range chance {
		if sum > 0 {
			chance[i] /= sum
		}
	}
	return least, cost, chance
}

// small draws a problem of a few questions and doubts with random readings.
func small(t *rapid.T) (*Problem, []Var) {
	p := &Problem{}
	var questions, all []Var
	for i := range rapid.IntRange(1, 3).Draw(t, "questions") {
		var as []Answer
		for a := range rapid.IntRange(2, 4).Draw(t, "answers") {
			as = append(as, Answer{Key: fmt.Sprint(a), Count: float64(rapid.IntRange(1, 3).Draw(t, "count"))})
		}
		questions = append(questions, p.Question(fmt.Sprint("q", i), as))
	}
	all = slices.Clone(questions)
	for i := range rapid.IntRange(1, 6).Draw(t, "doubts") {
		all = append(all, p.Doubt(Doubt{Key: fmt.Sprint("d", i), Rate: rapid.Float64Range(0.001, 0.4).Draw(t, "rate")}))
	}
	for range rapid.IntRange(1, 7).Draw(t, "readings") {
		vars := rapid.SliceOfNDistinct(rapid.SampledFrom(all), 1, min(4, len(all)), rapid.ID[Var]).Draw(t, "about")
		p.Says(func([]int) float64 {
			return rapid.SampledFrom([]float64{0, 0, 0, 0.03, 0.25, 0.6, 1}).Draw(t, "likely")
		}, vars...)
	}
	return p, questions
}

func TestWeighEqualsBruteForce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, questions := small(t)
		s := p.Solve(questions...)
		for _, q := range questions {
			got := s.Weigh(q)
			least, cost, chance := brute(p, q)
			if got.Least != least || !got.Exact {
				t.Fatalf("least %d, brute force %d", got.Least, least)
			}
			for i, a := range got.Answers {
				if a.Possible != (cost[i] != int(never)) || a.Possible && a.Cost != cost[i] {
					t.Fatalf("answer %d: cost %d possible %v, brute force %d", i, a.Cost, a.Possible, cost[i])
				}
				if math.Abs(a.Chance-chance[i]) > 1e-9 {
					t.Fatalf("answer %d: chance %g, brute force %g", i, a.Chance, chance[i])
				}
			}
		}
	})
}

// leastSets lists all least sets of doubts by trying every combination.
func leastSets(p *Problem) map[string]bool {
	sizes := make([]int, len(p.vars))
	total := 1
	for i, v := range p.vars {
		sizes[i] = v.size()
		total *= sizes[i]
	}
	values := make([]int, len(p.vars))
	found, least := map[string]bool{}, never
	for range total {
		c := cell{weight: 1}
		for _, f := range p.factors {
			at := 0
			for k, v := range f.vars {
				at = at*f.sizes[k] + values[v]
			}
			c = both(c, f.cells[at])
		}
		if c.cost < least {
			least, found = c.cost, map[string]bool{}
		}
		if c.cost == least && c.cost != never {
			key := ""
			for v, x := range values {
				if p.vars[v].doubt != nil && x == 1 {
					key += p.vars[v].key + " "
				}
			}
			found[key] = true
		}
		step(values, sizes)
	}
	return found
}

func TestLeastSetsEqualBruteForce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, questions := small(t)
		want := leastSets(p)
		got := map[string]bool{}
		sets, away := p.explain(questions[0], nil, 1000)
		for _, e := range sets {
			key := keyOf(p, e.Doubts, away)
			if got[key] || !want[key] {
				t.Fatalf("set %q comes twice or is none of %v", key, want)
			}
			got[key] = true
		}
		for k := range want { // with what is taken as true elsewhere
			if !got[k] && containsAll(k, p, away) {
				t.Fatalf("set %q is missing", k)
			}
		}
	})
}

// keyOf names a set of doubts, with those taken as true elsewhere.
func keyOf(p *Problem, doubts []Doubt, away []Var) string {
	key := ""
	for v := range p.vars {
		d := p.vars[v].doubt
		if d != nil && (slices.Contains(away, Var(v)) || slices.ContainsFunc(doubts, func(x Doubt) bool { return x.Key == d.Key })) {
			key += p.vars[v].key + " "
		}
	}
	return key
}

func containsAll(key string, p *Problem, away []Var) bool {
	return !slices.ContainsFunc(away, func(v Var) bool { return !slices.Contains(strings.Fields(key), p.vars[v].key) })
}

func TestAgainstAnswerCostsItsDepth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, questions := small(t)
		q := questions[0]
		w := p.Solve(questions...).Weigh(q)
		if w.Least == int(never) {
			return
		}
		key := w.Best().Key
		against, away := p.explain(q, p.not(q, key), 5)
		depth := w.Depth(key)
		if len(against) == 0 {
			if depth != MaxDepth {
				t.Fatalf("nothing has it false, yet depth is %d", depth)
			}
			return
		}
		if got := against[0].Cost() + len(away) - w.Least; got != depth {
			t.Fatalf("cheapest explanation against costs %d more than the least, depth is %d", got, depth)
		}
	})
}

// Addition order must not matter: same readings, same answer.
func TestOrderOfReadingsDoesNotMatter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, questions := small(t)
		turned := &Problem{vars: p.vars, byKey: p.byKey, factors: rapid.Permutation(p.factors).Draw(t, "order")}
		a, b := p.Solve(questions...).Weigh(questions[0]), turned.Solve(questions...).Weigh(questions[0])
		for i := range a.Answers {
			if a.Answers[i].Cost != b.Answers[i].Cost || math.Abs(a.Answers[i].Chance-b.Answers[i].Chance) > 1e-9 {
				t.Fatalf("answer %d: %+v and %+v", i, a.Answers[i], b.Answers[i])
			}
		}
	})
}

// A split table may only lower costs, and must say that it was split.
func TestSplitTablesGiveLowerBounds(t *testing.T) {
	p := &Problem{}
	q := p.Question("q", []Answer{{"a", 1}, {"b", 1}})
	vars := []Var{q}
	for i := range 20 {
		vars = append(vars, p.Doubt(Doubt{Key: fmt.Sprint("d", i), Rate: 0.01}))
	}
	// Every two doubts are tied: eliminating the first makes a table over all.
	for i := 1; i < len(vars); i++ {
		for j := i + 1; j < len(vars); j++ {
			p.Says(func(v []int) float64 {
				if v[0] == 1 && v[1]+v[2] == 0 {
					return 0
				}
				return 1
			}, q, vars[i], vars[j])
		}
	}
	w := p.Solve(q).Weigh(q)
	if w.Exact {
		t.Fatal("a table past the limit was called exact")
	}
	if w.Answers[0].Cost != 0 || w.Answers[1].Cost > 19 {
		t.Fatalf("costs %d and %d; exact are 0 and 19", w.Answers[0].Cost, w.Answers[1].Cost)
	}
}

func TestVerdict(t *testing.T) {
	// Two readings of one opening, each misread at 1 in 100, a misread naming
	// one of four others.
	problem := func(readings ...int) Weighed {
		p := &Problem{}
		q := p.Question("hot", []Answer{{"34", 1}, {"36", 1}, {"another", 4}})
		for i, r := range readings {
			d := p.Doubt(Doubt{Key: fmt.Sprint("reading ", i), Rate: 0.01})
			p.Says(func(v []int) float64 {
				switch {
				case v[1] == 1:
					return 0.085
				case v[0] == r:
					return 1
				}
				return 0
			}, q, d)
		}
		return p.Solve(q).Weigh(q)
	}
	for _, c := range []struct {
		name     string
		readings []int
		want     Standing
		depth    int
	}{
		{"no reading", nil, Untested, 0},
		{"one reading", []int{0}, Likely, 1},
		{"two alike", []int{0, 0}, Settled, 2},
		{"two that differ", []int{0, 1}, Clash, 0},
		{"two alike and one that differs", []int{0, 1, 0}, Likely, 1},
		{"three alike and one that differs", []int{0, 0, 1, 0}, Settled, 2},
	} {
		v := problem(c.readings...).Verdict(len(c.readings) > 0)
		if v.Standing != c.want || v.Depth != c.depth {
			t.Errorf("%s: %v, depth %d (chance of wrong %g), want %v, depth %d", c.name, v.Standing, v.Depth, v.Wrong, c.want, c.depth)
		}
	}
}
