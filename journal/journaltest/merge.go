package journaltest

import (
	"bytes"
	"slices"
	"strings"
	"testing"
	"time"

	"asfound/journal"
	"asfound/observation"
)

func twice(t *testing.T, place Place) {
	s := opened(t, place, NewClock())
	lines := NewWriter("phone").Rooms(5)
	equal(t, "first time", merged(t, s, lines...), journal.Merged{Added: 5})
	before := all(t, s)
	equal(t, "second time", merged(t, s, lines...), journal.Merged{Held: 5})
	equal(t, "doubled in one merge", merged(t, s, slices.Concat(lines, lines)...), journal.Merged{Held: 10})
	equal(t, "entries", all(t, s), before)
}

func outOfOrder(t *testing.T, place Place) {
	s := opened(t, place, NewClock())
	lines := slices.Concat(NewWriter("phone").Rooms(4), NewWriter("tablet").Rooms(3))
	slices.Reverse(lines)
	equal(t, "merge", merged(t, s, lines...), journal.Merged{Added: 7})
	marks, err := s.Marks()
	must(t, err)
	equal(t, "marks", marks, map[string]uint64{"phone": 4, "tablet": 3})
	whole(t, s)
}

func gap(t *testing.T, place Place) {
	s := opened(t, place, NewClock())
	lines := NewWriter("phone").Rooms(4)
	got := merged(t, s, lines[3], lines[0], lines[2])
	want := journal.Merged{Added: 1, Waiting: []journal.Waiting{
		{Line: 2, ID: observation.ID{Device: "phone", Seq: 3}}, {Line: 0, ID: observation.ID{Device: "phone", Seq: 4}}}}
	equal(t, "with the second missing", got, want)
	marks, err := s.Marks()
	must(t, err)
	equal(t, "marks", marks, map[string]uint64{"phone": 1})
	equal(t, "next round", merged(t, s, lines...), journal.Merged{Added: 3, Held: 1})
}

func unknownKind(t *testing.T, place Place) {
	s := opened(t, place, NewClock())
	w := NewWriter("phone")
	lines := [][]byte{w.Line("drone.3", `{ "height" : 12.50, "b":[1, 2e0 ,"\u00e9"]}`), w.Line("room.1", `{"name":"hall","new":1,"building":"x"}`)}
	// A layout that this program would not write.
	odd := []byte(` { "seq" : 3, "dev":"phone","kind":"drone.3","data":null, "prev":"` + w.Prev + `","hlc":9,"wall":"2026-03-09T08:30:00Z","who":"x", "later":[true] } `)
	lines = append(lines, odd)
	equal(t, "merge", merged(t, s, lines...).Added, 3)
	entries := all(t, s)
	equal(t, "bytes", raws(entries), lines)
	equal(t, "data", string(entries[0].Event.Unknown), `{ "height" : 12.50, "b":[1, 2e0 ,"\u00e9"]}`)
	equal(t, "body", entries[0].Event.Body, nil)
	other := opened(t, place, NewClock())
	merged(t, other, raws(entries)...)
	equal(t, "bytes handed on", raws(all(t, other)), lines)
}

func unreadable(t *testing.T, place Place) {
	s := opened(t, place, NewClock())
	w := NewWriter("phone")
	line := w.Line("room.1", `{"building":"x","name":["two","names"]}`)
	equal(t, "merge", merged(t, s, line, w.Line("room.1", `{"building":"x","name":"hall"}`)).Added, 2)
	e := all(t, s)[0]
	equal(t, "bytes", string(e.Raw), string(line))
	equal(t, "body", e.Event.Body, nil)
	equal(t, "kind", e.Event.Kind, "room.1")
	equal(t, "number", e.Event.Seq, 1)
}

// fork draws a copied device: both know 1 and 2, then each records on.
//
//	1 — 2 — 3 — 4        counted: arrived first
//	     \
//	      3' — 4' — 5'   kept aside
func fork(t *testing.T, place Place) {
	s := opened(t, place, NewClock())
	w := NewWriter("phone")
	shared := w.Rooms(2)
	copied := *w
	ours := w.Rooms(2)
	theirs := [][]byte{copied.Line("room.1", `{"building":"x","name":"other"}`)}
	theirs = append(theirs, copied.Rooms(2)...)
	merged(t, s, slices.Concat(shared, ours)...)

	got := merged(t, s, slices.Concat(shared, theirs)...)
	equal(t, "held", got.Held, 2)
	equal(t, "forks reported", len(got.Forks), 3)
	equal(t, "added, waiting, refused", []int{got.Added, len(got.Waiting), len(got.Refused)}, []int{0, 0, 0})
	equal(t, "counted", raws(all(t, s)), slices.Concat(shared, ours))
	again := merged(t, s, theirs...)
	equal(t, "told once", len(again.Forks), 0)
	forks, err := s.Forks()
	must(t, err)
	var aside [][]byte
	for _, f := range forks {
		aside = append(aside, f.Raw)
		equal(t, "hash", f.Hash, journal.HashOf(f.Raw))
	}
	equal(t, "kept aside", aside, theirs)
	if notes := strings.Join(whole(t, s).Notes, "\n"); !strings.Contains(notes, "phone-3") {
		t.Errorf("the check does not name the fork: %s", notes)
	}
}

