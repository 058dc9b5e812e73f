package trace

import (
	"slices"
	"strconv"

	"asfound/evidence"
	"asfound/installation"
	"asfound/observation"
	"asfound/pattern"
)

// The keys of answers that name no conductor.
const (
	keyNear    = "another of the circuits that a misread is likely to name"
	keyFar     = "another circuit of the tour"
	keyNothing = "nothing of the tour"
	keyOutside = "something not on the list"
	keyBare    = "a circuit whose resistor is not on it"
	keyJoined  = "two circuits joined unnoticed"
)

// model turns the readings of a group of openings into a problem of evidence.
//
// For each conductor end there is a question, what its other end is on; for
// each stop a place doubt and, should it be true, a question what the other
// place is on; for each resistor a question whether it is where it was noted.
// A reading not doubted must agree with physics: a resistor on the conductor
// shows, with ground or neutral arriving; else the reading is open.
type model struct {
	in      *installation.Installation
	rates   Rates
	words   words
	p       *evidence.Problem
	sources map[string]Source
	total   float64                              // physically possible answers: conductors of the tours
	joints  map[observation.ID]observation.Event // live ones
	backed  map[observation.ID]backing           // by resistor, once asked for
	alone   map[observation.ID]*list             // of each tour by itself
	shares  func(*installation.Opening) float64
}

func pointKey(p observation.Point) string {
	return string(p.At) + "/" + strconv.Itoa(p.Space) + "/" + p.Cable + "/" + string(p.Wire)
}

// build makes the problem of a group.
func (m *model) build(cs []collected) *group {
	g := &group{problem: m.p, sources: m.sources, at: map[observation.Point]*end{}, found: map[observation.Point]clashing{}, few: map[observation.Point][]evidence.Explanation{}}
	for _, c := range cs {
		stops := m.stops(c)
		for _, x := range c.ends {
			own := *x // what was collected serves later problems too
			own.alone = len(c.ends) == 1
			m.end(&own, stops)
			g.ends = append(g.ends, &own)
			g.at[own.point] = &own
		}
		for _, s := range c.sides {
			m.side(c, s, stops)
		}
		m.marks(c, stops)
	}
	return g
}

// stopVars are the unknowns of one stop.
type stopVars struct {
	place evidence.Var
	stop  *installation.Stop
}

// stops adds the place doubt of each stop with what its check letters say.
func (m *model) stops(c collected) map[*installation.Stop]stopVars {
	out := map[*installation.Stop]stopVars{}
	for _, s := range c.opening.Stops {
		out[s] = stopVars{place: m.place(c.opening, s), stop: s}
	}
	return out
}

// place adds the place doubt of a stop. Letters that match leave it possible
// only if they did not come from the tape there; letters that do not match say
// that the place or the letters are wrong. Letters noted twice are one look.
func (m *model) place(o *installation.Opening, s *installation.Stop) evidence.Var {
	key := "place " + s.ID + " " + string(o.Thing)
	if v, again := m.p.Lookup(key); again {
		return v
	}
	place := m.p.Doubt(evidence.Doubt{Key: key, Kind: evidence.Place, Rate: m.rates.Place, Words: m.words.place(o, s), Of: ofStop(s)})
	if len(s.Letters) == 0 {
		return place
	}
	e, match := s.Letters[0], true
	for _, l := range s.Letters {
		if !pattern.LettersMatch(o.Number, l.Body.(observation.Letters).Letters) {
			e, match = l, false
		}
	}
	wrong := m.p.Doubt(evidence.Doubt{Key: "letters " + e.ID.String(), Kind: evidence.Value, Rate: m.rates.Letters,
		Words: m.words.letters(e), Of: []string{e.ID.String()}})
	elsewhere := m.shares(o)
	m.p.Says(func(v []int) float64 {
		switch {
		case match && v[0] == 0:
			return 1
		case match && v[1] == 0:
			return elsewhere
		case !match && v[0] == 0 && v[1] == 0:
			return 0
		}
		return 1
	}, place, wrong)
	return place
}

func ofStop(s *installation.Stop) []string {
	var out []string
	for _, e := range slices.Concat(s.Letters, s.Ohms) {
		out = append(out, e.ID.String())
	}
	return out
}

