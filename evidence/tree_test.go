package evidence

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// chained draws a problem too large for brute force: questions and doubts in a
// row, each reading about a few that stand near each other.
func chained(t *rapid.T) (*Problem, []Var) {
	p := &Problem{}
	var questions, all []Var
	for i := range rapid.IntRange(2, 12).Draw(t, "stretches") {
		q := p.Question(fmt.Sprint("q", i), []Answer{{"a", 1}, {"b", 2}, {"c", float64(1 + i)}})
		questions, all = append(questions, q), append(all, q)
		for k := range rapid.IntRange(1, 3).Draw(t, "doubts") {
			all = append(all, p.Doubt(Doubt{Key: fmt.Sprint("d", i, " ", k), Rate: rapid.Float64Range(0.001, 0.4).Draw(t, "rate")}))
		}
	}
	for range rapid.IntRange(1, 40).Draw(t, "readings") {
		from := rapid.IntRange(0, len(all)-2).Draw(t, "from")
		near := all[from:min(len(all), from+5)]
		vars := rapid.SliceOfNDistinct(rapid.SampledFrom(near), 1, min(4, len(near)), rapid.ID[Var]).Draw(t, "about")
		p.Says(func([]int) float64 {
			return rapid.SampledFrom([]float64{0, 0.03, 0.25, 0.6, 1}).Draw(t, "likely")
		}, vars...)
	}
	return p, questions
}

// All questions weighed at once stand as each weighed by itself.
func TestOnePassEqualsOneSumForEachQuestion(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, questions := chained(t)
		at := p.sums()
		if at == nil {
			t.Fatal("a row of readings passes the limit")
		}
		tables := at.weigh(questions)
		for _, q := range questions {
			one, exact := p.marginal(p.factors, q)
			if !exact {
				t.Fatal("a sum by itself is not exact")
			}
			a, b := shares(tables[q]), shares(one)
			for i := range one.cells {
				if tables[q].cells[i].cost != one.cells[i].cost || math.Abs(a[i]-b[i]) > 1e-9 {
					t.Fatalf("answer %d: cost %d and %g at once, cost %d and %g by itself", i, tables[q].cells[i].cost, a[i], one.cells[i].cost, b[i])
				}
			}
		}
	})
}

// shares are the weights of a table as shares of all.
func shares(f factor) []float64 {
	sum := 0.0
	for _, c := range f.cells {
		sum += c.weight
	}
	out := make([]float64, len(f.cells))
	for i, c := range f.cells {
		if sum > 0 {
			out[i] = c.weight / sum
		}
	}
	return out
}

// What is ruled out besides, and made anew only where it matters, stands as if
// everything had been made anew.
func TestRulingEqualsMakingAllAnew(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, questions := chained(t)
		var by []factor
		for _, v := range rapid.SliceOfNDistinct(rapid.SampledFrom(all(p)), 1, 3, rapid.ID[Var]).Draw(t, "held") {
			by = append(by, p.held(v, rapid.IntRange(0, p.vars[v].size()-1).Draw(t, "at")))
		}
		cost, log := p.sums().ruling(by...).total()
		anew := &Problem{vars: p.vars, factors: slices.Concat(p.factors, by)}
		if want, wantLog := anew.sums().total(); cost != want || cost != never && math.Abs(log-wantLog) > 1e-9 {
			t.Fatalf("cost %d, weight e^%g; made anew %d, e^%g", cost, log, want, wantLog)
		}
		if want, wantLog := anew.pastLimit().total(); cost != want || cost != never && math.Abs(log-wantLog) > 1e-9 {
			t.Fatalf("cost %d, weight e^%g; one variable after another %d, e^%g", cost, log, want, wantLog)
		}
		for _, q := range questions[:1] {
			if got := len(p.Least(q, 50)) > 0 && len(p.Least(q, 50)[0].Doubts) > 0; got != p.Bears(q) {
				t.Fatalf("something that bears on the question is doubted: %v, yet the least explanation says %v", p.Bears(q), got)
			}
		}
	})
}

// Past the limit the same least sets are found, one by one, as long as no table
// was split.
func TestListingPastTheLimitFindsTheSameSets(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const many = 200
		p, questions := chained(t)
		q := questions[0]
		slow := &Problem{vars: p.vars, factors: p.factors}
		slow.begin().sums = slow.pastLimit()
		for _, besides := range [][]factor{nil, p.not(q, "a")} {
			got, away := p.explain(q, besides, many)
			want, slowAway := slow.explain(q, besides, many)
			if len(want) == many {
				return
			}
			a, b := map[string]string{}, map[string]string{}
			for _, e := range got {
				a[keyOf(p, e.Doubts, away)] = e.Answer
			}
			for _, e := range want {
				b[keyOf(p, e.Doubts, slowAway)] = e.Answer
			}
			if !slices.Equal(away, slowAway) && besides == nil {
				return // another of several cheapest explanations
			}
			if len(got) != len(want) || !maps.Equal(a, b) {
				t.Fatalf("sets %v, one by one %v", a, b)
			}
		}
	})
}

func all(p *Problem) []Var {
	out := make([]Var, len(p.vars))
	for v := range out {
		out[v] = Var(v)
	}
	return out
}
