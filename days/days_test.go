package days

import (
	"maps"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"asfound/observation"
	"asfound/quantity"
	"asfound/step"
)

func TestNothingOnRecord(t *testing.T) {
	empty := newJob(t)
	for _, e := range slices.Backward(empty.events) {
		empty.add(e.Subject, "", nil, []observation.ID{e.ID}, observation.Withdrawal{Reason: "another property"})
	}
	if got := empty.next(marit).first(t); got != "buildings" {
		t.Errorf("first is %s, want the first building", got)
	}
}

// Worked by hand from the assumed speeds.
func TestMinutesOfMoving(t *testing.T) {
	j := begun(t, 3, 2, 1, 0, 2)
	j.note(j.house["A"], observation.Path{To: j.house["B"], Feet: 300, Snow: observation.Yes})
	j.note(j.room["A03"], observation.Room{Building: j.house["A"], Name: "A03", Floor: 1, Order: 3})
	w := newWays(j.fold.Installation())
	for _, c := range []struct {
		name     string
		from, to observation.Thing
		seconds  float64
	}{
		{"nowhere", "", j.room["A01"], 0},
		{"to the next opening, 6 ft at 4 ft/s", j.opening["A01-01"], j.opening["A01-02"], 1.5},
		{"past one opening", j.opening["A01-01"], j.opening["A01-03"], 3},
		{"to the next room, 16 ft", j.room["A01"], j.room["A02"], 4},
		{"up a floor: 32 ft and 14 s", j.room["A01"], j.room["A03"], 8 + 14},
		{"down a floor: 32 ft and 10 s", j.room["A03"], j.room["A01"], 8 + 10},
		{"to a panel of no known room, 30 ft", j.room["A01"], j.panel["A1"], 7.5},
		{"300 ft of snow at 3 ft/s, 30 ft to each door", j.room["A01"], j.room["B01"], 7.5 + 100 + 7.5},
		{"and down from the upper floor", j.room["A03"], j.room["B01"], 10 + 7.5 + 100 + 7.5},
	} {
		if got := w.walk(c.from, c.to); math.Abs(got-c.seconds) > 1e-9 {
			t.Errorf("%s: %.2f s, want %.2f", c.name, got, c.seconds)
		}
	}
}

// A way that nobody measured is assumed, one through another building is found,
// and measured rooms go by their middles.
func TestWaysKnownAndAssumed(t *testing.T) {
	j := newJob(t, 1, 1, 0, 1)
	c := j.note("", observation.Building{Name: "C"}).Thing()
	w := newWays(j.fold.Installation())
	if got := w.between(j.house["A"], c); got != betweenFeet/snowSpeed {
		t.Errorf("without a path %.1f s", got)
	}
	j.note(j.house["B"], observation.Path{To: j.house["A"], Feet: 120, Snow: observation.No})
	j.note(j.house["B"], observation.Path{To: c, Feet: 60, Snow: observation.Yes})
	j.note(j.room["A01"], observation.RoomSize{Width: 120, Depth: 240, Corner: &observation.Corner{}})
	j.note(j.room["A02"], observation.RoomSize{Width: 120, Depth: 240, Corner: &observation.Corner{Right: 120}})
	w = newWays(j.fold.Installation())
	if got, want := w.between(c, j.house["A"]), 60.0/3+120.0/4; got != want {
		t.Errorf("through B %.1f s, want %.1f", got, want)
	}
	if got, want := w.walk(j.room["A01"], j.room["A02"]), 10*1.3/4; math.Abs(got-want) > 1e-9 {
		t.Errorf("between middles 10 ft apart %.2f s, want %.2f", got, want)
	}
}

// Spots are measured from the left end of a wall as one faces it from inside.
func TestSpotsInAMeasuredRoom(t *testing.T) {
	j := newJob(t, 2)
	j.note(j.room["A01"], observation.RoomSize{Width: 120, Depth: 200})
	room := j.fold.Installation().Room(j.room["A01"])
	for wall, want := range map[observation.Wall][2]float64{observation.FrontWall: {90, 0}, observation.LeftWall: {0, 30}, observation.BackWall: {30, 200},
		observation.RightWall: {120, 170}, observation.Overhead: {30, 50}} {
		at := j.opening["A01-01"]
		out := quantity.Inches(0)
		if wall == observation.Overhead {
			out = 50
		}
		j.note(at, observation.Spot{Wall: wall, Along: 30, Out: out})
		x, y, ok := spot(room, j.fold.Installation().Opening(at))
		if !ok || x != want[0] || y != want[1] {
			t.Errorf("%s: at %v, %v, want %v", wall, x, y, want)
		}
	}
}

