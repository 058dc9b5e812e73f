package journal_test

import (
	"errors"
	"testing"
	"time"

	"asfound/journal"
	"asfound/observation"
)

// Recorded together or one by one, another device makes the same of it; what
// fails on the way leaves no gap.
func TestTogetherInMemory(t *testing.T) {
	now := func() time.Time { return time.Date(2031, 5, 28, 9, 0, 0, 0, time.UTC) }
	one, other := journal.NewMemory([32]byte{1}, now), journal.NewMemory([32]byte{2}, now)
	note := observation.Observation{Who: "Marit Sandvei", Body: observation.Note{Text: "seen"}}
	three := func(then error) error {
		return one.Together(func(add journal.Adder) error {
			for range 3 {
				if _, err := add(note); err != nil {
					return err
				}
			}
			return then
		})
	}
	stopped := errors.New("stopped")
	if err := errors.Join(three(nil), three(nil)); err != nil {
		t.Fatal(err)
	}
	if err := three(stopped); !errors.Is(err, stopped) {
		t.Fatalf("got %v", err)
	}
	if _, err := one.Append(note); err != nil {
		t.Fatal(err)
	}
	var raws [][]byte
	err := one.Read(0, func(e journal.Entry) error {
		raws = append(raws, e.Raw)
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if got, err := other.Merge(raws); err != nil || got.Added != 7 || len(got.Waiting)+len(got.Refused)+len(got.Forks) > 0 {
		t.Errorf("%+v, %v", got, err)
	}
}
