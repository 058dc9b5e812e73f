package site

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
	"time"

	"asfound/installation"
	"asfound/list"
	"asfound/observation"
)

// taking is a list being taken in: what is on record, by the names that lists
// use, and what is to be recorded. It grows with what the lines before added, so
// that a line is judged against those too.
type taking struct {
	list   List
	stop   string // the stop of its entries, up to the line
	now    time.Time
	wanted []*wanted
	made   []string // buildings and rooms among them
	places
	openings map[string][]*openingOn // by number
	lastIn   map[observation.Thing]int
	panels   map[string][]*panelOn // by name
	drawings
}

// wanted is an observation that is to be recorded. A thing that is itself still
// to be recorded stands in it under a name for the time being.
type wanted struct {
	thing observation.Thing // the name for the time being of what it records
	o     observation.Observation
	line  int
}

// newTaking looks up what is on record. The mark tells files of one name apart.
func newTaking(in *installation.Installation, l List, mark string, now time.Time) (*taking, error) {
	l.File = fileName(l.File)
	t := &taking{list: l, now: now, stop: fileStop(l.File, mark), openings: map[string][]*openingOn{},
		lastIn: map[observation.Thing]int{}, panels: map[string][]*panelOn{}, places: placesOf(in)}
	t.drawings = drawingsOf(in, t.places)
	who := observation.Observation{Who: l.Who, Stop: t.stop, Body: observation.Building{Name: "any"}}
	if err := who.Check(now); err != nil {
		return nil, err
	}
	for _, o := range in.Openings {
		key := numberKey(o.Number)
		t.openings[key] = append(t.openings[key], &openingOn{thing: o.Thing, on: o, Opening: o.Opening, cables: len(o.Cables)})
		t.lastIn[o.Room] = max(t.lastIn[o.Room], o.Order)
	}
	for _, p := range in.Panels {
		key := plainName(p.Name)
		t.panels[key] = append(t.panels[key], &panelOn{thing: p.Thing, on: p, Panel: p.Panel, spaces: map[int]*spaceOn{}})
	}
	return t, nil
}

// records are the live entries of a kind in a story, which a new one replaces.
func records[B observation.Body](story installation.Story) (out []observation.ID) {
	for _, e := range story {
		if _, ok := e.Body.(B); ok && e.Live() {
			out = append(out, e.ID)
		}
	}
	return out
}

// lookAhead takes from all lines what a single one cannot tell.
func (t *taking) lookAhead(table *list.Table) {
	for r, ok := table.Next(); ok; r, ok = table.Next() {
		c := &cells{Record: r}
		if floor, told := c.floor(); told && c.fault == nil && r.Fault == "" {
			key := roomKey{plainName(r.Get("building")), plainName(r.Get("room"))}
			if _, had := t.floors[key]; !had {
				t.floors[key] = floorOn{floor, r.Line}
			}
		}
	}
	table.Again()
	if t.list.Kind != ListDrawn {
		return
	}
	for r, ok := table.Next(); ok; r, ok = table.Next() {
		if r.Fault == "" {
			t.tally(r)
		}
	}
	table.Again()
}

// check judges an observation before anything of its line is recorded. Fields of
// the observation are renamed to the column that they come from.
func (t *taking) check(body observation.Body, columns map[string]string) error {
	err := observation.Observation{Who: t.list.Who, Body: body}.Check(t.now)
	var u observation.Unusable
	if errors.As(err, &u) {
		if column, other := columns[u.Field]; other {
			u.Field = column
		}
		return u
	}
	return err
}

// record adds an observation to those that are to be recorded.
func (t *taking) record(line int, o observation.Observation) *wanted {
	o.Who, o.Stop = t.list.Who, t.stop+strconv.Itoa(line)
	w := &wanted{thing: observation.Thing("?" + strconv.Itoa(len(t.wanted))), o: o, line: line}
	t.wanted = append(t.wanted, w)
	return w
}

// resolved is the observation with lasting names, as far as they were made.
func (w *wanted) resolved(made map[observation.Thing]observation.Thing) observation.Observation {
	last := func(t observation.Thing) observation.Thing {
		if now, ok := made[t]; ok {
			return now
		}
		return t
	}
	o := w.o
	o.Subject = last(o.Subject)
	switch b := o.Body.(type) {
	case observation.Room:
		b.Building = last(b.Building)
		o.Body = b
	case observation.Opening:
		b.Room = last(b.Room)
		o.Body = b
	case observation.Panel:
		b.Building, b.Room = last(b.Building), last(b.Room)
		o.Body = b
	case observation.Drawn:
		b.Room = last(b.Room)
		o.Body = b
	}
	return o
}

// filling sets what a line says beside what is on record: what is not known
// there is filled in, what differs is a fault.
type filling struct {
	cells *cells
	line  int // of the file from which the record comes, 0 when it was there before
	more  bool
}

// fill sets one value; the zero value is not known.
func fill[T comparable](f *filling, column string, on *T, says T) {
	var none T
	switch {
	case says == none || says == *on:
	case *on == none:
		*on, f.more = says, true
	default:
		f.cells.refuse(column, sayOther(*on, f.line))
	}
}

// fillText is fill for words, whose spaces do not matter.
func fillText(f *filling, column string, on *string, says string) {
	if strings.Join(strings.Fields(*on), " ") == says {
		return
	}
	if *on != "" && says != "" {
		f.cells.refuse(column, sayOther(fmt.Sprintf("“%s”", *on), f.line))
		return
	}
	fill(f, column, on, says)
}

// plainName is a name without capitals and spaces.
func plainName(name string) string {
	return strings.ToLower(strings.Join(strings.Fields(name), ""))
}

// sameName reports whether people would call two things alike.
func sameName(a, b string) bool {
	return strings.EqualFold(strings.Join(strings.Fields(a), " "), strings.Join(strings.Fields(b), " "))
}

// pick is the one of several that bears a name: the only one, or the only one
// that bears it space for space. How many there are is 0, 1 or more.
func pick[T any](all []T, name string, called func(T) string) (one T, n int) {
	if len(all) > 1 {
		var exact []T
		for _, x := range all {
			if sameName(called(x), name) {
				exact = append(exact, x)
			}
		}
		all = exact
		if len(all) == 0 {
			return one, 2
		}
	}
	if len(all) == 0 {
		return one, 0
	}
	return all[0], len(all)
}