// end adds the question of a conductor end and its readings.
func (m *model) end(x *end, stops map[*installation.Stop]stopVars) {
	x.answers = m.answers(x)
	x.question = m.p.Question("end "+pointKey(x.point), x.answers)
	for _, r := range x.readings {
		m.reading(x, r, stops[r.stop])
	}
}

// answers lists the possible answers of an end: each named conductor, each
// named pair joined, and the classes that no reading tells apart.
func (m *model) answers(x *end) []evidence.Answer {
	var out []evidence.Answer
	add := func(key string, s Source) {
		if _, known := m.sources[key]; !known {
			m.sources[key] = s
		}
		if !slices.ContainsFunc(out, func(a evidence.Answer) bool { return a.Key == key }) {
			out = append(out, evidence.Answer{Key: key, Count: 1})
		}
	}
	for _, p := range x.named {
		add(pointKey(p), Source{Kind: kindAt(p), At: p})
	}
	x.joined = map[observation.ID][]joinedPair{}
	most := 0
	for _, r := range x.readings {
		found := m.joinable(r)
		x.joined[r.event.ID] = found
		if !r.few() {
			most = max(most, len(found))
			continue
		}
		for _, pair := range found {
			add(pairKey(pair.of), Source{Kind: kindAt(pair.of[0]), At: pair.of[0], Also: []observation.Point{pair.of[1]}})
		}
	}
	named := float64(len(out))
	if most > 0 {
		m.sources[keyJoined] = Source{Kind: Another}
		out = append(out, evidence.Answer{Key: keyJoined, Count: float64(most)})
	}
	add(keyNothing, Source{Kind: Nothing})
	add(keyOutside, Source{Kind: Outside})
	near := min(m.rates.Confusable, max(1, m.total-named))
	m.sources[keyNear], m.sources[keyFar] = Source{Kind: Another}, Source{Kind: Another}
	m.sources[keyBare] = Source{Kind: Another}
	out = append(out, evidence.Answer{Key: keyNear, Count: near}, evidence.Answer{Key: keyBare, Count: m.total})
	if far := m.total - named - near; far > 0 {
		out = append(out, evidence.Answer{Key: keyFar, Count: far})
	}
	return out
}

// kindAt is the kind of source that a conductor is: a space, or a cable end.
func kindAt(p observation.Point) SourceKind {
	if p.Space == 0 {
		return FromEnd
	}
	return FromSpace
}

func pairKey(pair [2]observation.Point) string {
	return pointKey(pair[0]) + " with " + pointKey(pair[1])
}

// resistor adds the question whether a resistor is where it was noted, with its
// set-up doubts and read-backs, and returns it. Value 0 is right, 1 wrong.
func (m *model) resistor(x put) evidence.Var {
	key := "resistor " + x.event.ID.String()
	if v, again := m.p.Lookup(key); again {
		return v
	}
	space := m.p.Doubt(evidence.Doubt{Key: "set-up " + x.event.ID.String(), Kind: evidence.SetUp, Rate: m.rates.Space,
		Words: m.words.space(x.event), Of: []string{x.event.ID.String()}})
	causes := []evidence.Var{space}
	if o := m.in.Opening(x.on.At); o != nil {
		for _, s := range stopsOf(o, x.event) {
			causes = append(causes, m.place(o, s))
		}
	}
	v := m.anyOf(key, causes)
	m.readBacks(x, v, space)
	return v
}

// resistorAt is resistor as a reading met it. A read-back after the reading
// that shows the resistor where it was noted leaves no room for its having been
// moved before; without one, a change is one more way for it to be elsewhere.
func (m *model) resistorAt(x put, reading observation.Event) evidence.Var {
	if m.readAfter(x, reading) {
		return m.resistor(x)
	}
	return m.moved(x)
}

// moved adds the question whether a resistor is where it was noted at the end.
func (m *model) moved(x put) evidence.Var {
	return m.anyOf("resistor "+x.event.ID.String()+" at the end", []evidence.Var{m.resistor(x),
		m.p.Doubt(evidence.Doubt{Key: "moved " + x.event.ID.String(), Kind: evidence.Change, Rate: m.rates.Moved,
			Words: m.words.moved(x.event), Of: []string{x.event.ID.String()}})})
}

