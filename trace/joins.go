package trace

import (
	"cmp"
	"fmt"
	"slices"

	"asfound/evidence"
	"asfound/installation"
	"asfound/observation"
	"asfound/pattern"
	"asfound/quantity"
)

// JoinedGroups lists the spaces of a panel found joined with each other, each
// group and its members ascending.
func (t *Trace) JoinedGroups(panel observation.Thing) [][]int {
	var j pattern.Joins[int]
	for _, x := range t.Joins {
		if x.Panel == panel && x.Bar == "" && x.Kind == Joined && (x.Verdict.Standing == evidence.Likely || x.Verdict.Standing == evidence.Settled) {
			j.Add(x.A, x.B)
		}
	}
	return j.Groups()
}

// kindOf sorts an isolation reading: up to 1 ohm a join, up to 1,000 ohms a
// load between them, else apart (thresholds assumed).
func kindOf(r quantity.Resistance) JoinKind {
	switch {
	case r.Open || r.Ohm > loadPathUpTo:
		return Apart
	case r.Ohm <= loadPathAbove:
		return Joined
	}
	return LoadPath
}

// pairOf is two terminals of a panel: b is 0 against a bar.
type pairOf struct {
	a, b int
	bar  observation.Against
}

// joins works out what lies between each two terminals that some reading
// singles out. Readings against several at once count where they say open,
// since then none of them is joined; a hit among several is narrowed first.
func joins(in *installation.Installation, rates Rates) []*Join {
	var out []*Join
	for _, panel := range in.Panels {
		read := isolations(in, panel)
		for _, pair := range singled(read) {
			out = append(out, joinOf(panel, read, pair, rates, words{in}))
		}
	}
	return out
}

// isolations lists the readings of a panel's isolation test that count: those
// taken with the panel still dead.
func isolations(in *installation.Installation, panel *installation.Panel) []observation.Event {
	return slices.DeleteFunc(slices.Clone(panel.Isolations), func(e observation.Event) bool { return in.PoweredAt(panel, e) })
}

func singled(read []observation.Event) []pairOf {
	var out []pairOf
	for _, e := range read {
		i := e.Body.(observation.Isolation)
		pair := pairOf{bar: i.Against}
		switch {
		case i.Against == observation.AgainstSpaces && len(i.A) == 1 && len(i.B) == 1:
			pair = pairOf{a: min(i.A[0], i.B[0]), b: max(i.A[0], i.B[0])}
		case i.Against != observation.AgainstSpaces && len(i.A) == 1:
			pair.a = i.A[0]
		default:
			continue
		}
		if !slices.Contains(out, pair) {
			out = append(out, pair)
		}
	}
	slices.SortFunc(out, func(x, y pairOf) int {
		return cmp.Or(cmp.Compare(x.a, y.a), cmp.Compare(x.b, y.b), cmp.Compare(x.bar, y.bar))
	})
	return out
}

func joinOf(panel *installation.Panel, read []observation.Event, pair pairOf, rates Rates, w words) *Join {
	j := &Join{Panel: panel.Thing, A: pair.a, B: pair.b, Bar: pair.bar}
	if pair.b > 0 {
		j.Cross = observation.No
		if Leg(pair.a) != Leg(pair.b) {
			j.Cross = observation.Yes
		}
	}
	kinds := []JoinKind{Apart, Joined, LoadPath}
	p := &evidence.Problem{}
	q := p.Question("between", []evidence.Answer{{Key: string(Apart), Count: 1}, {Key: string(Joined), Count: 1}, {Key: string(LoadPath), Count: 1}})
	for _, e := range read {
		i := e.Body.(observation.Isolation)
		alone, covers := pair.coveredBy(i)
		seen := kindOf(i.Ohm)
		if !covers || !alone && seen != Apart {
			continue
		}
		if seen == Apart && i.SwitchesOn != observation.Yes {
			continue // a join through an open wall switch cannot be seen
		}
		d := p.Doubt(isolationDoubt(e, rates))
		p.Says(func(v []int) float64 {
			if v[1] == 1 {
				return misreadOther
			}
			return truth(kinds[v[0]] == seen)
		}, q, d)
		j.RestsOn = append(j.RestsOn, e.ID)
	}
	j.Verdict = p.Solve(q).Weigh(q).Verdict(true)
	j.Kind = JoinKind(j.Verdict.Best.Key)
	return j
}

func isolationDoubt(e observation.Event, rates Rates) evidence.Doubt {
	return evidence.Doubt{Key: "value " + e.ID.String(), Kind: evidence.Value, Rate: rates.Isolation,
		Words: fmt.Sprintf("the isolation reading of %s at %s was misread", e.Body.(observation.Isolation).Ohm, clock(e)), Of: []string{e.ID.String()}}
}

// coveredBy reports whether a reading lies between the two terminals, and
// whether it lies between these alone.
func (p pairOf) coveredBy(i observation.Isolation) (alone, covers bool) {
	if p.bar != "" {
		return len(i.A) == 1, i.Against == p.bar && slices.Contains(i.A, p.a)
	}
	covers = slices.Contains(i.A, p.a) && slices.Contains(i.B, p.b) || slices.Contains(i.A, p.b) && slices.Contains(i.B, p.a)
	return len(i.A) == 1 && len(i.B) == 1, covers
}

// Leg is the leg of the supply a space is on in a panel with two legs, where
// the rows take turns: 0 for the first row. Common practice, no source.
func Leg(space int) int { return (space - 1) / 2 % 2 }
