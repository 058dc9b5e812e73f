package web

import (
	"fmt"
	"slices"
	"sync"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"asfound/observation"
)

// notesOf are notes of several devices, one device after the other, so that most
// of them come in late; each was taken as drawn.
func notesOf(devices, each int, taken func(i int) time.Time) []observation.Event {
	var out []observation.Event
	for d := range devices {
		for i := range each {
			out = append(out, observation.Event{ID: observation.ID{Device: fmt.Sprint("d", d), Seq: uint64(i + 1)}, Wall: taken(i),
				Kind: fmt.Sprintf("note.%d", d+1), Observation: observation.Observation{Who: "Marit Sandvei", Body: observation.Note{Text: fmt.Sprint("note ", i)}}})
		}
	}
	return out
}

// asIfAlone fails when an index as of some events differs from one that never
// saw any others, or from the order that a plain stable sort gives.
func asIfAlone(t interface{ Errorf(string, ...any) }, h *house, events []observation.Event, got indexed) {
	var alone index
	want := alone.look(events, h.found())
	if diff := cmp.Diff([]any{want.lines, want.order, want.kinds}, []any{got.lines, got.order, got.kinds}, cmpopts.EquateEmpty()); diff != "" {
		t.Errorf("%d events: lines, order or kinds differ (-alone +got):\n%s", len(events), diff)
	}
	plain := make([]int, len(events))
	for i := range plain {
		plain[i] = i
	}
	slices.SortStableFunc(plain, func(a, b int) int { return events[a].When().Compare(events[b].When()) })
	if diff := cmp.Diff(plain, append([]int{}, got.order...)); diff != "" {
		t.Errorf("%d events: not in the order of when they were taken (-want +got):\n%s", len(events), diff)
	}
	if len(got.events) != len(events) {
		t.Errorf("%d events asked for, %d returned", len(events), len(got.events))
	}
}

// Whoever looks with more or fewer events than the index holds gets those and no
// others.
func TestIndexOfOlderEvents(t *testing.T) {
	h := built(t)
	rapid.Check(t, func(r *rapid.T) {
		minutes := rapid.SliceOfN(rapid.IntRange(0, 8), 1, 12).Draw(r, "minutes")
		events := notesOf(rapid.IntRange(1, 3).Draw(r, "devices"), len(minutes), func(i int) time.Time { return h.now.Add(time.Duration(minutes[i]) * time.Minute) })
		var x index
		var held []indexed
		for range rapid.IntRange(1, 8).Draw(r, "looks") {
			held = append(held, x.look(events[:rapid.IntRange(0, len(events)).Draw(r, "upto")], h.found()))
		}
		for _, got := range held {
			asIfAlone(r, h, got.events, got)
		}
	})
}

// Many look at once, each with what it has read of the journal.
func TestIndexLookedAtByMany(t *testing.T) {
	h := built(t)
	events := notesOf(3, 40, func(i int) time.Time { return h.now.Add(time.Duration(i%7) * time.Minute) })
	found := h.found()
	var x index
	got := make([]indexed, len(events))
	var group sync.WaitGroup
	for n := range got {
		group.Go(func() { got[n] = x.look(events[:n+1], found) })
	}
	group.Wait()
	for n, g := range got {
		if asIfAlone(t, h, events[:n+1], g); t.Failed() {
			return
		}
	}
}

// 40,000 entries of two devices, one device after the other, are put in order at
// once: moving the rest for each of them took seconds under the lock. What the
// lines take is not counted.
func TestIndexOfTwoDevicesTakesNoTime(t *testing.T) {
	from := time.Date(2031, 1, 1, 0, 0, 0, 0, time.UTC)
	events := notesOf(2, 20_000, func(i int) time.Time { return from.Add(time.Duration(i) * time.Minute) })
	start := time.Now()
	half := inOrder(nil, events[:20_000])
	order := inOrder(half, events)
	took := time.Since(start)
	if len(order) != len(events) || order[0] != 0 || order[1] != 20_000 || order[39_998] != 19_999 {
		t.Fatalf("the order begins %v", order[:4])
	}
	if took > time.Second {
		t.Errorf("%v for %d entries", took, len(events))
	}
}
