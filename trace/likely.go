package trace

import (
	"slices"

	"asfound/evidence"
	"asfound/installation"
	"asfound/observation"
)

// oneWithHot is how often a neutral is one with the hot beside those that are
// not (assumed).
const oneWithHot = 0.05

// arrives adds the question whether the ground or neutral of a cable arrives at
// an opening: 0 it does, 1 it does not, weighted alike, and for a neutral 2: it is
// one with the hot, by a load left connected or a wrong splice, and does not go
// back to the panel. That takes a fault of its own, and weighs as one.
func (m *model) arrives(at observation.Thing, cable string, w observation.Wire) evidence.Var {
	answers := []evidence.Answer{{Key: "arrives", Count: 1}, {Key: "does not", Count: 1}, {Key: "is one with the hot", Count: oneWithHot}}
	if w == observation.EGC {
		answers = answers[:2]
	}
	return m.p.Question("arrives "+pointKey(observation.Point{At: at, Cable: cable, Wire: w}), answers)
}

// doubts adds the value doubt of a reading, the lead doubt it shares with others
// of its stop, and the doubts of joints made for it.
func (m *model) doubts(r reading, point string) []evidence.Var {
	id := r.event.ID.String()
	out := []evidence.Var{m.p.Doubt(m.valueDoubt(r.event))}
	shared := slices.ContainsFunc(r.stop.Ohms, func(e observation.Event) bool {
		return e.ID != r.event.ID && !r.event.Follows(e) && e.Body.(observation.Ohm).Reprobed != observation.Yes
	})
	if r.again || shared {
		out = append(out, m.p.Doubt(evidence.Doubt{Key: "lead " + r.stop.ID + " " + point, Kind: evidence.SetUp, Rate: m.rates.Lead,
			Words: m.words.lead(r), Of: []string{id}}))
	}
	for _, under := range r.event.Under {
		// A value comes through whatever was really joined; only an open reading may
		// be so because the join was not made.
		if e, ok := m.joints[under]; ok && r.shown.kind == showsOpen {
			out = append(out, m.p.Doubt(evidence.Doubt{Key: "joint " + under.String(), Kind: evidence.SetUp, Rate: m.rates.NotJoined,
				Words: m.words.joint(e), Of: []string{under.String()}}))
		}
	}
	return out
}

func (m *model) valueDoubt(e observation.Event) evidence.Doubt {
	return evidence.Doubt{Key: "value " + e.ID.String(), Kind: evidence.Value, Rate: m.rates.Value,
		Words: m.words.value(e), Of: []string{e.ID.String()}}
}

// conductor adds the doubt that a stop's readings of an end were taken on
// another cable of the box: letters and marks speak for the opening alone.
func (m *model) conductor(x *end, r reading) []evidence.Var {
	if len(x.opening.Cables) < 2 && x.alone {
		return nil
	}
	return []evidence.Var{m.p.Doubt(evidence.Doubt{Key: "conductor " + r.stop.ID + " " + pointKey(x.point), Kind: evidence.Place,
		Rate: m.rates.Conductor, Words: m.words.conductor(x, r), Of: []string{r.event.ID.String()}})}
}

// reading adds what one reading of an end says.
func (m *model) reading(x *end, r reading, stop stopVars) {
	bare, otherwise := m.bare(x, r)
	vars := []evidence.Var{x.question, m.elsewhere(x, r), m.arrives(x.point.At, x.point.Cable, r.other), bare}
	var puts []put
	for _, p := range x.named {
		if on, ok := r.list.putOn(p, r.event); ok {
			puts = append(puts, on)
			vars = append(vars, m.resistorAt(on, r.event))
		}
	}
	places := len(vars)
	vars = append(append(vars, stop.place), m.conductor(x, r)...)
	doubts := len(vars)
	vars = append(vars, m.doubts(r, pointKey(x.point))...)
	there := m.there(x, r)
	m.p.Says(func(v []int) float64 {
		answer, arrives := x.answers[v[0]].Key, v[2] == 0
		switch {
		case answer == keyBare && v[3] == 0:
			return 0 // every resistor is where it was noted
		case slices.Contains(v[doubts:], 1):
			return m.misread(r.shown, answer, arrives)
		case slices.Contains(v[places:doubts], 1):
			return there[v[1]](r.shown)
		case v[2] == 2:
			return truth(r.shown.kind == showsClosed)
		}
		if answer == keyBare && otherwise && arrives && r.shown.kind == showsNamed {
			return 1 / m.total // what is beside its resistor makes it read like the one named
		}
		return m.shows(x, r, answer, arrives, v[3] == 1, func(p observation.Point) bool {
			i := slices.IndexFunc(puts, func(on put) bool { return on.on == p })
			return i >= 0 && v[4+i] == 1
		})
	}, vars...)
	m.tie(x, r)
}

