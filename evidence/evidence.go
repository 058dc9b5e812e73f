// Package evidence says how firmly a statement stands on readings that may
// each be wrong.
//
// A Problem holds questions (unknowns with a few possible answers), doubts
// (things that can be wrong, each costing one) and what each reading says: how
// likely it is under each answer when its doubts are true or false. An
// explanation is an answer to every question together with the doubts taken as
// true, such that no reading is impossible; its cost is the number of doubts.
// The depth of an answer is the least cost of an explanation in which it is
// false, less the least cost of all. From the same tables comes the chance of
// its being wrong, every possible answer weighted alike.
//
// Both are exact, by eliminating one unknown after another, as long as no table
// grows past a limit; past it the depth is a lower bound and says so. The
// package knows nothing of wiring, and habit has no way in: a Problem takes no
// prior but the count of answers that an answer stands for.
//
// Start with Problem, then Weigh and Standing.
package evidence

import (
	"fmt"
	"sync"
)

// DoubtKind says what sort of thing can be wrong.
type DoubtKind int

// The kinds of doubt. A Value is one reading's own; a Place is shared by the
// readings of a stop, a SetUp by all readings under it; a Change is something
// moved in between.
const (
	Value DoubtKind = iota
	Place
	SetUp
	Change
)

func (k DoubtKind) String() string {
	return [...]string{"value", "place", "set-up", "change"}[k]
}

// Doubt is one thing that can be wrong.
type Doubt struct {
	Key   string // names it within the job
	Kind  DoubtKind
	Rate  float64 // how often such a thing is wrong, above 0 and below 1/2
	Words string  // completes "false only if ...": "the reading of 10:32 was misread"
	Of    []string
}

// Answer is one possible answer to a question. Count is how many physically
// possible answers it stands for: 1 for a named one, more for a class of
// answers that no reading tells apart.
type Answer struct {
	Key   string
	Count float64
}

// Var names a question or a doubt within its Problem.
type Var int

// Problem collects questions, doubts and what readings say of them. The zero
// value is empty and ready for use.
type Problem struct {
	vars    []variable
	factors []factor
	byKey   map[string]Var
	known   known
}

// known is what is worked out once for so many factors.
type known struct {
	sync.Mutex
	of    int
	sums  *summed // nil when a table would pass the limit
	start *listing
}

type variable struct {
	key     string
	answers []Answer // of a question; nil for a doubt
	doubt   *Doubt
}

func (v variable) size() int {
	if v.doubt != nil {
		return 2
	}
	return len(v.answers)
}

// Question adds an unknown with its possible answers. Keys are unique within
// the problem; asking again for a key returns the first.
func (p *Problem) Question(key string, answers []Answer) Var {
	if v, ok := p.Lookup(key); ok {
		return v
	}
	if len(answers) == 0 {
		panic("evidence: question without answers: " + key)
	}
	v := p.add(variable{key: key, answers: answers})
	f := newFactor([]Var{v}, []int{len(answers)})
	for i, a := range answers {
		f.cells[i] = cell{weight: a.Count}
	}
	p.factors = append(p.factors, f)
	return v
}

// Doubt adds a thing that can be wrong, or returns the one with the same key.
func (p *Problem) Doubt(d Doubt) Var {
	if v, ok := p.Lookup(d.Key); ok {
		return v
	}
	if !(d.Rate > 0 && d.Rate < 0.5) {
		panic(fmt.Sprintf("evidence: doubt %q has rate %g", d.Key, d.Rate))
	}
	v := p.add(variable{key: d.Key, doubt: &d})
	f := newFactor([]Var{v}, []int{2})
	f.cells[0] = cell{weight: 1 - d.Rate}
	f.cells[1] = cell{cost: 1, weight: d.Rate}
	p.factors = append(p.factors, f)
	return v
}

// Lookup finds a question or doubt by its key.
func (p *Problem) Lookup(key string) (Var, bool) {
	v, ok := p.byKey[key]
	return v, ok
}

func (p *Problem) add(v variable) Var {
	if p.byKey == nil {
		p.byKey = map[string]Var{}
	}
	id := Var(len(p.vars))
	p.vars = append(p.vars, v)
	p.byKey[v.key] = id
	return id
}

// Says adds what a reading says: how likely it is for each combination of the
// answers (by their index) and doubts (0 false, 1 true) of vars. Zero means
// that physics, or the record, forbids the combination.
func (p *Problem) Says(likely func(values []int) float64, vars ...Var) {
	sizes := make([]int, len(vars))
	for i, v := range vars {
		sizes[i] = p.vars[v].size()
	}
	f := newFactor(vars, sizes)
	values := make([]int, len(vars))
	for i := range f.cells {
		f.cells[i] = cellOf(likely(values))
		step(values, sizes)
	}
	p.factors = append(p.factors, f)
}

// step moves values to the next combination, the last variable fastest.
func step(values, sizes []int) {
	for i := len(values) - 1; i >= 0; i-- {
		values[i]++
		if values[i] < sizes[i] {
			return
		}
		values[i] = 0
	}
}
