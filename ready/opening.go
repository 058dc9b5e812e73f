package ready

import (
	"fmt"
	"slices"

	"asfound/installation"
	"asfound/observation"
	"asfound/trace"
)

// Opening lists by what a box can still be live when the circuit that somebody
// turned off for it is off.
func Opening(in *installation.Installation, tr *trace.Trace, o *installation.Opening) []Way {
	w := newWays(in, tr)
	lines := w.at[o.Thing]
	w.live(func(t observation.Thing) bool { return t == o.Thing })
	if len(lines) == 0 {
		w.add(Way{Sort: NotKnown, Say: "Nothing was read here: what feeds this box is not known", At: o.Thing})
	}
	for _, c := range o.Cables {
		if len(lines) > 0 && !slices.ContainsFunc(lines, func(l *trace.Line) bool { return l.End.Cable == c.Tag || l.End.Cable == "" && len(o.Cables) == 1 }) {
			w.add(Way{Sort: NotKnown, Say: "Nothing was read of cable " + c.Tag + ": what it is on is not known", At: o.Thing,
				Of: entries(o.Story, func(b observation.CableEnd) bool { return b.Tag == c.Tag })})
		}
	}
	w.inBox(o, lines)
	w.shared(o)
	w.through(o)
	return w.sorted()
}

// inBox says the circuits of a box, and each end of which none is known.
func (w *ways) inBox(o *installation.Opening, lines []*trace.Line) {
	var at []observation.Point
	by := map[observation.Point][]*trace.Line{}
	add := func(p observation.Point, l *trace.Line) {
		if by[p] == nil {
			at = append(at, p)
		}
		by[p] = append(by[p], l)
	}
	for _, l := range lines {
		known := trace.SayStanding(l.Verdict)
		switch {
		case !firm(l):
			w.add(Way{Sort: NotKnown, Say: "What the " + l.End.String() + " is on is not known", Known: known, At: o.Thing, Lines: []*trace.Line{l}})
		case l.Source.Kind == trace.FromSpace:
			add(l.Source.At, l)
			for _, also := range l.Source.Also {
				add(also, l)
			}
		case l.Source.Kind == trace.FromEnd:
			w.add(Way{Sort: Circuit, Say: "The " + l.End.String() + " " + trace.SaySource(w.in, l.Source) + ": what feeds it there comes here", Known: known, At: l.Source.At.At, Lines: []*trace.Line{l}})
		case l.Source.Kind == trace.Nothing:
			w.add(Way{Sort: NotKnown, Say: "No circuit that was read reaches the " + l.End.String() + ": another may", Known: known, At: o.Thing, Lines: []*trace.Line{l}})
		default:
			w.add(Way{Sort: NotKnown, Say: "The " + l.End.String() + " " + trace.SaySource(w.in, l.Source), Known: known, At: o.Thing, Lines: []*trace.Line{l}})
		}
	}
	if len(at) > 1 {
		w.add(Way{Sort: Circuit, Say: fmt.Sprintf("%d circuits come into this box: with one of them off the others are live", len(at)), At: o.Thing})
	}
	for _, p := range at {
		w.circuit(o, p, by[p])
	}
}

// circuit says one circuit of a box.
func (w *ways) circuit(o *installation.Opening, p observation.Point, lines []*trace.Line) {
	var ends []string
	for _, l := range lines {
		ends = append(ends, "the "+l.End.String())
	}
	say := w.in.PointName(p) + " is on " + listed(ends)
	here, there := w.in.BuildingOf(o.Thing), w.in.BuildingOf(p.At)
	if here != nil && there != nil && here != there {
		say += ", from building " + there.Name
	}
	w.add(Way{Sort: Circuit, Say: say, Known: trace.SayStanding(lines[0].Verdict), At: p.At, Lines: lines})
}

// shared says which cables have one neutral for several hots.
func (w *ways) shared(o *installation.Opening) {
	for _, c := range o.Cables {
		hots, neutral := 0, false
		for _, x := range c.Conductors {
			switch x.Wire {
			case observation.Neutral:
				neutral = true
			case observation.EGC:
			default:
				hots++
			}
		}
		if neutral && hots > 1 {
			w.add(Way{Sort: Neutral, Say: fmt.Sprintf("Cable %s has %d hots and one neutral: with one circuit off, the neutral may carry the current of another. Do not open it", c.Tag, hots), At: o.Thing,
				Of: entries(o.Story, func(b observation.CableEnd) bool { return b.Tag == c.Tag })})
		}
	}
}

// through says which raceways may bring conductors that only pass.
func (w *ways) through(o *installation.Opening) {
	for _, e := range o.Story {
		r, ok := e.Body.(observation.Raceway)
		if !ok || !e.Live() {
			continue
		}
		holds := "holds conductors nobody counted"
		if r.Count > 0 {
			holds = "holds " + counted(r.Count, "conductor")
		}
		w.add(Way{Sort: Passing, Say: "Raceway " + r.Tag + " " + holds + ": those of other circuits may only pass through", At: o.Thing, Of: []observation.ID{e.ID}})
	}
}