// shows is how likely a reading not doubted is when the end is on answer.
func (m *model) shows(x *end, r reading, answer string, arrives, bare bool, wrong func(observation.Point) bool) float64 {
	s := r.shown
	if !arrives {
		return truth(s.kind == showsOpen)
	}
	switch answer {
	case keyNothing:
		return truth(s.kind == showsOpen)
	case keyOutside:
		return truth(s.kind == showsOther || s.kind == showsClosed)
	case keyBare:
		return truth(bare && s.kind != showsNamed)
	case keyJoined:
		return truth(len(x.joined[r.event.ID]) > 0)
	case keyNear, keyFar:
		// Another conductor, whose own value no reading shows. It may bear a
		// named resistor that is not where it was noted.
		if s.kind == showsNamed && wrong(s.named) {
			return 1 / m.total
		}
		return 0
	}
	on, isBare := m.on(r, m.sources[answer], wrong)
	switch {
	case isBare:
		return truth(s.kind == showsOpen)
	case len(on) == 1:
		return truth(s.kind == showsNamed && s.named == on[0])
	}
	return truth(slices.ContainsFunc(s.pairs, func(p [2]observation.Point) bool {
		return slices.Contains(on, p[0]) && slices.Contains(on, p[1])
	}))
}

// on lists the conductors of a source that bear their resistors; bare when none
// does, because it was not on, or is not where it was noted.
func (m *model) on(r reading, src Source, wrong func(observation.Point) bool) (on []observation.Point, bare bool) {
	for _, p := range append([]observation.Point{src.At}, src.Also...) {
		if _, ok := r.list.putOn(p, r.event); ok && !wrong(p) {
			on = append(on, p)
		}
	}
	return on, len(on) == 0
}

// misread is how likely a reading that is wrong by itself shows what it did.
// Where ground or neutral does not arrive no conductor of the box shows a value,
// so that only a slip of the pen can name a circuit.
func (m *model) misread(s shown, answer string, arrives bool) float64 {
	switch s.kind {
	case showsOpen:
		return misreadOpen
	case showsOther, showsClosed:
		return misreadOther
	}
	if answer == keyFar || !arrives {
		return misreadSlip / max(m.total, m.rates.Confusable)
	}
	return misreadNamed / m.rates.Confusable
}

// elsewhere adds the question what the same conductor is on at the place where
// a stop really was, should it not have been where it is written.
func (m *model) elsewhere(x *end, r reading) evidence.Var {
	return m.p.Question("elsewhere "+r.stop.ID+" "+pointKey(x.point), m.elsewhereAnswers(x, r))
}

func (m *model) elsewhereAnswers(x *end, r reading) []evidence.Answer {
	var out []evidence.Answer
	for _, o := range x.readings {
		if o.stop == r.stop && o.shown.kind == showsNamed {
			key := pointKey(o.shown.named)
			if !slices.ContainsFunc(out, func(a evidence.Answer) bool { return a.Key == key }) {
				out = append(out, evidence.Answer{Key: key, Count: 1})
			}
		}
	}
	return append(out, evidence.Answer{Key: keyNothing, Count: 1},
		evidence.Answer{Key: "any other", Count: max(1, m.total-float64(len(out)))})
}

