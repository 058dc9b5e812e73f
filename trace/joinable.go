package trace

import (
	"slices"

	"asfound/evidence"
	"asfound/observation"
)

// joinedPair is two circuits that, joined unnoticed, would read as a reading does,
// with what on record speaks against their being joined.
type joinedPair struct {
	of      [2]observation.Point
	against []observation.Event
}

// tooMuch is how many contradicting readings put a joined pair out of mind: no
// depth that matters reaches it.
const tooMuch = 3

// joinable finds the pairs for a reading, least contradicted first. Two resistors
// on joined conductors read side by side at the panel too, so every read-back
// that shows one of them as noted speaks against the join, as does an isolation
// reading that found the two spaces open with the wall switches on.
func (m *model) joinable(r reading) []joinedPair {
	var out []joinedPair
	for _, pair := range r.shown.pairs {
		a, okA := r.list.putOn(pair[0], r.event)
		b, okB := r.list.putOn(pair[1], r.event)
		if !okA || !okB || m.vouched(a, b)+m.vouched(b, a) >= tooMuch {
			continue
		}
		against := slices.Concat(m.backsOf(a, b), m.backsOf(b, a), m.foundApart(pair), m.openBefore(a, b), m.openBefore(b, a))
		if len(against) < tooMuch {
			out = append(out, joinedPair{pair, against})
		}
	}
	slices.SortStableFunc(out, func(a, b joinedPair) int { return len(a.against) - len(b.against) })
	return out
}

// few reports whether each pair of a reading is an answer of its own.
func (r reading) few() bool { return r.shown.kind == showsOther && len(r.shown.pairs) <= mostPairs }

// backsOf lists the read-backs that show x as noted although y was on.
func (m *model) backsOf(x, y put) []observation.Event {
	events, same := m.backs(x)
	var out []observation.Event
	for i, e := range events {
		if same[i] && e.Follows(y.event) {
			out = append(out, e)
		}
	}
	return out
}

// vouched counts what backsOf lists.
func (m *model) vouched(x, y put) int {
	events, same := m.backs(x)
	n := 0
	for i, e := range events {
		if same[i] && e.Follows(y.event) {
			n++
		}
	}
	return n
}

// openBefore lists the open readings of the conductor x is on, from before x was
// put on it and after y was on: joined, it would have shown y.
func (m *model) openBefore(x, y put) []observation.Event {
	o := m.in.Opening(x.on.At)
	if o == nil {
		return nil
	}
	var out []observation.Event
	for _, s := range o.Stops {
		for _, e := range s.Ohms {
			if b := e.Body.(observation.Ohm); b.A == x.on && b.B.Wire == observation.EGC && b.Ohm.Open && x.event.Follows(e) && e.Follows(y.event) {
				out = append(out, e)
			}
		}
	}
	return out
}

// foundApart lists the isolation readings that found two spaces apart.
func (m *model) foundApart(pair [2]observation.Point) []observation.Event {
	panel := m.in.Panel(pair[0].At)
	if panel == nil || pair[1].At != pair[0].At {
		return nil
	}
	between := pairOf{a: min(pair[0].Space, pair[1].Space), b: max(pair[0].Space, pair[1].Space)}
	var out []observation.Event
	for _, e := range isolations(m.in, panel) {
		i := e.Body.(observation.Isolation)
		if _, covers := between.coveredBy(i); covers && kindOf(i.Ohm) != Joined && i.SwitchesOn == observation.Yes {
			out = append(out, e)
		}
	}
	return out
}

// tie ties the answers that two circuits are joined unnoticed to what would have
// to be wrong for them. Where many pairs fit, the one least contradicted stands
// for all.
func (m *model) tie(x *end, r reading) {
	for i, pair := range x.joined[r.event.ID] {
		key := pairKey(pair.of)
		if !r.few() {
			key = keyJoined
		}
		at := slices.IndexFunc(x.answers, func(a evidence.Answer) bool { return a.Key == key })
		if at < 0 || len(pair.against) == 0 || key == keyJoined && i > 0 {
			continue
		}
		vars := []evidence.Var{x.question}
		for _, e := range pair.against {
			vars = append(vars, m.contradiction(e))
		}
		m.p.Says(func(v []int) float64 { return truth(v[0] != at || !slices.Contains(v[1:], 0)) }, vars...)
	}
}

// contradiction is the doubt of a reading that speaks against a join.
func (m *model) contradiction(e observation.Event) evidence.Var {
	switch e.Body.(type) {
	case observation.ReadBack:
		return m.backDoubt(e)
	case observation.Ohm:
		return m.p.Doubt(m.valueDoubt(e))
	}
	return m.p.Doubt(isolationDoubt(e, m.rates))
}

// bare adds the question whether some resistor of the list is not on the circuit
// where it was noted, or does not read as noted, so that an end on that circuit
// shows another value or none: the resistor that the fewest read-backs vouch for
// stands for all, one that was read back as the value read here before any.
func (m *model) bare(x *end, r reading) (v evidence.Var, otherwise bool) {
	least, found := put{}, 0
	none := true
	for _, p := range r.list.puts {
		on, ok := r.list.putOn(p.on, r.event)
		if !ok || slices.Contains(x.named, p.on) || !on.atPanel() {
			continue
		}
		_, same := m.backs(on)
		n := 0
		for _, s := range same {
			if s {
				n++
			}
		}
		if !m.readAfter(on, r.event) {
			n = 0 // moved since, and nobody would know
		}
		if r.shown.kind == showsNamed && m.readLike(on, r.shown.named) {
			n = -1 // a load or leak beside it, or another resistor
		}
		if none || n < found {
			least, found, none = on, n, false
		}
	}
	if none {
		return m.p.Question("bare of none", []evidence.Answer{{Key: "right", Count: 1}}), false
	}
	return m.resistorAt(least, r.event), found < 0
}
