package days

import (
	"fmt"
	"slices"
	"testing"
	"time"

	"asfound/installation"
	"asfound/observation"
	"asfound/pattern"
	"asfound/quantity"
	"asfound/site"
	"asfound/trace"
)

// job is a small property recorded event by event: buildings A and B with a
// panel each, their rooms and openings, and a tour over both panels.
type job struct {
	tb      testing.TB
	fold    *installation.Fold
	events  []observation.Event
	seq     map[string]uint64
	device  string
	clock   uint64
	who     string
	house   map[string]observation.Thing
	panel   map[string]observation.Thing
	room    map[string]observation.Thing
	opening map[string]observation.Thing
	tour    observation.ID
}

var start = time.Date(2027, 1, 20, 9, 0, 0, 0, time.UTC)

const marit, dell = "Marit Sandvei", "Dell Amoah"

func (j *job) add(subject observation.Thing, stop string, under, seen []observation.ID, b observation.Body) observation.ID {
	j.tb.Helper()
	j.seq[j.device]++
	j.clock++
	e := observation.Event{ID: observation.ID{Device: j.device, Seq: j.seq[j.device]}, HLC: j.clock << 16, Wall: start.Add(time.Duration(j.clock) * time.Minute), Kind: b.Kind(),
		Observation: observation.Observation{Who: j.who, Stop: stop, Under: under, Seen: seen, Subject: subject, Body: b}}
	if err := e.Check(start.Add(10000 * time.Hour)); err != nil {
		j.tb.Fatalf("%T: %v", b, err)
	}
	if err := j.fold.Installation().Admit(e.Observation); err != nil {
		j.tb.Fatalf("%T: %v", b, err)
	}
	j.fold.Add(e)
	j.events = append(j.events, e)
	return e.ID
}

func (j *job) note(subject observation.Thing, b observation.Body) observation.ID {
	j.tb.Helper()
	return j.add(subject, "", nil, nil, b)
}

// newJob records both buildings; rooms gives the openings of each room, those of
// A first and then, after a 0, those of B.
func newJob(tb testing.TB, rooms ...int) *job {
	j := &job{tb: tb, fold: installation.NewFold(), seq: map[string]uint64{}, device: "k", who: marit, house: map[string]observation.Thing{},
		panel: map[string]observation.Thing{}, room: map[string]observation.Thing{}, opening: map[string]observation.Thing{}}
	for _, b := range []string{"A", "B"} {
		j.house[b] = j.note("", observation.Building{Name: b}).Thing()
		j.panel[b+"1"] = j.note("", observation.Panel{Building: j.house[b], Name: b + "1", Spaces: 4}).Thing()
		for s := 1; s <= 4; s++ {
			j.note(j.panel[b+"1"], observation.Space{Number: s, Poles: 1, Lands: observation.LandsBranch})
		}
	}
	in, r := "A", 0
	for _, n := range rooms {
		if n == 0 {
			in, r = "B", 0
			continue
		}
		r++
		name := fmt.Sprintf("%s%02d", in, r)
		j.room[name] = j.note("", observation.Room{Building: j.house[in], Name: name, Order: r}).Thing()
		for i := range n {
			number := fmt.Sprintf("%s-%02d", name, i+1)
			j.opening[number] = j.note("", observation.Opening{Room: j.room[name], Number: number, Order: i + 1}).Thing()
		}
	}
	return j
}

// fed puts on record what feeds the panels, so that this is no open question.
func (j *job) fed() *job {
	source := j.note("", observation.Source{Name: "utility", Of: observation.Utility}).Thing()
	for _, p := range []string{"A1", "B1"} {
		j.note("", observation.Feeder{From: source, To: j.panel[p], How: observation.BasisTested})
	}
	return j
}

// chained puts on record that B1 is fed from A1.
func (j *job) chained() *job {
	source := j.note("", observation.Source{Name: "utility", Of: observation.Utility}).Thing()
	j.note("", observation.Feeder{From: source, To: j.panel["A1"], How: observation.BasisTested})
	j.note("", observation.Feeder{From: j.panel["A1"], Space: 1, To: j.panel["B1"], How: observation.BasisTested})
	return j
}

// pairing sets up a tour by pairing, with a resistor at the first opening.
func (j *job) pairing() observation.ID {
	tour := j.note("", observation.Tour{Name: "Pairs", Means: observation.ByPairing, Tolerance: 0.01, MeterRelative: 0.009, MeterOhm: 0.2})
	j.add("", "", []observation.ID{tour}, nil, observation.Resistor{On: observation.Point{At: j.opening["A01-01"], Cable: "1", Wire: observation.Hot}, Ohm: 1000})
	return tour
}

// outOfReach says of each opening of a building that it cannot be reached, so
// that nothing waits to be read there.
func (j *job) outOfReach(house string) {
	in := j.fold.Installation()
	for _, o := range in.Openings {
		if b := in.BuildingOf(o.Thing); b != nil && b.Thing == j.house[house] {
			j.note(o.Thing, observation.NotReached{Why: "covered"})
		}
	}
}

