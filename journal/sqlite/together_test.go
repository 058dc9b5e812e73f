package sqlite_test

import (
	"errors"
	"fmt"
	"path/filepath"
	"testing"
	"time"

	"asfound/journal"
	"asfound/journal/sqlite"
	"asfound/observation"
)

func building(n int) observation.Observation {
	return observation.Observation{Who: "Marit Sandvei", Body: observation.Building{Name: fmt.Sprint("B", n)}}
}

// Several observations in one go are there when the file is opened again, chained
// as if recorded one by one; when it fails on the way none is there.
func TestTogether(t *testing.T) {
	path := filepath.Join(t.TempDir(), "together.job")
	store, err := sqlite.Open(path, time.Now)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := store.Append(building(0)); err != nil {
		t.Fatal(err)
	}
	var ids []observation.ID
	add := func(n int, then error) error {
		return store.Together(func(add journal.Adder) error {
			for i := range n {
				e, err := add(building(i + 1))
				if err != nil {
					return err
				}
				ids = append(ids, e.Event.ID)
			}
			return then
		})
	}
	full := errors.New("stopped on the way")
	if err := add(5, full); !errors.Is(err, full) {
		t.Fatalf("got %v", err)
	}
	if n, _ := store.Length(); n != 1 {
		t.Fatalf("%d entries after it failed, want the one before", n)
	}
	ids = nil
	if err := add(300, nil); err != nil {
		t.Fatal(err)
	}
	if _, err := store.Append(building(301)); err != nil {
		t.Fatal(err)
	}
	if err := store.Close(); err != nil {
		t.Fatal(err)
	}
	if store, err = sqlite.Open(path, time.Now); err != nil {
		t.Fatal(err)
	}
	defer store.Close()
	report, err := journal.Check(store)
	if n, _ := store.Length(); err != nil || !report.Whole() || n != 302 {
		t.Fatalf("%d entries, %v, %v", n, report, err)
	}
	at := 0
	err = store.Read(1, func(e journal.Entry) error {
		if at < len(ids) && (e.Event.ID != ids[at] || e.Position != int64(at)+2) {
			t.Errorf("entry %d is %s, want %s", e.Position, e.Event.ID, ids[at])
		}
		at++
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}
