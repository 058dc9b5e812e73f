package web

import (
	"slices"
	"strings"
	"sync"

	"asfound/installation"
	"asfound/observation"
	"asfound/site"
)

// index is what the journal is searched by: the line of each entry in small
// letters, made once. A line bears the names of things; when one is renamed the
// lines are made anew.
type index struct {
	mu      sync.Mutex
	at      indexed
	names   map[observation.Thing]string
	kinds   map[string]bool
	unnamed []int // lines that name something which is not on record yet
}

// indexed is the index at one journal state; nobody changes it.
type indexed struct {
	events []observation.Event // in the order of arrival
	lines  []string            // of each event
	order  []int               // events by when they were taken, oldest first
	kinds  []string
}

// look brings the index up to date with what the journal holds.
func (x *index) look(events []observation.Event, found *site.AsFound) indexed {
	x.mu.Lock()
	defer x.mu.Unlock()
	if x.kinds == nil {
		x.kinds = map[string]bool{}
	}
	names := namesOf(found.Installation)
	if renamed(x.names, names) {
		x.at.lines, x.unnamed = nil, nil
	}
	if len(names) != len(x.names) {
		x.nameAgain(events, found.Installation)
	}
	x.names = names
	for i := len(x.at.lines); i < len(events); i++ {
		x.at.lines = append(x.at.lines, x.line(found.Installation, events, i))
	}
	for i := len(x.at.order); i < len(events); i++ {
		x.at.order = inOrder(x.at.order, events, i)
		if kind := events[i].Kind; !x.kinds[kind] {
			x.kinds[kind] = true
			x.at.kinds = append(slices.Clone(x.at.kinds), kind)
		}
	}
	x.at.events = events
	return x.at
}

// line is what an entry is found by: what it says, its name, who and its kind.
func (x *index) line(in *installation.Installation, events []observation.Event, i int) string {
	e := events[i]
	say := entryWords(in, e)
	if strings.Contains(say, in.Name("")) {
		x.unnamed = append(x.unnamed, i)
	}
	return strings.ToLower(strings.Join([]string{say, e.Who, e.ID.String(), kindWord(e.Kind)}, "\n"))
}

// nameAgain makes lines anew that named something not on record.
func (x *index) nameAgain(events []observation.Event, in *installation.Installation) {
	again := x.unnamed
	if len(again) == 0 {
		return
	}
	x.unnamed, x.at.lines = nil, slices.Clone(x.at.lines) // others may be reading
	for _, i := range again {
		x.at.lines[i] = x.line(in, events, i)
	}
}

// inOrder puts event i at its place: mostly at the end.
func inOrder(order []int, events []observation.Event, i int) []int {
	when := events[i].When()
	at := len(order)
	for at > 0 && events[order[at-1]].When().After(when) {
		at--
	}
	if at == len(order) {
		return append(order, i)
	}
	return slices.Insert(slices.Clone(order), at, i)
}

// namesOf are the names of all things on record.
func namesOf(in *installation.Installation) map[observation.Thing]string {
	out := make(map[observation.Thing]string, len(in.Openings)+len(in.Rooms)+len(in.Panels)+16)
	put := func(t observation.Thing) { out[t] = in.Name(t) }
	for _, b := range in.Buildings {
		put(b.Thing)
	}
	for _, r := range in.Rooms {
		put(r.Thing)
	}
	for _, o := range in.Openings {
		put(o.Thing)
	}
	for _, p := range in.Panels {
		put(p.Thing)
	}
	for _, t := range in.Tours {
		put(t.ID.Thing())
	}
	for _, s := range in.Sources {
		put(s.Thing)
	}
	for _, f := range in.Feeders {
		put(f.Thing)
	}
	for _, d := range in.Drawn {
		put(d.Thing)
	}
	return out
}

// renamed reports whether something bears another name than before, or none.
func renamed(before, now map[observation.Thing]string) bool {
	for t, name := range before {
		if now[t] != name {
			return true
		}
	}
	return false
}
