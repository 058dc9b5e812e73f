package trace

import (
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
	rates Rates
	known map[string]*group                   // solved groups by the events they rest on
	read  map[*installation.Opening]collected // what was read at an opening
	lists map[observation.ID]*list            // by tour
}

// letters counts the openings that bear each pair of check letters.
type letters map[string]int

// NewTracer returns a Tracer with the default rates.
func NewTracer() *Tracer {
	return &Tracer{rates: DefaultRates(), known: map[string]*group{}, read: map[*installation.Opening]collected{}, lists: map[observation.ID]*list{}}
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
			c = collect(o, tr.lists)
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
	for _, cs := range grouped(all) {
		key := tr.key(in, cs, marks)
		g, ok := tr.known[key]
		if !ok {
			g = tr.solve(in, cs, marks)
		}
		known[key] = g
		t.add(g)
	}
	tr.known = known
	t.finish(in, tr)
	return t
}

// renew reads the tours' resistors where they have changed; a change of what a
// tour holds makes its openings' readings mean something else.
func (tr *Tracer) renew(in *installation.Installation) {
	lists := map[observation.ID]*list{}
	changed := false
	for _, t := range in.Tours {
		old := tr.lists[t.ID]
		l := old
		if old == nil || old.tour != t {
			l = listOf(t)
			changed = changed || old == nil || !slices.Equal(old.ids(), l.ids())
		}
		lists[t.ID] = l
	}
	if changed || len(lists) != len(tr.lists) {
		clear(tr.read)
	} else {
		for id, l := range lists {
			*tr.lists[id] = *l // readings keep pointing to the list they were read with
			lists[id] = tr.lists[id]
		}
	}
	tr.lists = lists
}

func (l *list) ids() []observation.ID {
	out := make([]observation.ID, len(l.puts))
	for i, p := range l.puts {
		out[i] = p.event.ID
	}
	return out
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
	rooms := map[observation.Thing]bool{}
	lists := map[*list]bool{}
	for _, c := range cs {
		b.WriteString(c.mark)
		if marks[pattern.Letters(c.opening.Number)] > 1 {
			b.WriteString("shared ")
		}
		rooms[c.opening.Room] = true
		for _, x := range c.ends {
			for _, p := range x.named {
				named[p] = true
			}
			for _, r := range x.readings {
				lists[r.list] = true
			}
		}
	}
	for _, r := range in.Rooms {
		if rooms[r.Thing] {
			for _, e := range r.Checks {
				b.WriteString("look " + e.ID.String() + " ")
			}
		}
	}
	for _, t := range in.Tours {
		l := tr.lists[t.ID]
		if !lists[l] {
			continue
		}
		fmt.Fprint(&b, "tour ", t.ID, len(l.puts), " ")
		for _, p := range l.puts {
			if named[p.on] {
				b.WriteString(p.event.ID.String() + " ")
			}
		}
		for _, e := range t.ReadBacks {
			if named[e.Body.(observation.ReadBack).At] {
				b.WriteString("back " + e.ID.String() + " ")
			}
		}
	}
	return b.String()
}

// solve builds the problem of a group and weighs each of its ends.
func (tr *Tracer) solve(in *installation.Installation, cs []collected, marks letters) *group {
	m := tr.model(in, cs, marks)
	g := m.build(cs)
	g.weigh()
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
		shares: func(o *installation.Opening) bool { return marks[pattern.Letters(o.Number)] > 1 }}
}

func (g *group) weigh() {
	var asked []evidence.Var
	for _, x := range g.ends {
		x.rests = x.restsOn()
		asked = append(asked, x.question)
	}
	s := g.problem.Solve(asked...)
	g.weighed = map[observation.Point]evidence.Weighed{}
	for _, x := range g.ends {
		g.weighed[x.point] = s.Weigh(x.question)
	}
}