// ownFork is a restored backup: the device recorded 2 before, and again after.
func ownFork(t *testing.T, place Place) {
	clock := NewClock()
	s, peer := opened(t, place, clock), opened(t, place, clock)
	old := s.Device()
	first := appended(t, s, "kitchen")
	w := Writer{Device: old, Seq: 1, Prev: first.Hash.String(), HLC: first.Event.HLC}
	lost := w.Line("room.1", `{"building":"x","name":"recorded before the backup was restored"}`)
	merged(t, peer, first.Raw, lost)
	second := appended(t, s, "hall")

	got := merged(t, s, lost)
	if got.Renewed == "" || got.Renewed == old || s.Device() != got.Renewed {
		t.Fatalf("device %s, after the fork %q, says %q: want one new id", old, got.Renewed, s.Device())
	}
	third := appended(t, s, "bath")
	equal(t, "first event under the new name", third.Event.ID, observation.ID{Device: got.Renewed, Seq: 1})
	back := merged(t, peer, first.Raw, second.Raw, third.Raw)
	equal(t, "counted by the peer", back.Added, 1)
	equal(t, "kept aside by the peer", len(back.Forks), 1)
	equal(t, "told again", merged(t, s, lost).Renewed, "")
	whole(t, s)
}

func brokenChain(t *testing.T, place Place) {
	s := opened(t, place, NewClock())
	w := NewWriter("phone")
	lines := w.Rooms(3)
	merged(t, s, lines[0])
	changed := bytes.Replace(lines[1], []byte("room 2"), []byte("room 9"), 1)
	strange := bytes.Replace(lines[1], []byte(`"prev":"`), []byte(`"prev":"00`), 1)
	got := merged(t, s, strange)
	equal(t, "refused", len(got.Refused), 1)
	if !strings.Contains(got.Refused[0].Say, "phone-2") {
		t.Errorf("the refusal does not name the event: %s", got.Refused[0].Say)
	}
	// A changed line that keeps its link comes in where the right one is not
	// known; the next line then shows that one of the two was changed.
	merged(t, s, changed)
	got = merged(t, s, lines[2])
	equal(t, "refused after a change", len(got.Refused), 1)
	equal(t, "held", len(all(t, s)), 2)
}

func noEvent(t *testing.T, place Place) {
	s := opened(t, place, NewClock())
	lines := NewWriter("phone").Rooms(2)
	for name, bad := range map[string][]byte{
		"nothing":          {},
		"words":            []byte("kitchen 2.49 k"),
		"cut":              lines[0][:len(lines[0])/2],
		"two lines in one": append(append(bytes.Clone(lines[0]), '\n'), lines[1]...),
		"no number":        []byte(`{"dev":"phone","kind":"room.1","hlc":1,"wall":"2026-03-09T08:30:00Z","data":{}}`),
		"not text":         {'{', 0xff, 0xfe, '}'},
		"200 MB":           bytes.Repeat([]byte("x"), 200_000_000),
	} {
		got := merged(t, s, bad)
		if len(got.Refused) != 1 || got.Added != 0 || len(got.Refused[0].Say) > 200 {
			t.Errorf("%s: got %+v, want it refused in one sentence", name, got)
		}
	}
	got := merged(t, s, lines[0], []byte("kitchen"), lines[1])
	equal(t, "good lines", got.Added, 2)
	equal(t, "line refused", got.Refused[0].Line, 1)
}

func clockAhead(t *testing.T, place Place) {
	for name, c := range map[string]struct {
		ahead    time.Duration
		followed bool
	}{
		"an hour behind":  {-time.Hour, true},
		"9 minutes ahead": {9 * time.Minute, true},
		"11 minutes":      {11 * time.Minute, false},
		"a year":          {365 * 24 * time.Hour, false},
		"at the last bit": {0, false},
	} {
		t.Run(name, func(t *testing.T) {
			clock := NewClock()
			s := opened(t, place, clock)
			w := NewWriter("phone")
			w.HLC = uint64(clock.Now().Add(c.ahead).UnixMilli()) << 16
			if name == "at the last bit" {
				w.HLC = 1<<64 - 2
			}
			got := merged(t, s, w.Rooms(1)...)
			equal(t, "kept", got.Added, 1)
			equal(t, "flagged", len(got.Ahead) == 1, !c.followed)
			own := appended(t, s, "hall").Event.HLC
			equal(t, "own event is later", own > w.HLC, c.followed)
			if off := journal.ClockTime(own).Sub(clock.Now()); off > 10*time.Minute {
				t.Errorf("the clock ran %v ahead", off)
			}
		})
	}
}
