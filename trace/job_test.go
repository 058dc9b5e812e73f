package trace

import (
	"fmt"
	"testing"
	"time"

	"asfound/installation"
	"asfound/observation"
	"asfound/pattern"
	"asfound/quantity"
)

// job is a small building recorded event by event, for tests: panel A1 with 12
// spaces, branches on the given ones, rooms of openings.
type job struct {
	t       testing.TB
	fold    *installation.Fold
	events  []observation.Event
	seq     uint64
	panel   observation.Thing
	rooms   []observation.Thing
	opening map[string]observation.Thing
	tour    observation.ID
}

var start = time.Date(2027, 1, 20, 9, 0, 0, 0, time.UTC)

func (j *job) record(subject observation.Thing, stop string, under []observation.ID, seen []observation.ID, b observation.Body) observation.ID {
	j.t.Helper()
	j.seq++
	e := observation.Event{ID: observation.ID{Device: "k", Seq: j.seq}, HLC: j.seq << 16, Wall: start.Add(time.Duration(j.seq) * time.Minute), Kind: b.Kind(),
		Observation: observation.Observation{Who: "Marit Sandvei", Stop: stop, Under: under, Seen: seen, Subject: subject, Body: b}}
	if err := e.Check(start.Add(1000 * time.Hour)); err != nil {
		j.t.Fatalf("%T: %v", b, err)
	}
	if err := j.fold.Installation().Admit(e.Observation); err != nil {
		j.t.Fatalf("%T: %v", b, err)
	}
	j.fold.Add(e)
	j.events = append(j.events, e)
	return e.ID
}

// newJob records a building with rooms of n openings each, A01-01 and so on.
func newJob(t testing.TB, branches []int, rooms ...int) *job {
	j := &job{t: t, fold: installation.NewFold(), opening: map[string]observation.Thing{}}
	house := j.record("", "", nil, nil, observation.Building{Name: "A"}).Thing()
	j.panel = j.record("", "", nil, nil, observation.Panel{Building: house, Name: "A1", Spaces: 12}).Thing()
	for _, s := range branches {
		j.record(j.panel, "", nil, nil, observation.Space{Number: s, Poles: 1, Lands: observation.LandsBranch})
	}
	for r, n := range rooms {
		room := j.record("", "", nil, nil, observation.Room{Building: house, Name: fmt.Sprint("room ", r+1), Order: r}).Thing()
		j.rooms = append(j.rooms, room)
		for i := range n {
			number := fmt.Sprintf("A%02d-%02d", r+1, i+1)
			j.opening[number] = j.record("", "", nil, nil, observation.Opening{Room: room, Number: number, Order: i}).Thing()
		}
	}
	j.record(j.panel, "", nil, nil, observation.LockOut{Device: "lock 4"})
	j.record(j.panel, "", nil, nil, observation.ProvenDead{Before: observation.Yes, Absent: observation.Yes, After: observation.Yes})
	return j
}

// values are the resistors of the spaces in a test tour.
func value(space int) quantity.Ohms { return quantity.Ohms(1000 * float64(space)) }

// isolate reads each space against all others, open, twice, with the switches on.
func (j *job) isolate(spaces ...int) {
	for i, s := range spaces {
		others := append(append([]int{}, spaces[:i]...), spaces[i+1:]...)
		j.record(j.panel, "", nil, nil, observation.Isolation{A: []int{s}, Against: observation.AgainstSpaces, B: others,
			Ohm: quantity.Resistance{Open: true}, SwitchesOn: observation.Yes, LoadsOff: observation.Yes})
	}
}

// begin puts a resistor on each space and reads it back blind.
func (j *job) begin(spaces ...int) {
	j.put(spaces...)
	for _, s := range spaces {
		j.back(s, value(s), false)
	}
}

// put starts a tour with a resistor on each space.
func (j *job) put(spaces ...int) {
	j.tour = j.record("", "", nil, nil, observation.Tour{Name: "first", Means: observation.ByResistor, Panels: []observation.Thing{j.panel},
		Tolerance: 0.01, MeterRelative: 0.009, MeterOhm: 0.2, NeutralJoined: observation.Yes})
	for _, s := range spaces {
		j.record("", "at the panel", []observation.ID{j.tour}, nil, observation.Resistor{On: SpacePoint(j.panel, s), Ohm: value(s)})
	}
}

func (j *job) back(space int, ohm quantity.Ohms, after bool) observation.ID {
	return j.record("", "at the panel", []observation.ID{j.tour}, nil,
		observation.ReadBack{At: SpacePoint(j.panel, space), Ohm: quantity.Resistance{Ohm: ohm}, Blind: true, After: after})
}

func (j *job) end(number string) observation.Point {
	return observation.Point{At: j.opening[number], Wire: observation.Hot}
}

// read takes readings at an opening at a stop: positive is that space's
// resistor, zero open. The first is to ground, the rest to neutral.
func (j *job) read(number, stop string, spaces ...int) (ids []observation.ID) {
	for i, s := range spaces {
		other := observation.Neutral
		if i == 0 {
			other = observation.EGC
		}
		r := quantity.Resistance{Ohm: value(s) + 0.5, Open: s == 0}
		ids = append(ids, j.record("", stop, []observation.ID{j.tour}, nil, observation.Ohm{A: j.end(number),
			B: observation.Point{At: j.opening[number], Wire: other}, Ohm: r, Reprobed: observation.Yes}))
	}
	return ids
}

func (j *job) groundNeutral(number, stop string, closed bool) {
	r := quantity.Resistance{Ohm: 0.8, Open: !closed}
	at := j.opening[number]
	j.record("", stop, []observation.ID{j.tour}, nil, observation.Ohm{A: observation.Point{At: at, Wire: observation.EGC},
		B: observation.Point{At: at, Wire: observation.Neutral}, Ohm: r, Reprobed: observation.Yes})
}

func (j *job) letters(number, stop string) {
	j.record(j.opening[number], stop, nil, nil, observation.Letters{Letters: pattern.Letters(number)})
}

func (j *job) look(room int) {
	j.record(j.rooms[room-1], "", []observation.ID{j.tour}, nil, observation.RoomCheck{All: observation.Yes})
}

func (j *job) after(spaces ...int) {
	for _, s := range spaces {
		j.back(s, value(s), true)
	}
}

func (j *job) trace() *Trace { return NewTracer().Trace(j.fold.Installation()) }

func (j *job) line(number string) *Line {
	l := j.trace().Line(j.end(number))
	if l == nil {
		j.t.Fatalf("%s has no line", number)
	}
	return l
}

func ohms(v float64) quantity.Resistance { return quantity.Resistance{Ohm: quantity.Ohms(v)} }
