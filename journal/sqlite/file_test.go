package sqlite

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"asfound/journal"
	"asfound/journal/journaltest"
	"asfound/observation"
)

func open(t *testing.T, path string) *Store {
	t.Helper()
	s, err := Open(path, journaltest.NewClock().Now)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.Close() })
	return s
}

func count(t *testing.T, s *Store) int64 {
	t.Helper()
	n, err := s.Length()
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// TestDiskFull lets SQLite run out of pages, which gives SQLITE_FULL as a full
// disk does.
func TestDiskFull(t *testing.T) {
	s := open(t, filepath.Join(t.TempDir(), "pellam.job"))
	s.db.SetMaxOpenConns(1) // the limit is of a connection
	limit := func(pages int) {
		if _, err := s.db.Exec(fmt.Sprint("PRAGMA max_page_count = ", pages)); err != nil {
			t.Fatal(err)
		}
	}
	limit(20)
	var kept int64
	var err error
	for err == nil {
		if _, err = s.Append(journaltest.Room(strings.Repeat("long ", 300))); err == nil {
			kept++
		}
	}
	if !errors.Is(err, journal.ErrFull) {
		t.Fatalf("after %d events: %v, want that the disk is full", kept, err)
	}
	if _, err := s.Merge(journaltest.NewWriter("phone").Rooms(200)); !errors.Is(err, journal.ErrFull) {
		t.Errorf("merge: %v, want that the disk is full", err)
	}
	if n := count(t, s); n != kept || kept == 0 {
		t.Errorf("%d events held, %d acknowledged", n, kept)
	}
	limit(100000)
	e, err := s.Append(journaltest.Room("when there is space again"))
	if err != nil || e.Event.Seq != uint64(kept)+1 {
		t.Errorf("after the disk was emptied: event %s, %v", e.Event.ID, err)
	}
	if report, err := journal.Check(s); err != nil || !report.Whole() {
		t.Errorf("%v %v", report, err)
	}
}

// TestPhotographOnFullDisk has the photograph's source report the full disk, as
// the file under it would.
func TestPhotographOnFullDisk(t *testing.T) {
	s := open(t, filepath.Join(t.TempDir(), "pellam.job"))
	full := &os.PathError{Op: "write", Path: "photograph", Err: syscall.ENOSPC}
	_, _, err := s.PutBlob(failing{full})
	if !errors.Is(err, journal.ErrFull) {
		t.Errorf("got %v, want that the disk is full", err)
	}
	if left, err := os.ReadDir(s.photos); err != nil || len(left) != 0 {
		t.Errorf("left behind: %v, %v", left, err)
	}
}

type failing struct{ err error }

func (f failing) Read([]byte) (int, error) { return 0, f.err }

// TestNumberTaken adds an event under a number in use, as a handle would that
// had read the number outside its transaction.
func TestNumberTaken(t *testing.T) {
	s := open(t, filepath.Join(t.TempDir(), "pellam.job"))
	first, err := s.Append(journaltest.Room("kitchen"))
	if err != nil {
		t.Fatal(err)
	}
	err = s.write(func(tx *tx) error {
		again := first
		again.Raw = []byte("another")
		_, err := tx.Add(again)
		return err
	})
	if !errors.Is(err, journal.ErrNumberTaken) {
		t.Errorf("got %v, want that the number is taken", err)
	}
	if count(t, s) != 1 {
		t.Error("the second event under one number was kept")
	}
}

func TestEventsStay(t *testing.T) {
	s := open(t, filepath.Join(t.TempDir(), "pellam.job"))
	if _, err := s.Append(journaltest.Room("kitchen")); err != nil {
		t.Fatal(err)
	}
	for _, change := range []string{`UPDATE events SET raw = x'00'`, `DELETE FROM events`} {
		if _, err := s.db.Exec(change); err == nil {
			t.Errorf("the file let through: %s", change)
		}
	}
}

func TestSettings(t *testing.T) {
	s := open(t, filepath.Join(t.TempDir(), "pellam.job"))
	for pragma, want := range map[string]string{"journal_mode": "wal", "synchronous": "2", "foreign_keys": "1", "busy_timeout": "20000"} {
		var got string
		if err := s.db.QueryRow("PRAGMA " + pragma).Scan(&got); err != nil || got != want {
			t.Errorf("%s is %s (%v), want %s", pragma, got, err, want)
		}
	}
}

func TestOpenRefuses(t *testing.T) {
	for name, c := range map[string]struct {
		spoil func(t *testing.T, path string)
		say   string
	}{
		"a picture": {func(t *testing.T, path string) {
			if err := os.WriteFile(path, []byte(strings.Repeat("\x89PNG not a journal", 300)), 0o600); err != nil {
				t.Fatal(err)
			}
		}, "not a job"},
		"a file of a newer program": {func(t *testing.T, path string) {
			newer(t, path, `INSERT INTO version (number, checksum) VALUES (2, 'x')`)
		}, "newer program"},
		"a layout that was tampered with": {func(t *testing.T, path string) {
			newer(t, path, `UPDATE version SET checksum = 'x'`)
		}, "layout 1"},
		"a folder that is not there": {func(t *testing.T, path string) {
			if err := os.Remove(filepath.Dir(path)); err != nil {
				t.Fatal(err)
			}
		}, "open journal"},
	} {
		t.Run(name, func(t *testing.T) {
			folder := filepath.Join(t.TempDir(), "job")
			if err := os.Mkdir(folder, 0o755); err != nil {
				t.Fatal(err)
			}
			path := filepath.Join(folder, "pellam.job")
			c.spoil(t, path)
			s, err := Open(path, time.Now)
			if err == nil {
				s.Close()
			}
			if err == nil || !strings.Contains(err.Error(), c.say) {
				t.Errorf("got %v, want it refused with %q", err, c.say)
			}
		})
	}
}

func newer(t *testing.T, path, change string) {
	t.Helper()
	s := open(t, path)
	if _, err := s.db.Exec(change); err != nil {
		t.Fatal(err)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
}

// TestCheckFindsChangedLine turns off the guards, as a damaged disk would.
func TestCheckFindsChangedLine(t *testing.T) {
	s := open(t, filepath.Join(t.TempDir(), "pellam.job"))
	for _, name := range []string{"kitchen", "hall", "bath"} {
		if _, err := s.Append(journaltest.Room(name)); err != nil {
			t.Fatal(err)
		}
	}
	for _, change := range []string{`DROP TRIGGER events_stay`, `DROP TRIGGER events_are_kept`,
		`UPDATE events SET raw = CAST(replace(CAST(raw AS TEXT), 'hall', 'barn') AS BLOB) WHERE position = 2`} {
		if _, err := s.db.Exec(change); err != nil {
			t.Fatal(err)
		}
	}
	id := observation.ID{Device: s.Device(), Seq: 2}.String()
	wantFault(t, s, "Observation "+id+" is not what was recorded")
	wantFault(t, s, "does not follow the one before it")
	if _, err := s.db.Exec(`DELETE FROM events WHERE position = 2`); err != nil {
		t.Fatal(err)
	}
	wantFault(t, s, "one is gone")
	wantFault(t, s, "one is gone or out of order")
}

func wantFault(t *testing.T, s *Store, say string) {
	t.Helper()
	report, err := journal.Check(s)
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(strings.Join(report.Faults, "\n"), say) {
		t.Errorf("the check says:\n%v, want %q", report, say)
	}
}

func TestSweep(t *testing.T) {
	path := filepath.Join(t.TempDir(), "pellam.job")
	s := open(t, path)
	if err := os.Mkdir(s.photos, 0o755); err != nil {
		t.Fatal(err)
	}
	old, young := filepath.Join(s.photos, arriving+"1"), filepath.Join(s.photos, arriving+"2")
	for _, file := range []string{old, young} {
		if err := os.WriteFile(file, nil, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	yesterday := time.Now().Add(-25 * time.Hour)
	if err := os.Chtimes(old, yesterday, yesterday); err != nil {
		t.Fatal(err)
	}
	open(t, path)
	left, err := os.ReadDir(s.photos)
	if err != nil || len(left) != 1 || left[0].Name() != arriving+"2" {
		t.Errorf("left: %v, %v", left, err)
	}
}