// anyOf adds a question whose answer is wrong, value 1, if any of the causes is
// true, or returns the one with the same key.
func (m *model) anyOf(key string, causes []evidence.Var) evidence.Var {
	if v, again := m.p.Lookup(key); again {
		return v
	}
	v := m.p.Question(key, []evidence.Answer{{Key: "right", Count: 1}, {Key: "wrong", Count: 1}})
	m.p.Says(func(v []int) float64 { return truth(v[0] == slices.Max(v[1:])) }, append([]evidence.Var{v}, causes...)...)
	return v
}

// stopsOf finds the stop an event at an opening belongs to.
func stopsOf(o *installation.Opening, e observation.Event) []*installation.Stop {
	for _, s := range o.Stops {
		if e.Stop != "" && s.ID == e.Stop {
			return []*installation.Stop{s}
		}
	}
	return []*installation.Stop{{ID: e.Stop + e.ID.String(), Who: e.Who, First: e}}
}

// backs lists the read-backs where a resistor was put, with whether each shows
// it as noted. Where the record of the resistor changed, only those that follow
// the last change count.
func (m *model) backs(x put) (events []observation.Event, same []bool) {
	if b, ok := m.backed[x.event.ID]; ok {
		return b.events, b.same
	}
	var like []observation.Point
	defer func() { m.backed[x.event.ID] = backing{events, same, like} }()
	t := m.in.Tour(x.tour.ID)
	l := m.alone[t.ID]
	if l == nil {
		l = listOf([]*installation.Tour{t})
		m.alone[t.ID] = l
	}
	for _, e := range t.ReadBacks {
		b := e.Body.(observation.ReadBack)
		if b.At != x.on || x.event.Follows(e) || !x.settledFor(e) || m.in.Powered(t, e) {
			continue
		}
		s := l.read(b.Ohm)
		events, same = append(events, e), append(same, s.kind == showsNamed && s.named == x.on)
		if s.kind == showsNamed && s.named != x.on {
			like = append(like, s.named)
		}
	}
	return events, same
}

// readLike reports whether a resistor was read back with the value of another.
func (m *model) readLike(x put, other observation.Point) bool {
	m.backs(x)
	return slices.Contains(m.backed[x.event.ID].like, other)
}

// backing is what the read-backs of a resistor showed.
type backing struct {
	events []observation.Event
	same   []bool
	like   []observation.Point // others whose values some of them showed
}

// readBacks adds what was read where a resistor was put. One taken before the
// tour speaks of placing alone; one after it also of what happened since.
func (m *model) readBacks(x put, right, space evidence.Var) {
	events, sames := m.backs(x)
	for i, e := range events {
		same, b := sames[i], e.Body.(observation.ReadBack)
		about := space
		switch {
		case b.After && same:
			about = right
		case b.After:
			about = m.moved(x)
		}
		m.p.Says(func(v []int) float64 {
			wrong, misread := v[0] == 1, v[1] == 1
			switch {
			case same && !wrong, same && misread:
				return 1 // a mistake repeated shows what was noted
			case same:
				return 0
			case wrong, misread:
				return backOther
			}
			return 0
		}, about, m.backDoubt(e))
	}
}

func (m *model) backDoubt(e observation.Event) evidence.Var {
	rate := m.rates.Back
	if e.Body.(observation.ReadBack).Blind {
		rate = m.rates.BackBlind
	}
	return m.p.Doubt(evidence.Doubt{Key: "read-back " + e.ID.String(), Kind: evidence.Value, Rate: rate,
		Words: m.words.readBack(e), Of: []string{e.ID.String()}})
}

// readAfter reports whether the resistor was read back, as noted, after a
// reading: then nothing was moved before it.
func (m *model) readAfter(x put, reading observation.Event) bool {
	events, same := m.backs(x)
	for i, e := range events {
		if same[i] && e.Body.(observation.ReadBack).After && e.Follows(reading) {
			return true
		}
	}
	return false
}
