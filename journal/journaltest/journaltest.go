// Package journaltest holds the tests that every store of package journal has to
// pass, whatever it is made of.
//
// It knows no store and tests no rule of an observation. Start with Run; Writer
// makes the lines of a device that is not there.
package journaltest

import (
	"fmt"
	"reflect"
	"testing"
	"time"

	"asfound/journal"
	"asfound/observation"
)

// Place makes a new, empty journal with that clock and returns what opens it:
// each call gives another handle on the same journal. Handles are closed by the
// suite, the place itself by t.Cleanup.
type Place func(t testing.TB, now func() time.Time) (open func() journal.Store)

// Run puts a store through every test. Histories is how many made-up exchanges
// between replicas the model test plays.
func Run(t *testing.T, place Place, histories int) {
	for name, test := range map[string]func(*testing.T, Place){
		"an event is numbered and chained":                   numbered,
		"what was acknowledged is what is read":              acknowledged,
		"kept after closing":                                 reopened,
		"read from the middle, stopped, and appending":       readMiddle,
		"two handles record at once":                         twoHandles,
		"the same lines twice change nothing":                twice,
		"lines out of order":                                 outOfOrder,
		"a gap waits for the next round":                     gap,
		"an unknown kind is kept byte for byte":              unknownKind,
		"a kind that only a newer program reads is kept":     unreadable,
		"a fork is kept aside":                               fork,
		"a fork of this device gives it a new name":          ownFork,
		"a broken chain is refused":                          brokenChain,
		"what is no event is refused and the rest kept":      noEvent,
		"a clock ten minutes ahead is followed, more is not": clockAhead,
		"an observation that is too long is refused":         tooLong,
		"photographs": photographs,
		"a photograph that breaks off is not kept":             brokenPhotograph,
		"the state is the same wherever the same is held":      state,
		"the check of a whole journal names what is not there": check,
	} {
		t.Run(name, func(t *testing.T) { test(t, place) })
	}
	t.Run("replicas that meet by bad links agree in the end", func(t *testing.T) { model(t, place, histories) })
}

// Clock is a device's clock that moves only when it is told to.
type Clock struct{ at time.Time }

// NewClock stands at a fixed hour, west of Greenwich.
func NewClock() *Clock {
	return &Clock{at: time.Date(2026, 3, 9, 8, 30, 0, 0, time.FixedZone("", -5*60*60))}
}

// Now is the time it shows.
func (c *Clock) Now() time.Time { return c.at }

// Move sets it on, or back.
func (c *Clock) Move(by time.Duration) { c.at = c.at.Add(by) }

// Writer makes the lines of a device of its own, right or wrong as a test needs.
type Writer struct {
	Device string
	Seq    uint64
	Prev   string
	HLC    uint64
}

// NewWriter is a device whose clock stands where NewClock does.
func NewWriter(device string) *Writer {
	return &Writer{Device: device, HLC: uint64(NewClock().Now().UnixMilli()) << 16}
}

// Line is the next line of the device, of any kind and data.
func (w *Writer) Line(kind, data string) []byte {
	w.Seq++
	w.HLC++
	prev := ""
	if w.Prev != "" {
		prev = fmt.Sprintf(`"prev":%q,`, w.Prev)
	}
	raw := fmt.Appendf(nil, `{"dev":%q,"seq":%d,%s"hlc":%d,"wall":"2026-03-09T08:30:00-05:00","who":"Dell Amoah","kind":%q,"data":%s}`,
		w.Device, w.Seq, prev, w.HLC, kind, data)
	w.Prev = journal.HashOf(raw).String()
	return raw
}

// Rooms are n lines that record rooms.
func (w *Writer) Rooms(n int) [][]byte {
	lines := make([][]byte, n)
	for i := range lines {
		lines[i] = w.Line("room.1", fmt.Sprintf(`{"building":"k7m3qd8x2a-1","name":"room %d","floor":0,"order":%d}`, i+1, i+1))
	}
	return lines
}

// Room is an observation to append.
func Room(name string) observation.Observation {
	return observation.Observation{Who: "Marit Sandvei", Stop: "s1",
		Body: observation.Room{Building: "k7m3qd8x2a-1", Name: name}}
}

func opened(t *testing.T, place Place, clock *Clock) journal.Store {
	t.Helper()
	s := place(t, clock.Now)()
	t.Cleanup(func() { must(t, s.Close()) })
	return s
}

func must(t testing.TB, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

func appended(t testing.TB, s journal.Store, name string) journal.Entry {
	t.Helper()
	e, err := s.Append(Room(name))
	must(t, err)
	return e
}

func merged(t testing.TB, s journal.Store, raws ...[]byte) journal.Merged {
	t.Helper()
	m, err := s.Merge(raws)
	must(t, err)
	return m
}

func all(t testing.TB, s journal.Store) []journal.Entry {
	t.Helper()
	var out []journal.Entry
	must(t, s.Read(0, func(e journal.Entry) error {
		out = append(out, e)
		return nil
	}))
	return out
}

func raws(entries []journal.Entry) [][]byte {
	var out [][]byte
	for _, e := range entries {
		out = append(out, e.Raw)
	}
	return out
}

func equal[T any](t testing.TB, what string, got, want T) {
	t.Helper()
	if !reflect.DeepEqual(got, want) {
		t.Errorf("%s: got %v, want %v", what, got, want)
	}
}

// whole demands that the check of s finds no fault.
func whole(t testing.TB, s journal.Store) journal.Report {
	t.Helper()
	r, err := journal.Check(s)
	must(t, err)
	if !r.Whole() {
		t.Errorf("the journal is not whole:\n%v", r)
	}
	return r
}