// Plates, ladders and covers, as assumed; a height nobody noted asks for none.
func TestGettingIn(t *testing.T) {
	for _, c := range []struct {
		name    string
		height  quantity.Inches
		plate   bool
		ceiling bool
		seconds float64
		bring   string
	}{
		{name: "bare box", height: 16, seconds: 10},
		{name: "plate on", height: 16, plate: true, seconds: 100, bring: "screwdriver"},
		{name: "at 9 ft, no ladder", height: 108, seconds: 10},
		{name: "over 9 ft", height: 109, seconds: 85, bring: "stepladder"},
		{name: "over 12 ft", height: 145, seconds: 160, bring: "extension ladder"},
		{name: "over 12 ft behind a plate", height: 145, plate: true, seconds: 250, bring: "extension ladder"},
		{name: "height not known", seconds: 10},
		{name: "in a ceiling of 10 ft", ceiling: true, seconds: 85, bring: "stepladder"},
	} {
		t.Run(c.name, func(t *testing.T) {
			j := begun(t, 1, 0, 1)
			at := j.opening["A01-01"]
			j.note(at, observation.Opening{Room: j.room["A01"], Number: "A01-01", Order: 1, Height: c.height})
			if c.plate {
				j.note(at, observation.Plate{On: observation.Yes})
			}
			if c.ceiling {
				j.note(at, observation.Spot{Wall: observation.Overhead, Along: 10})
				j.note(j.room["A01"], observation.RoomSize{Ceiling: 120})
			}
			if got := newWays(j.fold.Installation()).reach(at).seconds; got != c.seconds {
				t.Errorf("%v s, want %v", got, c.seconds)
			}
			s := j.step(t, "read "+string(j.room["A01"]))
			if got := strings.Join(s.Bring, ", "); c.bring != "" && !strings.Contains(got, c.bring) || c.bring == "" && strings.Contains(got, "ladder") {
				t.Errorf("bring %s, want %q with it", got, c.bring)
			}
			if says := strings.HasPrefix(s.Do[0], "Take the plate off"); says != c.plate {
				t.Errorf("first to do: %s", s.Do[0])
			}
		})
	}
}

// step finds a step among all that are open for nobody in particular.
func (j *job) step(t *testing.T, key string) step.Step {
	t.Helper()
	r := rank(j.found(), Person{})
	c := r.find(key)
	if c == nil {
		t.Fatalf("%s is not proposed; there are %v", key, j.open())
	}
	return r.shown(c)
}

func (j *job) open() []string {
	var out []string
	for _, p := range proposals(j.found()) {
		out = append(out, p.Key)
	}
	return out
}

// What one of them is at now, the other is not sent to while other work is nearly
// as good; once he has left, or long after, he is.
func TestTwoPeople(t *testing.T) {
	j := begun(t, 4, 4, 4, 0, 1)
	j.who = dell
	j.read("A02-01", 1, 1)
	j.who = marit
	j.readRoom("A01")
	j.look("A01")
	if got, want := j.next(marit).first(t), "read "+string(j.room["A03"]); got != want {
		t.Errorf("with Dell in A02, first is %s, want %s", got, want)
	}
	if got, want := j.next(dell).first(t), "read "+string(j.room["A02"]); got != want {
		t.Errorf("Dell in A02 is sent to %s, want %s", got, want)
	}
	j.clock += 25 // minutes in which nobody notes anything
	j.look("A01")
	if got, want := j.next(marit).first(t), "read "+string(j.room["A02"]); got != want {
		t.Errorf("Dell was in A02 long ago; first is %s, want %s", got, want)
	}
}

// The papers of two who are at work now name no step twice, and each has some;
// with one room left it stands on both.
func TestTwoPapers(t *testing.T) {
	j := begun(t, 8, 8, 8, 8, 0, 1)
	j.note(j.opening["B01-01"], observation.NotReached{})
	j.who = dell
	j.look("A01")
	stretches := func() (a, b []string) {
		for _, s := range Stretch(j.found(), Person{Name: marit}, 10) {
			a = append(a, s.Key)
		}
		for _, s := range Stretch(j.found(), Person{Name: dell}, 10) {
			b = append(b, s.Key)
		}
		return a, b
	}
	a, b := stretches()
	if len(a) == 0 || len(b) == 0 || slices.ContainsFunc(a, func(key string) bool { return slices.Contains(b, key) }) {
		t.Errorf("the papers name %v and %v", a, b)
	}
	for _, number := range slices.Sorted(maps.Keys(j.opening)) {
		at := j.opening[number]
		if !strings.HasPrefix(number, "A01") {
			j.note(at, observation.NotReached{})
		}
	}
	j.who = marit
	j.look("B01")
	only := []string{"read " + string(j.room["A01"])}
	if a, b := stretches(); !slices.Equal(a, only) || !slices.Equal(b, only) {
		t.Errorf("with one room left to read, the papers name %v and %v", a, b)
	}
}

