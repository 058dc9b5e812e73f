package journaltest

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	"asfound/journal"
	"asfound/observation"
)

// history is a made-up job: devices with clocks of their own that record, and
// meet over links that lose, double, shuffle and cut.
type history struct {
	Clocks []time.Duration // how far each device's clock is off
	Steps  []step
}

type step struct {
	Record bool
	At     int           // device that records, or sends
	To     int           // device that receives
	Passes time.Duration // on the clock of At; a clock may be set back
	Link   uint64        // seed of what the link does to the lines
}

func drawHistory(t *rapid.T) history {
	hour := func(label string) time.Duration {
		return time.Duration(rapid.IntRange(-3600, 3600).Draw(t, label)) * time.Second
	}
	h := history{Clocks: make([]time.Duration, rapid.IntRange(2, 5).Draw(t, "devices"))}
	for i := range h.Clocks {
		h.Clocks[i] = hour("clock off by")
	}
	h.Steps = make([]step, rapid.IntRange(1, 40).Draw(t, "steps"))
	for i := range h.Steps {
		device := rapid.IntRange(0, len(h.Clocks)-1)
		h.Steps[i] = step{Record: rapid.Bool().Draw(t, "records"), At: device.Draw(t, "at"), To: device.Draw(t, "to"),
			Passes: hour("passes") / 20, Link: rapid.Uint64().Draw(t, "link")}
	}
	return h
}

// model plays histories. A failing seed repeats: it is the number of the history.
func model(t *testing.T, place Place, histories int) {
	histories = max(histories, 1)
	draw := rapid.Custom(drawHistory)
	for seed := range histories {
		h := draw.Example(seed)
		if !t.Run(fmt.Sprint("history ", seed), func(t *testing.T) { play(t, place, h) }) {
			t.Logf("%+v", h)
			return
		}
	}
}

// replica is one device of a history, with what a right clock must be later than.
type replica struct {
	journal.Store
	clock *Clock
	heard uint64 // latest clock given or followed
}

func play(t *testing.T, place Place, h history) {
	var replicas []*replica
	for _, off := range h.Clocks {
		clock := NewClock()
		clock.Move(off)
		replicas = append(replicas, &replica{Store: opened(t, place, clock), clock: clock})
	}
	var kept []journal.Entry
	for i, s := range h.Steps {
		at, to := replicas[s.At], replicas[s.To]
		at.clock.Move(s.Passes)
		if s.Record {
			kept = append(kept, at.record(t, fmt.Sprint("room ", i)))
			continue
		}
		to.hear(t, badLink(at.unheard(t, to), rand.New(rand.NewPCG(s.Link, 0))))
	}
	goodRound(t, replicas)
	agree(t, replicas, kept)
}

func (r *replica) record(t *testing.T, name string) journal.Entry {
	t.Helper()
	e := appended(t, r, name)
	if e.Event.HLC <= r.heard {
		t.Errorf("event %s: the clock went from %d back to %d", e.Event.ID, r.heard, e.Event.HLC)
	}
	r.heard = e.Event.HLC
	return e
}

// unheard gives the lines of r beyond what to holds.
func (r *replica) unheard(t *testing.T, to *replica) [][]byte {
	t.Helper()
	marks, err := to.Marks()
	must(t, err)
	var out [][]byte
	for _, e := range all(t, r) {
		if e.Event.Seq > marks[e.Event.Device] {
			out = append(out, e.Raw)
		}
	}
	return out
}

func (r *replica) hear(t *testing.T, lines [][]byte) {
	t.Helper()
	before := len(all(t, r))
	got := merged(t, r, lines...)
	if len(got.Forks) > 0 || len(got.Refused) > 0 || got.Renewed != "" {
		t.Errorf("false alarm: %+v", got)
	}
	if sum := got.Added + got.Held + len(got.Waiting); sum != len(lines) {
		t.Errorf("%d lines sent, %d accounted for: %+v", len(lines), sum, got)
	}
	for _, e := range all(t, r)[before:] {
		if !slices.Contains(got.Ahead, e.Event.ID) {
			r.heard = max(r.heard, e.Event.HLC)
		}
	}
}

// badLink loses, doubles, shuffles and cuts.
func badLink(lines [][]byte, chance *rand.Rand) [][]byte {
	var out [][]byte
	for _, line := range lines {
		for range []int{1, 1, 1, 0, 2}[chance.IntN(5)] {
			out = append(out, line)
		}
	}
	if chance.IntN(2) == 0 {
		chance.Shuffle(len(out), func(i, j int) { out[i], out[j] = out[j], out[i] })
	}
	if len(out) > 0 && chance.IntN(3) == 0 {
		out = out[:chance.IntN(len(out))]
	}
	return out
}

// goodRound lets everyone meet everyone over links that work, twice, so that
// what the last heard reaches the first.
func goodRound(t *testing.T, replicas []*replica) {
	t.Helper()
	for range 2 {
		for _, from := range replicas {
			for _, to := range replicas {
				to.hear(t, from.unheard(t, to))
			}
		}
	}
}

// agree demands that each holds every acknowledged event, once and unchanged.
func agree(t *testing.T, replicas []*replica, kept []journal.Entry) {
	t.Helper()
	first, err := replicas[0].Marks()
	must(t, err)
	for _, r := range replicas {
		marks, err := r.Marks()
		must(t, err)
		equal(t, "marks of "+r.Device(), marks, first)
		held := map[observation.ID]string{}
		for _, e := range all(t, r) {
			held[e.Event.ID] = string(e.Raw)
		}
		equal(t, "events of "+r.Device(), len(held), len(kept))
		for _, e := range kept {
			equal(t, e.Event.ID.String()+" at "+r.Device(), held[e.Event.ID], string(e.Raw))
		}
		if notes := whole(t, r).Notes; len(notes) > 0 {
			t.Errorf("the check of %s found %q", r.Device(), notes)
		}
	}
}
