package trace

import (
	"slices"

	"asfound/installation"
	"asfound/observation"
	"asfound/pattern"
)

// PlanIsolation lists the readings of a panel's isolation test in the order to
// take them. It grows with the readings: a hit is narrowed by halves, each join
// is read twice, and its terminals are read once more against the rest.
func PlanIsolation(in *installation.Installation, panel observation.Thing) IsolationPlan {
	plan := IsolationPlan{Panel: panel}
	p := in.Panel(panel)
	if p == nil {
		return plan
	}
	test := &isolation{panel: p, branches: p.Branches()}
	for _, e := range isolations(in, p) {
		test.read = append(test.read, e.Body.(observation.Isolation))
	}
	if len(test.branches) == 0 {
		return plan
	}
	for _, b := range test.branches {
		others := test.except(b)
		if len(others) > 0 {
			plan.Lines = append(plan.Lines, test.line([]int{b}, observation.AgainstSpaces, others, ""))
		}
	}
	for _, bar := range []observation.Against{observation.AgainstNeutral, observation.AgainstEGC} {
		plan.Lines = append(plan.Lines, test.line(test.branches, bar, nil, ""))
	}
	plan.Lines = append(plan.Lines, test.beyond(plan.Lines)...)
	for _, b := range test.branches {
		plan.Lines = append(plan.Lines, test.narrow(b)...)
	}
	for _, bar := range []observation.Against{observation.AgainstNeutral, observation.AgainstEGC} {
		plan.Lines = append(plan.Lines, test.narrowBar(bar)...)
	}
	return plan
}

// Open lists the lines not taken yet.
func (p IsolationPlan) Open() []IsolationLine {
	return slices.DeleteFunc(slices.Clone(p.Lines), func(l IsolationLine) bool { return l.Taken })
}

// isolation is a panel's test as far as it has come.
type isolation struct {
	panel    *installation.Panel
	branches []int
	read     []observation.Isolation
}

func (t *isolation) except(leave ...int) []int {
	return slices.DeleteFunc(slices.Clone(t.branches), func(s int) bool { return slices.Contains(leave, s) })
}

func (t *isolation) line(a []int, against observation.Against, b []int, why string) IsolationLine {
	l := IsolationLine{A: a, Against: against, B: b, Why: why}
	t.count(a, against, b, func(r observation.Isolation) bool {
		l.Taken, l.Ohm = true, r.Ohm
		return true
	})
	return l
}

// beyond lists the readings taken beside the first round, in the order taken.
func (t *isolation) beyond(first []IsolationLine) []IsolationLine {
	var out []IsolationLine
	for _, r := range t.read {
		if !slices.ContainsFunc(first, func(l IsolationLine) bool { return l.is(r) }) {
			out = append(out, IsolationLine{A: r.A, Against: r.Against, B: r.B, Why: "narrowing", Taken: true, Ohm: r.Ohm})
		}
	}
	return out
}

// is reports whether a reading is the one this line asks for.
func (l IsolationLine) is(r observation.Isolation) bool {
	return r.Against == l.Against && (sameSet(r.A, l.A) && sameSet(r.B, l.B) ||
		l.Against == observation.AgainstSpaces && sameSet(r.A, l.B) && sameSet(r.B, l.A))
}

// count counts the readings between two sets, in either order, that match.
func (t *isolation) count(a []int, against observation.Against, b []int, match func(observation.Isolation) bool) int {
	n := 0
	for _, r := range t.read {
		if (IsolationLine{A: a, Against: against, B: b}).is(r) && (match == nil || match(r)) {
			n++
		}
	}
	return n
}

func sameSet(a, b []int) bool {
	if len(a) != len(b) {
		return false
	}
	for _, s := range a {
		if !slices.Contains(b, s) {
			return false
		}
	}
	return true
}

func joinedReading(r observation.Isolation) bool { return kindOf(r.Ohm) == Joined }

// partners lists the terminals read joined with b by themselves.
func (t *isolation) partners(b int) []int {
	var out []int
	for _, x := range t.except(b) {
		one, other := []int{b}, []int{x}
		if 2*t.count(one, observation.AgainstSpaces, other, joinedReading) > t.count(one, observation.AgainstSpaces, other, nil) {
			out = append(out, x)
		}
	}
	return out
}

