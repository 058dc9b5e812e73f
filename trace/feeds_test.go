package trace

import (
	"slices"
	"strings"
	"testing"

	"asfound/observation"
	"asfound/step"
)

func (j *job) liveAt(number string, absent observation.Known) {
	j.record(j.opening[number], "", nil, nil, observation.ProvenDead{Before: observation.Yes, Absent: absent, After: observation.Yes})
}

// proposed returns the proposals that go to an opening, and that with this key.
func (j *job) proposed(number, key string) (there []Proposal, with *Proposal) {
	in := j.fold.Installation()
	for _, p := range NewTracer().Trace(in).Proposals(in) {
		if slices.Contains(p.Places, string(j.opening[number])) || p.Place == string(j.opening[number]) {
			there = append(there, p)
		}
		if p.Key == key {
			with = &p
		}
	}
	return there, with
}

// An opening on record as live is proposed for no reading, be it the first, a
// second or one that decides a clash; what feeds it is to be found. It is read
// again after a test there that holds.
func TestLiveOpeningIsNotRead(t *testing.T) {
	all := []int{1, 2, 3, 4, 5, 6}
	for name, read := range map[string]func(*job){
		"not read yet": func(*job) {},
		"second visit": func(j *job) { j.read("A01-01", "s", 1); j.look(1) },
		"clash":        func(j *job) { j.read("A01-01", "s", 1, 2) },
	} {
		t.Run(name, func(t *testing.T) {
			j := newJob(t, all, 2)
			j.isolate(all...)
			j.begin(all...)
			read(j)
			if there, _ := j.proposed("A01-01", ""); len(there) == 0 {
				t.Fatal("nothing is proposed there before")
			}
			j.liveAt("A01-01", observation.No)
			there, find := j.proposed("A01-01", "live "+string(j.opening["A01-01"]))
			if len(there) != 1 || find == nil {
				t.Fatalf("proposed there: %+v", there)
			}
			if find.Kind != step.FindFeed || find.Caution == "" || find.StopIf == "" || find.Tour != "" || strings.Contains(strings.Join(find.Do, " "), "ohm") {
				t.Errorf("finding what feeds it: %+v", find.Step)
			}
			if _, other := j.proposed("A01-02", "read "+string(j.rooms[0])); other == nil && name == "not read yet" {
				t.Error("the opening beside it is not to be read any more")
			}
			j.liveAt("A01-01", observation.Yes)
			if there, find := j.proposed("A01-01", "live "+string(j.opening["A01-01"])); len(there) == 0 || find != nil {
				t.Errorf("tested again, nothing found: %+v", there)
			}
		})
	}
}

// Voltage found stands until a test that holds is known to come after it: not one
// with a tester that did not answer, nor one on a device that never met.
func TestVoltageFoundStands(t *testing.T) {
	holds := observation.ProvenDead{Before: observation.Yes, Absent: observation.Yes, After: observation.Yes}
	for name, c := range map[string]struct {
		device string
		test   observation.ProvenDead
		live   bool
	}{
		"tested again":            {"k", holds, false},
		"tester did not answer":   {"k", observation.ProvenDead{Before: observation.Yes, Absent: observation.Yes, After: observation.No}, true},
		"absence not known":       {"k", observation.ProvenDead{Before: observation.Yes, After: observation.Yes}, true},
		"on a phone that was off": {"m", holds, true},
	} {
		j := newJob(t, []int{1, 2, 3}, 1)
		j.liveAt("A01-01", observation.No)
		j.fold.Add(observation.Event{ID: observation.ID{Device: c.device, Seq: 1000}, HLC: 1000 << 16, Wall: start.AddDate(0, 0, 1), Kind: c.test.Kind(),
			Observation: observation.Observation{Who: "Dell Amoah", Subject: j.opening["A01-01"], Body: c.test}})
		in := j.fold.Installation()
		if got := slices.Contains(always(in), j.opening["A01-01"]); got != c.live {
			t.Errorf("%s: live %v, want %v", name, got, c.live)
		}
		odd := slices.ContainsFunc(NewTracer().Trace(in).Oddities, func(o Oddity) bool { return o.Kind == AlwaysLive && o.Place == j.opening["A01-01"] })
		if odd != c.live {
			t.Errorf("%s: listed %v, want %v", name, odd, c.live)
		}
	}
}
