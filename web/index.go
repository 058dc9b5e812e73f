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
	first   []int // events that were the first of their kind, as at.kinds
	unnamed []int // lines that name something which is not on record yet
}

// indexed is the index at one journal state; nobody changes it.
type indexed struct {
	events []observation.Event // in the order of arrival
	lines  []string            // of each event
	order  []int               // events by when they were taken, oldest first
	kinds  []string            // in the order of arrival
}

// look brings the index up to date with what the journal holds, and returns it
// as of the events given: others may have looked at more of them already.
func (x *index) look(events []observation.Event, found *site.AsFound) indexed {
	x.mu.Lock()
	defer x.mu.Unlock()
	if len(events) < len(x.at.events) {
		return x.before(events)
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
		if kind := events[i].Kind; !slices.Contains(x.at.kinds, kind) {
			x.at.kinds, x.first = append(x.at.kinds, kind), append(x.first, i)
		}
	}
	x.at.order = inOrder(x.at.order, events)
	x.at.events = events
	return x.at
}

// before is the index as of events that are fewer than it holds.
func (x *index) before(events []observation.Event) indexed {
	n := len(events)
	kinds, _ := slices.BinarySearch(x.first, n)
	out := indexed{events: events, lines: x.at.lines[:n:n], kinds: x.at.kinds[:kinds:kinds], order: make([]int, 0, n)}
	for _, i := range x.at.order {
		if i < n {
			out.order = append(out.order, i)
		}
	}
	return out
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

// inOrder puts the events that are not in the order yet at their places, after
// those taken at the same time. What others read of the order stays as it is.
func inOrder(order []int, events []observation.Event) []int {
	old := len(order)
	fresh := make([]int, 0, len(events)-old)
	for i := old; i < len(events); i++ {
		fresh = append(fresh, i)
	}
	slices.SortStableFunc(fresh, func(a, b int) int { return events[a].When().Compare(events[b].When()) })
	if len(fresh) == 0 || old == 0 || !events[fresh[0]].When().Before(events[order[old-1]].When()) {
		return append(order, fresh...)
	}
	out := make([]int, 0, len(events))
	for _, i := range order {
		for len(fresh) > 0 && events[fresh[0]].When().Before(events[i].When()) {
			out, fresh = append(out, fresh[0]), fresh[1:]
		}
		out = append(out, i)
	}
	return append(out, fresh...)
}

// namesOf are the names of all things on record.
func namesOf(in *installation.Installation) map[observation.Thing]string {
	out := make(map[observation.Thing]string, len(in.Openings)+len(in.Rooms)+len(in.Panels)+16)
	in.EachThing(func(t observation.Thing, _ installation.Story) { out[t] = in.Name(t) })
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
