package ready

import (
	"slices"

	"asfound/installation"
	"asfound/observation"
	"asfound/trace"
)

// Panel lists by what a panel can still be live when it is off. An empty list
// never comes out of a panel whose feeder is not on record.
func Panel(in *installation.Installation, tr *trace.Trace, p *installation.Panel) []Way {
	w := newWays(in, tr)
	w.unfed(p)
	w.live(func(t observation.Thing) bool { return t == p.Thing || w.holds(p, t) })
	w.feeders(in.Upstream(p.Thing), "")
	w.feeders(in.Backfeeds(p.Thing), p.Name)
	w.passing(p)
	w.cables(p)
	w.spaces(p)
	w.circuits(p)
	return w.sorted()
}

// unfed says of which panel, here or on the way here, and of which source, no
// feeder is on record.
func (w *ways) unfed(p *installation.Panel) {
	if !w.fed(p.Thing) {
		say := "What feeds panel " + p.Name + " is not on record: treat it as live"
		if p.FedFrom != "" {
			say += ". Its label says it is fed from " + p.FedFrom
		}
		w.add(Way{Sort: NotKnown, Say: say, At: p.Thing, Unfed: true})
	}
	for _, s := range w.in.Sources {
		if w.in.Unled(s.Thing) {
			w.add(Way{Sort: NotKnown, Say: "What source " + s.Name + " feeds is not on record: it may feed this panel", At: s.Thing, Of: entries(s.Story, all[observation.Source])})
		}
	}
	var said []observation.Thing
	for _, f := range w.in.Upstream(p.Thing) {
		up := w.in.Panel(f.From)
		if up == nil || up == p || w.fed(up.Thing) || slices.Contains(said, up.Thing) {
			continue
		}
		said = append(said, up.Thing)
		w.add(Way{Sort: NotKnown, Say: "What feeds panel " + up.Name + ", and through it panel " + p.Name + ", is not on record", At: up.Thing, Unfed: true})
	}
}

// fed reports whether a feeder to a panel is on record.
func (w *ways) fed(panel observation.Thing) bool {
	return slices.ContainsFunc(w.in.Feeders, func(f *installation.Feeder) bool { return f.To == panel })
}

// feeders says the feeders on the way, with the sources they begin at. Back is
// the panel into which they would feed back.
func (w *ways) feeders(feeders []*installation.Feeder, back string) {
	for _, f := range feeders {
		x := Way{Sort: Feed, Known: f.How.String(), At: f.From, Of: entries(f.Story, all[observation.Feeder])}
		x.Say = joined(w.in.FromName(f.Feeder)+" feeds panel "+w.in.Name(f.To), f.Wires, f.Way)
		if back != "" {
			x.Sort, x.Say = Back, x.Say+": power can come back from there into panel "+back
		}
		if f.From == "" {
			x.Sort, x.Say = NotKnown, joined("A feeder comes to panel "+w.in.Name(f.To)+" from a place not known", f.Wires, f.Way)
		}
		w.add(x)
		if s := w.in.Source(f.From); s != nil && !w.has(s.Thing) {
			w.add(Way{Sort: Supply, Say: sourceWords(s), At: s.Thing, Of: entries(s.Story, all[observation.Source])})
		}
	}
}

func (w *ways) has(source observation.Thing) bool {
	return slices.ContainsFunc(w.out, func(x Way) bool { return x.Sort == Supply && x.At == source })
}

// sourceWords says a source: what opens it, and whether it starts by itself.
func sourceWords(s *installation.Source) string {
	opens := "what opens it is not on record"
	if s.Disconnect != "" {
		opens = "opened by " + s.Disconnect
	}
	starts := ""
	switch {
	case s.Starts == observation.Yes:
		starts = "it can start by itself"
	case s.Starts == observation.NotKnown && s.Of != observation.Utility && s.Of != observation.Temporary:
		starts = "whether it can start by itself is not known"
	}
	name := s.Name
	if name != string(s.Of) && s.Of != observation.OtherSource {
		name += " (" + string(s.Of) + ")"
	}
	return joined("Source "+name, opens, starts)
}