// With nothing else to do, a person is sent where the other is.
func TestTwoPeopleAndOneRoom(t *testing.T) {
	j := begun(t, 4, 0, 1)
	j.readRoom("B01")
	j.look("B01")
	j.who = dell
	j.read("A01-01", 1, 1)
	if got, want := j.next(marit).first(t), "read "+string(j.room["A01"]); got != want {
		t.Errorf("first is %s, want %s", got, want)
	}
}

// Whoever stands at a panel gets the steps of that panel.
func TestAtThePanel(t *testing.T) {
	j := newJob(t, 6, 0, 6).fed()
	for _, p := range []string{"A1", "B1"} {
		j.lock(p)
		j.test(p, observation.Yes)
		j.isolated(p)
	}
	j.begin("A1", "B1")
	j.who = dell
	j.read("A01-01", 1, 1)
	j.who = marit
	j.back(j.puts()[0], false)
	card := j.next(marit)
	if want := "back " + j.tour.String() + " " + string(j.panel["A1"]); card.first(t) != want {
		t.Errorf("at the panel first is %s, want %s", card.first(t), want)
	}
	if got, want := j.next(dell).first(t), "read "+string(j.room["A01"]); got != want {
		t.Errorf("in the room first is %s, want %s", got, want)
	}
}

// Each thing that is not known, and each thing left over, is a step of its own.
func TestEverySortOfOpenThing(t *testing.T) {
	for _, c := range []struct {
		name, key, reason string
		job               func() *job
	}{
		{"panel not dead", "dead A1", "Waiting for dead readings from this panel: two openings.", func() *job { return newJob(t, 2, 0, 1).fed() }},
		{"test voided by power", "dead A1", "Its last test counts no more since ", func() *job {
			j := begun(t, 2, 0, 1)
			j.note(j.panel["A1"], observation.Energized{Why: "heat"})
			return j
		}},
		{"spaces not looked at", "spaces C1", "What lands on six spaces of it is not on record.", func() *job {
			j := begun(t, 2, 0, 1)
			j.panel["C1"] = j.note("", observation.Panel{Building: j.house["A"], Name: "C1", Spaces: 6}).Thing()
			j.lock("C1")
			j.test("C1", observation.Yes)
			return j
		}},
		{"isolation not taken", "isolation A1", "without a walk", func() *job {
			j := newJob(t, 2, 0, 1).fed()
			j.lock("A1")
			j.test("A1", observation.Yes)
			return j
		}},
		{"resistors not on", "resistors A1", "Then one walk names the circuits of two openings.", func() *job {
			j := newJob(t, 2, 0, 1).fed()
			j.lock("A1")
			j.test("A1", observation.Yes)
			j.isolated("A1")
			return j
		}},
		{"feeder not known", "feeder A1", "What feeds it is not on record", func() *job { return newJob(t, 1, 0, 1) }},
		{"no source known", "sources", "Nothing is on record that can put voltage", func() *job { return newJob(t, 1, 0, 1) }},
		{"room not counted", "count A03", "No opening of this room is on record.", func() *job {
			j := begun(t, 1, 1, 0, 1)
			j.room["A03"] = j.note("", observation.Room{Building: j.house["A"], Name: "A03", Order: 3}).Thing()
			return j
		}},
		{"building without rooms", "rooms C", "No room of this building is on record.", func() *job {
			j := begun(t, 1, 0, 1)
			j.house["C"] = j.note("", observation.Building{Name: "C"}).Thing()
			return j
		}},
		{"drawn, not looked for", "drawn A01", "The drawing shows 2 openings here that nobody looked for.", func() *job {
			j := begun(t, 1, 0, 1)
			for _, what := range []string{"deck heater", "sconce", "fan"} {
				d := j.note("", observation.Drawn{Room: j.room["A01"], What: what}).Thing()
				if what == "fan" {
					j.note(d, observation.Reconciled{Is: observation.NeverRoughed, How: "insulation seen, no box"})
				}
			}
			return j
		}},
		{"room not looked around", "look A01", "1 line", func() *job {
			j := begun(t, 1, 0, 1)
			j.add("", "s", []observation.ID{j.tour}, nil, observation.Ohm{A: observation.Point{At: j.opening["A01-01"], Wire: observation.Hot},
				B: observation.Point{At: j.opening["A01-01"], Wire: observation.EGC}, Ohm: quantity.Resistance{Ohm: 1000}, Reprobed: observation.Yes})
			return j
		}},
		{"second visit", "again A01", "A01-01 needs", func() *job {
			j := begun(t, 1, 0, 1)
			j.read("A01-01", 1)
			j.look("A01")
			return j
		}},
		{"readings that clash", "clash A01-01", "cannot all be right", func() *job {
			j := begun(t, 1, 0, 1)
			j.read("A01-01", 1, 2)
			return j
		}},
		{"tour to take down", "off", "Nothing is left to read on this tour", func() *job {
			j := begun(t, 1, 0, 1)
			j.readRoom("A01")
			j.readRoom("B01")
			return j
		}},
		{"lock that nothing needs", "release A1", "no tour stands on it", func() *job {
			j := begun(t, 1, 0, 1)
			for _, room := range []string{"A01", "B01"} {
				j.readRoom(room)
				j.readRoom(room)
				j.look(room)
			}
			for _, at := range j.puts() {
				j.back(at, true)
			}
			j.add("", "", []observation.ID{j.tour}, nil, observation.Removed{})
			return j
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			j := c.job()
			s := j.step(t, j.keyOf(c.key))
			if !strings.Contains(s.Reason, c.reason) && !strings.Contains(s.Reason, "one line") {
				t.Errorf("the reason is %q, want %q in it", s.Reason, c.reason)
			}
		})
	}
}

