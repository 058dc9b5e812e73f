package trace

import (
	"crypto/sha256"
	"fmt"
	"slices"
	"strings"

	"asfound/evidence"
	"asfound/installation"
	"asfound/observation"
	"asfound/pattern"
)

// Tracer makes Traces and remembers what has not changed since the last one.
// It is not ready for use by several goroutines at once.
type Tracer struct {
	rates  Rates
	known  map[string]*group                   // solved groups by the events they rest on
	read   map[*installation.Opening]collected // what was read at an opening
	lists  map[string]*list                    // by the tours standing together
	tours  string                              // names what the lists were made of
	backed map[observation.ID]backing          // by resistor
	alone  map[observation.ID]*list            // of each tour by itself
	backs  string                              // names the read-backs these were made of
	common string                              // digest of all that every problem rests on
}

// letters counts the openings that bear each pair of check letters.
type letters map[string]int

// NewTracer returns a Tracer with the default rates.
func NewTracer() *Tracer {
	return &Tracer{rates: DefaultRates(), known: map[string]*group{}, read: map[*installation.Opening]collected{}, lists: map[string]*list{}, backed: map[observation.ID]backing{}, alone: map[observation.ID]*list{}}
}

// Trace works out all that follows from an installation.
func (tr *Tracer) Trace(in *installation.Installation) *Trace {
	tr.renew(in)
	var all []collected
	fresh := map[*installation.Opening]collected{}
	for _, o := range in.Openings {
		if len(o.Stops) == 0 {
			continue
		}
		c, ok := tr.read[o]
		if !ok {
			c = tr.collect(in, o)
		}
		fresh[o] = c
		if len(c.ends) > 0 {
			all = append(all, c)
		}
	}
	tr.read = fresh
	marks := lettersOf(in)
	known := map[string]*group{}
	t := &Trace{byEnd: map[observation.Point]*Line{}, byPlace: map[observation.Thing][]*Line{}, bySpace: map[observation.Point][]*Line{}}
	for _, cs := range grouped(beyond(in, all)) {
		key := tr.key(in, cs, marks)
		g, ok := tr.known[key]
		if !ok {
			g = tr.solve(in, cs, marks)
		}
		known[key] = g
		t.add(g)
	}
	tr.known = known
	for _, o := range in.Openings {
		t.unsure(fresh[o])
	}
	t.finish(in, tr)
	return t
}

// renew forgets what was read where the tours, or whether set-ups count, have
// changed: then readings may mean something else.
func (tr *Tracer) renew(in *installation.Installation) {
	var b strings.Builder
	fmt.Fprint(&b, in.SetUps())
	for _, t := range in.Tours {
		fmt.Fprint(&b, t.ID, t.Tour)
		for _, e := range slices.Concat(t.Resistors, t.TakenOff) {
			b.WriteString(e.ID.String() + " ")
		}
	}
	var backs strings.Builder
	for _, t := range in.Tours {
		for _, e := range t.ReadBacks {
			backs.WriteString(e.ID.String() + " ")
		}
	}
	b.WriteString(in.PowerMark())
	tours := b.String()
	if tours != tr.tours {
		clear(tr.read)
		clear(tr.lists)
	}
	if tours != tr.tours || backs.String() != tr.backs {
		clear(tr.backed)
		clear(tr.alone)
	}
	tr.tours, tr.backs = tours, backs.String()
	sum := sha256.Sum256([]byte(tours + tr.backs + panelsMark(in)))
	tr.common = string(sum[:])
}

// listAt is what was on the conductors when an event was recorded: the tours
// that it names, and every other that may have been standing.
func (tr *Tracer) listAt(in *installation.Installation, e observation.Event) *list {
	var standing []*installation.Tour
	key := ""
	for _, t := range in.Tours {
		setUp := observation.Event{ID: t.ID}
		gone := slices.ContainsFunc(t.TakenOff, e.Follows)
		later := setUp.Follows(e)
		if slices.Contains(e.Under, t.ID) || !gone && !later {
			standing = append(standing, t)
			key += t.ID.String() + " "
		}
	}
	l := tr.lists[key]
	if l == nil {
		l = listOf(standing)
		tr.lists[key] = l
	}
	return l
}

func lettersOf(in *installation.Installation) letters {
	out := letters{}
	for _, o := range in.Openings {
		out[pattern.Letters(o.Number)]++
	}
	return out
}

// key names a group by all that its problem is made of.
func (tr *Tracer) key(in *installation.Installation, cs []collected, marks letters) string {
	var b strings.Builder
	named := map[observation.Point]bool{}
	b.WriteString(tr.common)
	opening := func(o *installation.Opening, mark string) {
		fmt.Fprint(&b, mark, marks[pattern.Letters(o.Number)], " ")
		if room := in.Room(o.Room); room != nil {
			for _, e := range room.Checks {
				b.WriteString("look " + e.ID.String() + " ")
			}
		}
	}
	for _, c := range cs {
		opening(c.opening, c.mark)
		for _, x := range c.ends {
			for _, p := range x.named {
				named[p] = true
				if o := in.Opening(p.At); o != nil {
					opening(o, stopsMark(o))
				}
			}
		}
	}
	return b.String()
}

// panelsMark names the isolation readings, and the panels as people call them.
func panelsMark(in *installation.Installation) string {
	var b strings.Builder
	for _, p := range in.Panels {
		b.WriteString(p.Name + ": ")
		for _, e := range p.Isolations {
			b.WriteString(e.ID.String() + " ")
		}
	}
	return b.String()
}

// solve builds the problem of a group and weighs each of its ends.
func (tr *Tracer) solve(in *installation.Installation, cs []collected, marks letters) *group {
	m := tr.model(in, cs, marks)
	g := m.build(cs)
	g.weigh(in)
	return g
}

func (tr *Tracer) model(in *installation.Installation, cs []collected, marks letters) *model {
	conductors := map[observation.Point]bool{}
	for _, c := range cs {
		for _, x := range c.ends {
			for _, r := range x.readings {
				for _, p := range r.list.puts {
					conductors[p.on] = true
				}
			}
		}
	}
	return &model{in: in, rates: tr.rates, words: words{in}, p: &evidence.Problem{}, sources: map[string]Source{},
		total:  max(2, float64(len(conductors))),
		joints: jointsOf(in), backed: tr.backed, alone: tr.alone,
		shares: func(o *installation.Opening) float64 {
			switch {
			case len(in.Numbered(o.Number)) > 1:
				return 1 // another tape bears the same number
			case marks[pattern.Letters(o.Number)] > 1:
				return 1.0 / 169 // as many pairs of letters are there
			}
			return 0
		}}
}

func jointsOf(in *installation.Installation) map[observation.ID]observation.Event {
	out := map[observation.ID]observation.Event{}
	for _, j := range madeIn(in) {
		out[j.event.ID] = j.event
	}
	return out
}

func (g *group) weigh(in *installation.Installation) {
	var asked []evidence.Var
	for _, x := range g.ends {
		x.rests = x.restsOn(in)
		asked = append(asked, x.question)
	}
	s := g.problem.Solve(asked...)
	g.weighed = map[observation.Point]evidence.Weighed{}
	for _, x := range g.ends {
		g.weighed[x.point] = s.Weigh(x.question)
	}
}
