package days

import (
	"strings"
	"testing"

	"asfound/observation"
)

// released lists the panels whose locks are proposed to be taken off.
func (j *job) released() string {
	var out []string
	a := j.found()
	for _, p := range proposals(a) {
		if strings.HasPrefix(p.Key, "release ") {
			out = append(out, a.Name(observation.Thing(p.Place)))
		}
	}
	return strings.Join(out, " ")
}

// A lock stays while its power would come to where somebody works: at a panel
// fed from there, on any circuit of a tour by pairing, near a live opening.
func TestLocksStay(t *testing.T) {
	locked := func(j *job) *job {
		j.outOfReach("A")
		j.lock("A1")
		j.test("A1", observation.Yes)
		return j
	}
	for name, c := range map[string]struct {
		job  func() *job
		want string
	}{
		"nothing needs it": {func() *job { return locked(newJob(t, 1, 0, 1).fed()) }, "A1"},
		"tour at another panel, fed by itself": {func() *job {
			j := locked(newJob(t, 1, 0, 1).fed())
			j.lock("B1")
			j.test("B1", observation.Yes)
			j.begin("B1")
			return j
		}, "A1"},
		"tour at a panel fed from there": {func() *job {
			j := locked(newJob(t, 1, 0, 1).chained())
			j.lock("B1")
			j.test("B1", observation.Yes)
			j.begin("B1")
			return j
		}, ""},
		"test to be taken at a panel fed from there": {func() *job { return locked(newJob(t, 1, 0, 1).chained()) }, ""},
		"tour without a resistor yet at a panel fed from there": {func() *job {
			j := locked(newJob(t, 1, 0, 1).chained())
			j.outOfReach("B")
			j.note("", observation.Tour{Name: "Tour 1", Means: observation.ByResistor, Panels: []observation.Thing{j.panel["B1"]},
				Tolerance: 0.01, MeterRelative: 0.009, MeterOhm: 0.2, NeutralJoined: observation.Yes})
			return j
		}, ""},
		"tour by pairing": {func() *job {
			j := locked(newJob(t, 1, 0, 1).fed())
			j.pairing()
			return j
		}, ""},
		"tour by pairing, taken down": {func() *job {
			j := locked(newJob(t, 1, 0, 1).fed())
			j.add("", "", []observation.ID{j.pairing()}, nil, observation.Removed{})
			return j
		}, "A1"},
		"an opening is live": {func() *job {
			j := locked(newJob(t, 1, 0, 1).fed())
			j.note(j.opening["B01-01"], observation.ProvenDead{Before: observation.Yes, Absent: observation.No, After: observation.Yes})
			return j
		}, ""},
	} {
		t.Run(name, func(t *testing.T) {
			if got := c.job().released(); got != c.want {
				t.Errorf("locks to come off at %q, want %q", got, c.want)
			}
		})
	}
}

// An opening where voltage was found comes before all else, for everybody until
// somebody is at it; it may be put off.
func TestLiveOpeningComesFirst(t *testing.T) {
	j := begun(t, 3, 3, 0, 2)
	j.readRoom("A01")
	j.note(j.opening["B01-02"], observation.ProvenDead{Before: observation.Yes, Absent: observation.No, After: observation.Yes})
	key := "live " + string(j.opening["B01-02"])
	j.who = dell
	j.read("A02-01", 1, 1)
	if j.next(dell).first(t) == key {
		t.Errorf("%s is sent there though %s is at it", dell, marit)
	}
	if first := j.next(marit).first(t); first != key {
		t.Errorf("first is %s, want what feeds B01-02", first)
	}
	if s := Stretch(j.found(), Person{Name: marit}, 60); len(s) == 0 || s[0].Key != key {
		t.Errorf("the paper begins with %+v", s)
	}
	j.putOff(key)
	if j.next(marit).proposes(key) {
		t.Error("put off, and offered")
	}
}