// keyOf turns the name in a key into the lasting one.
func (j *job) keyOf(key string) string {
	what, name, named := strings.Cut(key, " ")
	for _, names := range []map[string]observation.Thing{j.panel, j.room, j.house, j.opening} {
		if t, ok := names[name]; ok {
			return what + " " + string(t)
		}
	}
	if !named && what == "off" {
		return what + " " + j.tour.String()
	}
	return key
}

// A tour's lock stays while its resistors are on, whatever else is done.
func TestLockStaysUnderATour(t *testing.T) {
	j := begun(t, 1, 0, 1)
	j.readRoom("A01")
	j.readRoom("B01")
	if slices.Contains(j.open(), "release "+string(j.panel["A1"])) {
		t.Errorf("a lock is taken off while the resistors are on: %v", j.open())
	}
}

// A choice is forgotten once it is done, and the next day.
func TestChoiceEnds(t *testing.T) {
	j := begun(t, 2, 2, 0, 1)
	j.readRoom("B01")
	before := j.next(marit)
	proposed, chosen := before.Best[0].Key, "read "+string(j.room["A02"])
	if proposed == chosen {
		proposed = "read " + string(j.room["A01"])
	}
	j.choose(proposed, chosen)
	j.read("A02-01", 1, 1)
	if got := j.next(marit); got.first(t) != chosen || got.proposes(proposed) {
		t.Errorf("half way through the choice, the card offers %v", got.keys())
	}
	j.read("A02-02", 1, 1)
	if got := j.next(marit); got.Instead != nil || !got.proposes(proposed) {
		t.Errorf("the choice is done, and the card offers %v, following %+v", got.keys(), got.Instead)
	}
	j = begun(t, 2, 2, 0, 1)
	j.choose("read "+string(j.room["A01"]), "read "+string(j.room["B01"]))
	j.clock += uint64((13 * time.Hour).Minutes())
	j.look("A01")
	if got := j.next(marit); got.Instead != nil {
		t.Errorf("the next day the card still follows %+v", got.Instead)
	}
}

// Where a person stands is where he took his last reading, whenever it was typed
// in, and not where one that was withdrawn was taken.
func TestStands(t *testing.T) {
	j := begun(t, 2, 1, 0, 1)
	j.readRoom("A02")
	late := observation.Event{ID: observation.ID{Device: "k", Seq: 1000}, HLC: 1 << 40, Wall: start.Add(100 * time.Hour), Kind: observation.NotReached{}.Kind(),
		Observation: observation.Observation{Who: marit, Taken: start, Subject: j.opening["A01-01"], Body: observation.NotReached{}}}
	j.fold.Add(late)
	at := func() observation.Thing { return Stands(j.fold.Installation())[0].At }
	if got := at(); got != j.opening["A02-01"] {
		t.Errorf("stands at %s, want A02-01: the other was taken before", j.fold.Installation().Name(got))
	}
	j.seq["k"] = 1000
	id := j.note(j.opening["A01-02"], observation.NotReached{})
	if got := at(); got != j.opening["A01-02"] {
		t.Errorf("stands at %s, want A01-02", j.fold.Installation().Name(got))
	}
	j.add(j.opening["A01-02"], "", nil, []observation.ID{id}, observation.Withdrawal{Reason: "wrong opening"})
	if got := at(); got != j.opening["A02-01"] {
		t.Errorf("stands at %s, want A02-01 after the withdrawal", j.fold.Installation().Name(got))
	}
}

// Telling somebody of a lock moves nobody: it is done from anywhere.
func TestToldMovesNobody(t *testing.T) {
	j := begun(t, 2, 0, 1)
	j.readRoom("A01")
	before := Stands(j.fold.Installation())[0].At
	j.note(j.panel["B1"], observation.Told{Person: dell, Of: "lock-out"})
	if got := Stands(j.fold.Installation())[0].At; got != before || before == "" {
		t.Errorf("stands at %q, want %q as before", got, before)
	}
}
