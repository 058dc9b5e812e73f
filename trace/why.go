package trace

import (
	"sync"

	"asfound/evidence"
	"asfound/observation"
)

// mostSets is how many least sets of doubts are listed.
const mostSets = 6

// Against lists the least sets of doubts, beyond what must be doubted anyway,
// under which the line's answer is false. None means that nothing on record
// allows it to be false. They are worked out once, when first asked for.
func (l *Line) Against() []evidence.Explanation {
	if l.mirrors != nil {
		return l.mirrors.Against()
	}
	x := l.group.end(l.End)
	if x == nil {
		return nil
	}
	l.against.Do(func() {
		l.against.sets = l.group.problem.AgainstAnswer(x.question, l.Verdict.Best.Key, mostSets)
	})
	return l.against.sets
}

// against is what Line.Against has worked out.
type against struct {
	sync.Once
	sets []evidence.Explanation
}

// FalseOnlyIf says in one sentence what would have to be wrong for the line to
// be false, by the cheapest explanation.
func (l *Line) FalseOnlyIf() string {
	switch l.Verdict.Standing {
	case evidence.Untested:
		if l.lacks != "" {
			return "What was read here counts for nothing yet."
		}
		return "Nothing was read here."
	case evidence.Undecided, evidence.Clash:
		return "Another answer stands as well."
	}
	sets := l.Against()
	if len(sets) == 0 {
		return "Nothing on record allows it to be false."
	}
	var parts []string
	for _, d := range sets[0].Doubts {
		parts = append(parts, d.Words)
	}
	if len(parts) == 0 {
		return "It is false if the end is on something no reading has named."
	}
	head := "False only if " + number(len(parts)) + " mistakes were made: "
	if len(parts) == 1 {
		head = "False if one mistake was made: "
	}
	if !l.Verdict.Exact {
		head = "False only if at least " + number(len(parts)) + " mistakes were made, such as: "
	}
	out := head + listed(parts) + "."
	if l.Verdict.Standing == evidence.Likely && l.Verdict.Depth >= evidence.SettledDepth && l.lacks == "" {
		out += " Together the ways for that are still too likely."
	}
	return out
}

// Lacks says what keeps the line from being settled; empty when it is.
func (l *Line) Lacks() string {
	if l.lacks != "" {
		return l.lacks
	}
	if l.Silent && !l.firm() {
		return "Its other end found: put a resistor on one end of each such cable and read it at the other."
	}
	v := l.Verdict
	switch v.Standing {
	case evidence.Settled:
		return ""
	case evidence.Untested:
		return "A reading."
	case evidence.Clash:
		return "Some reading is wrong; one more decides which."
	case evidence.Undecided:
		return "Another reading that tells the answers apart."
	}
	if weak := l.weakest(); weak != "" {
		return weak
	}
	return "Another reading: too much rests on few."
}

// weakest names what the likeliest single way to be false is made of.
func (l *Line) weakest() string {
	sets := l.Against()
	best, most := -1, 0.0
	for i, s := range sets {
		if s.Chance > most {
			best, most = i, s.Chance
		}
	}
	if best < 0 {
		return ""
	}
	for _, d := range sets[best].Doubts {
		switch d.Kind {
		case evidence.Change:
			return "The resistor read back once more before it is taken off."
		case evidence.SetUp:
			return "The resistor read back blind at the panel."
		case evidence.Place:
			return "A look around the room for marks, or a second visit: the place could be another."
		}
	}
	return "One more reading here, with both leads lifted first."
}

// end is the end of the group at a point, or nil.
func (g *group) end(p observation.Point) *end { return g.at[p] }