// suspects lists the terminals among which the partner of a hit must be: those
// of the smallest hit, less those a reading showed apart.
func (t *isolation) suspects(b int) []int {
	var hit []int
	for _, r := range t.read {
		if r.Against == observation.AgainstSpaces && sameSet(r.A, []int{b}) && joinedReading(r) && (hit == nil || len(r.B) < len(hit)) {
			hit = r.B
		}
	}
	for _, r := range t.read {
		if r.Against == observation.AgainstSpaces && sameSet(r.A, []int{b}) && !joinedReading(r) {
			hit = slices.DeleteFunc(slices.Clone(hit), func(s int) bool { return slices.Contains(r.B, s) })
		}
	}
	if both := t.alsoHit(hit); len(both) > 0 {
		return both
	}
	return hit
}

// alsoHit keeps the terminals that were hit themselves: what is joined with a
// terminal is joined with something too, once both have been read.
func (t *isolation) alsoHit(suspects []int) []int {
	return slices.DeleteFunc(slices.Clone(suspects), func(s int) bool {
		others := t.except(s)
		return t.count([]int{s}, observation.AgainstSpaces, others, nil) > 0 && t.count([]int{s}, observation.AgainstSpaces, others, joinedReading) == 0
	})
}

// narrow gives the next readings for a terminal that was hit.
func (t *isolation) narrow(b int) []IsolationLine {
	if t.count([]int{b}, observation.AgainstSpaces, t.except(b), joinedReading) == 0 {
		return nil
	}
	partners := t.partners(b)
	if len(partners) == 0 {
		suspects := t.suspects(b)
		switch len(suspects) {
		case 0:
			return []IsolationLine{{A: []int{b}, Against: observation.AgainstSpaces, B: t.except(b), Why: "the readings of this space do not agree: read it again"}}
		case 1:
			return []IsolationLine{{A: []int{b}, Against: observation.AgainstSpaces, B: suspects, Why: "only this one is left"}}
		}
		half, _ := pattern.Halves(suspects)
		return []IsolationLine{{A: []int{b}, Against: observation.AgainstSpaces, B: half, Why: "a join is among these: half of them"}}
	}
	var out []IsolationLine
	for _, x := range partners {
		if b < x && t.count([]int{b}, observation.AgainstSpaces, []int{x}, nil) < 2 {
			out = append(out, IsolationLine{A: []int{b}, Against: observation.AgainstSpaces, B: []int{x}, Why: "a join is read twice: lift both leads first"})
		}
	}
	if rest := t.except(append(partners, b)...); len(rest) > 0 {
		if l := t.line([]int{b}, observation.AgainstSpaces, rest, "anything else joined with it?"); !l.Taken {
			out = append(out, l)
		}
	}
	return out
}

// narrowBar gives the next reading for a bar that was hit by all together: each
// conductor joined to it is singled out and read twice, then the rest is read
// against it once more.
func (t *isolation) narrowBar(bar observation.Against) []IsolationLine {
	if t.count(t.branches, bar, nil, joinedReading) == 0 {
		return nil
	}
	var found []int
	for _, b := range t.branches {
		one := []int{b}
		if n := t.count(one, bar, nil, nil); n > 0 && 2*t.count(one, bar, nil, joinedReading) > n {
			if n < 2 {
				return []IsolationLine{{A: one, Against: bar, Why: "a join is read twice: lift both leads first"}}
			}
			found = append(found, b)
		}
	}
	rest := t.except(found...)
	if len(rest) == 0 {
		return nil
	}
	if len(found) > 0 {
		if l := t.line(rest, bar, nil, "anything else on this bar?"); !l.Taken {
			return []IsolationLine{l}
		}
	}
	suspects := t.onBar(bar, rest)
	switch len(suspects) {
	case 0:
		return nil
	case 1:
		return []IsolationLine{{A: suspects, Against: bar, Why: "only this one is left"}}
	}
	half, _ := pattern.Halves(suspects)
	return []IsolationLine{{A: half, Against: bar, Why: "a path to this bar is among these: half of them"}}
}

// onBar lists the conductors of rest among which one joined to the bar must be:
// those of the smallest hit that holds none already found, less those a reading
// cleared. None when no such hit is on record.
func (t *isolation) onBar(bar observation.Against, rest []int) []int {
	within := func(a []int) bool {
		return !slices.ContainsFunc(a, func(s int) bool { return !slices.Contains(rest, s) })
	}
	var hit []int
	for _, r := range t.read {
		if r.Against == bar && joinedReading(r) && within(r.A) && (hit == nil || len(r.A) < len(hit)) {
			hit = r.A
		}
	}
	for _, r := range t.read {
		if r.Against == bar && !joinedReading(r) {
			hit = slices.DeleteFunc(slices.Clone(hit), func(s int) bool { return slices.Contains(r.A, s) })
		}
	}
	return hit
}
