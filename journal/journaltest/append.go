package journaltest

import (
	"errors"
	"strings"
	"sync"
	"testing"
	"time"

	"asfound/journal"
	"asfound/observation"
)

func numbered(t *testing.T, place Place) {
	clock := NewClock()
	s := opened(t, place, clock)
	first := appended(t, s, "kitchen")
	clock.Move(-time.Hour)
	second := appended(t, s, "hall")
	equal(t, "first", first.Event.ID, observation.ID{Device: s.Device(), Seq: 1})
	equal(t, "second", second.Event.ID, observation.ID{Device: s.Device(), Seq: 2})
	equal(t, "positions", []int64{first.Position, second.Position}, []int64{1, 2})
	equal(t, "link of the first", first.Event.Prev, "")
	equal(t, "link of the second", second.Event.Prev, journal.HashOf(first.Raw).String())
	equal(t, "hash", second.Hash, journal.HashOf(second.Raw))
	if second.Event.HLC <= first.Event.HLC {
		t.Errorf("clock set back by an hour: event clock went from %d to %d", first.Event.HLC, second.Event.HLC)
	}
	equal(t, "wall clock", second.Event.Wall.Format(time.RFC3339), "2026-03-09T07:30:00-05:00")
	if len(s.Device()) != 10 {
		t.Errorf("device id %q: want ten signs", s.Device())
	}
}

func acknowledged(t *testing.T, place Place) {
	s := opened(t, place, NewClock())
	var want []journal.Entry
	for _, name := range []string{"kitchen", "<b>pantry</b> & \"larder\"", "Küche", "broken \xff text"} {
		want = append(want, appended(t, s, name))
	}
	equal(t, "entries", all(t, s), want)
	n, err := s.Length()
	must(t, err)
	equal(t, "length", n, 4)
}

func reopened(t *testing.T, place Place) {
	clock := NewClock()
	open := place(t, clock.Now)
	s := open()
	want := []journal.Entry{appended(t, s, "kitchen"), appended(t, s, "hall")}
	hash, _, err := s.PutBlob(strings.NewReader("a picture"))
	must(t, err)
	device := s.Device()
	must(t, s.Close())

	clock.Move(-2 * time.Hour)
	s = open()
	equal(t, "device", s.Device(), device)
	equal(t, "entries", all(t, s), want)
	equal(t, "photograph held", s.HasBlob(hash), true)
	third := appended(t, s, "bath")
	equal(t, "number after opening again", third.Event.Seq, 3)
	if third.Event.HLC <= want[1].Event.HLC {
		t.Error("the clock went back while the journal was closed")
	}
	whole(t, s)
	must(t, s.Close())
}

func readMiddle(t *testing.T, place Place) {
	s := opened(t, place, NewClock())
	const n = 600 // more than a store hands on at a time
	merged(t, s, NewWriter("phone").Rooms(n)...)
	var positions []int64
	enough := errors.New("enough")
	err := s.Read(n-3, func(e journal.Entry) error {
		positions = append(positions, e.Position)
		appended(t, s, "added while reading")
		if len(positions) == 2 {
			return enough
		}
		return nil
	})
	if !errors.Is(err, enough) {
		t.Errorf("stopped reading: got %v, want the error of the reader", err)
	}
	equal(t, "positions", positions, []int64{n - 2, n - 1})
	count := 0
	must(t, s.Read(0, func(journal.Entry) error {
		if count++; count == 1 {
			appended(t, s, "added while reading")
		}
		return nil
	}))
	equal(t, "entries there when reading began", count, n+2)
	must(t, s.Read(n+100, func(journal.Entry) error { return enough }))
}

func twoHandles(t *testing.T, place Place) {
	open := place(t, NewClock().Now)
	const each = 50
	ids := make(chan observation.ID, 2*each)
	var done sync.WaitGroup
	handles := []journal.Store{open(), open()}
	for _, s := range handles {
		done.Go(func() {
			for range each {
				e, err := s.Append(Room("at once"))
				if err != nil {
					t.Error(err)
					return
				}
				ids <- e.Event.ID
			}
		})
	}
	done.Wait()
	close(ids)
	seen := map[observation.ID]bool{}
	for id := range ids {
		seen[id] = true
	}
	equal(t, "different numbers acknowledged", len(seen), 2*each)
	for _, s := range handles {
		entries := all(t, s)
		equal(t, "entries held", len(entries), 2*each)
		for _, e := range entries {
			delete(seen, e.Event.ID)
		}
		whole(t, s)
	}
	equal(t, "acknowledged and not held", len(seen), 0)
	for _, s := range handles {
		must(t, s.Close())
	}
}

func tooLong(t *testing.T, place Place) {
	s := opened(t, place, NewClock())
	_, err := s.Append(Room(strings.Repeat("x", journal.LongestLine)))
	var unusable observation.Unusable
	if !errors.As(err, &unusable) {
		t.Errorf("got %v, want an error for the one who typed it", err)
	}
	equal(t, "number after the refusal", appended(t, s, "hall").Event.Seq, 1)
}