func (j *job) lock(panel string) observation.ID {
	return j.note(j.panel[panel], observation.LockOut{Device: "lock " + panel})
}

func (j *job) test(panel string, absent observation.Known) {
	j.note(j.panel[panel], observation.ProvenDead{Before: observation.Yes, Absent: absent, After: observation.Yes})
}

// isolated takes the panel isolation test, all open.
func (j *job) isolated(panel string) {
	for _, l := range trace.PlanIsolation(j.fold.Installation(), j.panel[panel]).Open() {
		j.note(j.panel[panel], observation.Isolation{A: l.A, Against: l.Against, B: l.B, Ohm: quantity.Resistance{Open: true},
			SwitchesOn: observation.Yes, LoadsOff: observation.Yes})
	}
}

// begun is a job with both panels dead and isolated, and a tour with its
// resistors on and read back.
func begun(tb testing.TB, rooms ...int) *job {
	j := newJob(tb, rooms...).fed()
	for _, p := range []string{"A1", "B1"} {
		j.lock(p)
		j.test(p, observation.Yes)
		j.isolated(p)
	}
	j.begin("A1", "B1")
	for _, at := range j.puts() {
		j.back(at, false)
	}
	return j
}

func (j *job) begin(panels ...string) {
	var things []observation.Thing
	for _, p := range panels {
		things = append(things, j.panel[p])
	}
	j.tour = j.note("", observation.Tour{Name: "Tour 1", Means: observation.ByResistor, Panels: things,
		Tolerance: 0.01, MeterRelative: 0.009, MeterOhm: 0.2, NeutralJoined: observation.Yes})
	for _, p := range panels {
		for s := 1; s <= 4; s++ {
			at := trace.SpacePoint(j.panel[p], s)
			j.add("", "", []observation.ID{j.tour}, nil, observation.Resistor{On: at, Ohm: j.value(at)})
		}
	}
}

func (j *job) puts() []observation.Point {
	var out []observation.Point
	for _, e := range j.fold.Installation().Tour(j.tour).Resistors {
		out = append(out, e.Body.(observation.Resistor).On)
	}
	return out
}

func (j *job) value(at observation.Point) quantity.Ohms {
	v := quantity.Ohms(1000 * float64(at.Space))
	if at.At == j.panel["B1"] {
		v *= 7
	}
	return v
}

func (j *job) back(at observation.Point, after bool) {
	j.add("", "", []observation.ID{j.tour}, nil, observation.ReadBack{At: at, Ohm: quantity.Resistance{Ohm: j.value(at)}, Blind: true, After: after})
}

// read visits an opening: letters and one reading for each space of its panel,
// 0 is open. The first is to ground, the rest to neutral.
func (j *job) read(number string, spaces ...int) {
	stop := fmt.Sprint(number, " ", len(j.events))
	at := j.opening[number]
	j.add(at, stop, nil, nil, observation.Letters{Letters: pattern.Letters(number)})
	for i, s := range spaces {
		other := observation.Neutral
		if i == 0 {
			other = observation.EGC
		}
		ohm := j.value(trace.SpacePoint(j.panel[number[:1]+"1"], s))
		j.add("", stop, []observation.ID{j.tour}, nil, observation.Ohm{A: observation.Point{At: at, Wire: observation.Hot}, B: observation.Point{At: at, Wire: other},
			Ohm: quantity.Resistance{Ohm: ohm + 0.5, Open: s == 0}, Reprobed: observation.Yes})
	}
}

// readRoom reads every opening of a room on one circuit.
func (j *job) readRoom(room string) {
	for _, o := range j.fold.Installation().In(j.room[room]) {
		j.read(o.Number, 1, 1)
	}
}

func (j *job) look(room string) {
	j.add(j.room[room], "", []observation.ID{j.tour}, nil, observation.RoomCheck{All: observation.Yes})
}

func (j *job) putOff(key string) observation.ID {
	return j.note("", observation.Decision{About: key, Answer: observation.NotNow, Reason: "no access today"})
}

func (j *job) choose(proposed, chosen string) observation.ID {
	return j.note("", observation.Decision{About: proposed, Answer: Instead(chosen), Reason: "reason not given"})
}

func found(in *installation.Installation) *site.AsFound {
	return &site.AsFound{Installation: in, Trace: trace.NewTracer().Trace(in)}
}

func (j *job) found() *site.AsFound { return found(j.fold.Installation()) }

func (j *job) next(who string) Card { return Next(j.found(), Person{Name: who}) }

// keys are those of the best steps.
func (c Card) keys() []string {
	var out []string
	for _, s := range c.Best {
		out = append(out, s.Key)
	}
	return out
}

func (c Card) first(tb testing.TB) string {
	tb.Helper()
	if len(c.Best) == 0 {
		tb.Fatal("nothing is proposed")
	}
	return c.Best[0].Key
}

func (c Card) proposes(key string) bool { return slices.Contains(c.keys(), key) }
