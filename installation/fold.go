package installation

import (
	"cmp"
	"slices"

	"asfound/observation"
)

// Fold takes in events and gives the Installation they describe. It is not
// ready for use by several goroutines at once.
type Fold struct {
	events    map[string]map[uint64]*kept // by device and count
	count     int
	at        map[observation.Thing][]*kept // by the thing they are about, unsorted
	targets   map[observation.ID][]*kept    // withdrawals and replacements by what they name
	dirty     map[observation.Thing]bool
	decided   []*kept
	setUps    []*kept
	unsettled bool // a set-up came, or its standing changed
	strange   int
	last      *Installation
}

// kept is an event with the live withdrawals and replacements that name it.
type kept struct {
	observation.Event
	homes []observation.Thing // the things whose stories it belongs to
}

// NewFold returns a fold of no events.
func NewFold() *Fold {
	return &Fold{
		events:  map[string]map[uint64]*kept{},
		at:      map[observation.Thing][]*kept{},
		targets: map[observation.ID][]*kept{},
		dirty:   map[observation.Thing]bool{},
		last:    &Installation{things: map[observation.Thing]any{}},
	}
}

// Add takes in one event; one that it holds already changes nothing.
func (f *Fold) Add(e observation.Event) {
	own := f.events[e.Device]
	if own == nil {
		own = map[uint64]*kept{}
		f.events[e.Device] = own
	}
	if own[e.Seq] != nil {
		return
	}
	k := &kept{Event: e, homes: homesOf(e)}
	own[e.Seq] = k
	f.count++
	if e.Body == nil {
		f.strange++
	}
	if _, ok := e.Body.(observation.Decision); ok {
		f.decided = append(f.decided, k)
	}
	for _, t := range k.homes {
		f.at[t] = append(f.at[t], k)
	}
	if isSetUp(e) {
		f.setUps = append(f.setUps, k)
	}
	f.touch(k)
	for _, id := range e.Seen {
		f.targets[id] = append(f.targets[id], k)
		f.touchTarget(id, map[observation.ID]bool{e.ID: true})
	}
}

// touch marks the thing an event is about for making anew.
func (f *Fold) touch(k *kept) {
	for _, t := range k.homes {
		f.dirty[t] = true
	}
	f.unsettled = f.unsettled || isSetUp(k.Event)
}

// isSetUp reports whether readings may name the event in Under.
func isSetUp(e observation.Event) bool {
	switch e.Body.(type) {
	case observation.Tour, observation.Resistor, observation.Joined, observation.LockOut, observation.ProvenDead:
		return true
	}
	return false
}

// touchTarget marks what an event names, and what that names in turn: when a
// withdrawal is itself withdrawn, its target counts again.
func (f *Fold) touchTarget(id observation.ID, seen map[observation.ID]bool) {
	k := f.events[id.Device][id.Seq]
	if k == nil || seen[id] {
		return
	}
	seen[id] = true
	f.touch(k)
	for _, next := range k.Seen {
		f.touchTarget(next, seen)
	}
}

// Event returns an event that was taken in, with what became of it.
func (f *Fold) Event(id observation.ID) (Entry, bool) {
	k := f.events[id.Device][id.Seq]
	if k == nil {
		return Entry{}, false
	}
	return f.entry(k), true
}

// entry says what became of an event: which live events withdraw or replace it.
func (f *Fold) entry(k *kept) Entry {
	e := Entry{Event: k.Event}
	if len(f.targets) == 0 {
		return e
	}
	for _, by := range f.targets[k.ID] {
		if !f.counts(by, map[observation.ID]bool{k.ID: true}) {
			continue
		}
		if _, ok := by.Body.(observation.Withdrawal); ok {
			e.WithdrawnBy = append(e.WithdrawnBy, by.ID)
		} else if _, ok := by.Body.(observation.Decision); !ok {
			e.ReplacedBy = append(e.ReplacedBy, by.ID)
		}
	}
	slices.SortFunc(e.WithdrawnBy, observation.ID.Compare)
	slices.SortFunc(e.ReplacedBy, observation.ID.Compare)
	return e
}

// counts reports whether nothing that counts names k. Events that name each
// other in a ring cancel: uncertain order grants no standing.
func (f *Fold) counts(k *kept, above map[observation.ID]bool) bool {
	if above[k.ID] {
		return false
	}
	above[k.ID] = true
	defer delete(above, k.ID)
	for _, by := range f.targets[k.ID] {
		if _, ok := by.Body.(observation.Decision); !ok && f.counts(by, above) {
			return false
		}
	}
	return true
}

// homesOf are the things whose stories an event belongs to: the place of a
// reading, every set-up that a resistor or read-back names, else its subject.
func homesOf(e observation.Event) []observation.Thing {
	switch b := e.Body.(type) {
	case observation.Ohm:
		return []observation.Thing{b.A.At}
	case observation.Joined:
		return []observation.Thing{b.Feed.At}
	case observation.Resistor, observation.ReadBack, observation.Removed:
		var out []observation.Thing
		for _, id := range e.Under {
			out = append(out, id.Thing())
		}
		return out
	case observation.Withdrawal, observation.Decision, observation.Note:
		return []observation.Thing{e.Subject}
	}
	if e.Subject != "" {
		return []observation.Thing{e.Subject}
	}
	return []observation.Thing{e.ID.Thing()}
}

// Installation returns the property as all events so far describe it.
func (f *Fold) Installation() *Installation {
	if len(f.dirty) == 0 {
		return f.last
	}
	next := &Installation{things: make(map[observation.Thing]any, len(f.last.things)+len(f.dirty))}
	for t, x := range f.last.things {
		next.things[t] = x
	}
	lists := f.last.Buildings == nil
	for t := range f.dirty {
		old := next.things[t]
		made := f.make(t)
		if made == nil {
			delete(next.things, t)
		} else {
			next.things[t] = made
		}
		lists = lists || !sameStanding(old, made)
	}
	clear(f.dirty)
	next.Events, next.Strange = f.count, f.strange
	next.setUps, next.change = f.last.setUps, f.last.change
	if f.unsettled {
		next.setUps = map[observation.ID]bool{}
		for _, k := range f.setUps {
			next.setUps[k.ID] = f.counts(k, map[observation.ID]bool{})
		}
		next.change++
		f.unsettled = false
	}
	next.Decisions = f.decisions()
	next.Notes = f.notes()
	next.list(f.last, lists)
	f.last = next
	return next
}

func (f *Fold) decisions() []observation.Event {
	var out []observation.Event
	for _, k := range f.decided {
		if f.counts(k, map[observation.ID]bool{}) {
			out = append(out, k.Event)
		}
	}
	slices.SortFunc(out, byClock)
	return out
}

// notes are those about no thing in particular, in the order of clocks.
func (f *Fold) notes() []observation.Event {
	var out []observation.Event
	for _, k := range f.at[""] {
		if _, ok := k.Body.(observation.Note); ok && f.counts(k, map[observation.ID]bool{}) {
			out = append(out, k.Event)
		}
	}
	slices.SortFunc(out, byClock)
	return out
}

// byClock is the one order of events: hybrid clock, then device, then count.
func byClock(a, b observation.Event) int {
	return cmp.Or(cmp.Compare(a.HLC, b.HLC), a.ID.Compare(b.ID))
}