// there gives, for each answer of elsewhere, how likely a reading is there: a
// named conductor shows its resistor where ground or neutral arrives, which it
// does or does not, both weighted alike; nothing shows open; any other may show
// anything but what is named. Ground and neutral read closed at this stop leave
// little room for their not arriving.
func (m *model) there(x *end, r reading) []func(shown) float64 {
	arrives, missing := 0.5, 0.5
	for _, o := range x.readings {
		if o.stop == r.stop && o.other == r.other && r.event.Follows(o.event) {
			arrives, missing = 1, 1 // the reading before showed it
		}
	}
	for range m.closed(x, r.stop) {
		missing *= m.rates.Value * misreadOther
	}
	var out []func(shown) float64
	for _, a := range m.elsewhereAnswers(x, r) {
		out = append(out, func(s shown) float64 {
			switch {
			case s.kind == showsNamed:
				return arrives * truth(a.Key == pointKey(s.named))
			case s.kind == showsOpen && a.Key == keyNothing:
				return 1
			case s.kind == showsOpen:
				return missing
			}
			return truth(a.Key == "any other")
		})
	}
	return out
}

// closed counts the readings of a stop in which ground and neutral of an end's
// cable were found together.
func (m *model) closed(x *end, stop *installation.Stop) int {
	n := 0
	for _, e := range stop.Ohms {
		b := e.Body.(observation.Ohm)
		if isReturn(b.A.Wire) && isReturn(b.B.Wire) && b.A.Cable == x.point.Cable && !b.Ohm.Open && b.Ohm.Ohm <= conductorMax {
			n++
		}
	}
	return n
}

// side adds what a reading between ground and neutral says: closed when both
// arrive, else open.
func (m *model) side(c collected, s side, stops map[*installation.Stop]stopVars) {
	misread := m.p.Doubt(m.valueDoubt(s.event))
	ground := m.arrives(c.opening.Thing, s.cable, observation.EGC)
	neutral := m.arrives(c.opening.Thing, s.cable, observation.Neutral)
	m.p.Says(func(v []int) float64 {
		switch {
		case v[0] == 1 && s.shown.kind == showsClosed:
			return misreadOther
		case v[0] == 1:
			return misreadOpen
		case v[1] == 1:
			return 1 // another place: both, either or neither may arrive there
		case v[2] == 0 && v[3] == 0:
			return truth(s.shown.kind == showsClosed)
		}
		return truth(s.shown.kind != showsClosed)
	}, misread, stops[s.stop].place, ground, neutral)
}

// marks adds the room checks: when every opening of the room bore its mark, at
// least one stop of the tour was really here, unless the look was wrong.
func (m *model) marks(c collected, stops map[*installation.Stop]stopVars) {
	room := m.in.Room(c.opening.Room)
	if room == nil {
		return
	}
	for _, e := range room.Checks {
		b := e.Body.(observation.RoomCheck)
		if b.All != observation.Yes && !(b.All == observation.No && len(b.Without) > 0) || slices.Contains(b.Without, c.opening.Thing) || len(e.Under) == 0 {
			continue
		}
		var vars []evidence.Var
		for _, s := range c.opening.Stops {
			if slices.ContainsFunc(s.Ohms, func(o observation.Event) bool {
				return slices.ContainsFunc(e.Under, func(id observation.ID) bool { return slices.Contains(o.Under, id) }) && e.Follows(o)
			}) {
				vars = append(vars, stops[s].place)
			}
		}
		if len(vars) == 0 {
			continue
		}
		look := m.p.Doubt(evidence.Doubt{Key: "look " + e.ID.String() + " " + string(c.opening.Thing), Kind: evidence.Value,
			Rate: m.rates.Look, Words: m.words.look(c.opening, e), Of: []string{e.ID.String()}})
		m.p.Says(func(v []int) float64 {
			if v[0] == 0 && !slices.Contains(v[1:], 0) {
				return 0
			}
			return 1
		}, append([]evidence.Var{look}, vars...)...)
	}
}

func truth(b bool) float64 {
	if b {
		return 1
	}
	return 0
}
