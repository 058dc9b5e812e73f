// Package sqlite keeps the journal of a job in one SQLite file, with the
// photographs as files in a folder beside it: pellam.job and pellam.photos.
//
// It holds no rule of its own: what is counted, kept aside or refused is for
// package journal. It never acknowledges what is not on the disk (write-ahead
// log, synchronous=FULL), and several handles and programs may share one file.
//
// Start with Open.
package sqlite

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"net/url"
	"path/filepath"
	"strings"
	"sync"
	"time"

	"modernc.org/sqlite"
	sqlite3 "modernc.org/sqlite/lib"

	"asfound/journal"
	"asfound/observation"
)

// Store is a journal.Store on a file.
type Store struct {
	db     *sql.DB
	photos string // folder of the photographs
	now    func() time.Time

	writing sync.Mutex // one writer of this handle at a time; others wait in SQLite
	seen    sync.Mutex
	device  string // as last read from the file
}

var _ journal.Store = (*Store)(nil)

// Open opens the journal at path and makes it when there is none; now is the
// clock of this device.
func Open(path string, now func() time.Time) (*Store, error) {
	path, err := filepath.Abs(path)
	if err != nil {
		return nil, fmt.Errorf("open journal %s: %w", path, err)
	}
	db, err := sql.Open("sqlite", source(path))
	if err != nil {
		return nil, fmt.Errorf("open journal %s: %w", path, err)
	}
	s := &Store{db: db, now: now, photos: strings.TrimSuffix(path, filepath.Ext(path)) + ".photos"}
	if err := s.prepare(); err != nil {
		return nil, errors.Join(fmt.Errorf("open journal %s: %w", path, sayNotAJob(err)), db.Close())
	}
	if err := errors.Join(syncFolder(filepath.Dir(path)), s.sweep()); err != nil {
		return nil, errors.Join(fmt.Errorf("open journal %s: %w", path, err), db.Close())
	}
	return s, nil
}

// source names the file and the settings of each connection. The time to wait
// for another writer comes first: it counts for the settings after it.
func source(path string) string {
	settings := url.Values{"_txlock": {"immediate"}, "_pragma": {
		"busy_timeout(20000)", "journal_mode(WAL)", "synchronous(FULL)", "foreign_keys(1)", "trusted_schema(0)"}}
	file := url.URL{Scheme: "file", Path: filepath.ToSlash(path), RawQuery: settings.Encode()}
	return file.String()
}

// prepare makes the tables and the device's key.
func (s *Store) prepare() error {
	return s.write(func(t *tx) error {
		if err := migrate(t.sql); err != nil {
			return err
		}
		_, err := t.Own()
		if errors.Is(err, sql.ErrNoRows) {
			_, err = t.Renew()
		}
		return err
	})
}

// Append records o.
func (s *Store) Append(o observation.Observation) (out journal.Entry, err error) {
	err = s.write(func(t *tx) error {
		out, err = journal.Append(t, s.now(), o)
		return err
	})
	if err != nil {
		return journal.Entry{}, fmt.Errorf("append observation: %w", err)
	}
	return out, nil
}

// Merge keeps lines of other stores.
func (s *Store) Merge(raws [][]byte) (out journal.Merged, err error) {
	err = s.write(func(t *tx) error {
		out, err = journal.Merge(t, s.now(), raws)
		return err
	})
	if err != nil {
		return journal.Merged{}, fmt.Errorf("merge: %w", err)
	}
	return out, nil
}

// write runs do in one transaction that excludes every other writer of the file
// from its start, so that a number read in it is still free when it is used.
func (s *Store) write(do func(*tx) error) error {
	s.writing.Lock()
	defer s.writing.Unlock()
	begun, err := s.db.BeginTx(context.Background(), nil)
	if err != nil {
		return typed(err)
	}
	t := &tx{sql: begun}
	if err := do(t); err != nil {
		return typed(errors.Join(err, begun.Rollback()))
	}
	if err := begun.Commit(); err != nil {
		return typed(err)
	}
	if t.device != "" {
		s.seen.Lock()
		s.device = t.device
		s.seen.Unlock()
	}
	return nil
}

// Length is the position of the last entry.
func (s *Store) Length() (n int64, err error) {
	err = s.db.QueryRow(`SELECT coalesce(max(position), 0) FROM events`).Scan(&n)
	if err != nil {
		return 0, fmt.Errorf("length of journal: %w", typed(err))
	}
	return n, nil
}

// tails steps from device to device through the index, so that its time grows
// with the devices and not with the events.
const tails = `WITH RECURSIVE devices (dev) AS (
    SELECT min(dev) FROM events
    UNION ALL
    SELECT (SELECT min(dev) FROM events WHERE dev > devices.dev) FROM devices WHERE devices.dev IS NOT NULL)
SELECT dev, (SELECT max(seq) FROM events WHERE events.dev = devices.dev) FROM devices WHERE dev IS NOT NULL`

// Marks says how far each device is held.
func (s *Store) Marks() (map[string]uint64, error) { return marks(s.db) }

func marks(q querier) (map[string]uint64, error) {
	marks := map[string]uint64{}
	err := each(q, tails, func(rows *sql.Rows) error {
		var dev string
		var seq int64
		if err := rows.Scan(&dev, &seq); err != nil {
			return err
		}
		marks[dev] = uint64(seq)
		return nil
	})
	if err != nil {
		return nil, fmt.Errorf("read marks: %w", err)
	}
	return marks, nil
}

// Forks lists the lines kept aside.
func (s *Store) Forks() (out []journal.Fork, err error) {
	err = each(s.db, `SELECT dev, seq, hash, raw FROM forks ORDER BY dev, seq, hash`, func(rows *sql.Rows) error {
		var f journal.Fork
		var seq int64
		var hash []byte
		if err := rows.Scan(&f.ID.Device, &seq, &hash, &f.Raw); err != nil {
			return err
		}
		f.ID.Seq = uint64(seq)
		copy(f.Hash[:], hash)
		out = append(out, f)
		return nil
	})
	if err != nil {
		return nil, fmt.Errorf("read forks: %w", err)
	}
	return out, nil
}

// querier is a database or a transaction in it.
type querier interface {
	Query(query string, args ...any) (*sql.Rows, error)
}

func each(q querier, query string, row func(*sql.Rows) error) error {
	rows, err := q.Query(query)
	if err != nil {
		return typed(err)
	}
	defer rows.Close()
	for rows.Next() {
		if err := row(rows); err != nil {
			return err
		}
	}
	return typed(rows.Err())
}

// Device is this store's id. Another handle may have renewed it; until this one
// writes it says the id it knew.
func (s *Store) Device() string {
	s.seen.Lock()
	defer s.seen.Unlock()
	return s.device
}

// CheckFile asks SQLite whether its file is whole: one sentence for each fault.
func (s *Store) CheckFile() (faults []string, err error) {
	err = each(s.db, `PRAGMA integrity_check`, func(rows *sql.Rows) error {
		var say string
		if err := rows.Scan(&say); err != nil {
			return err
		}
		if say != "ok" {
			faults = append(faults, "The journal file is damaged: "+say+".")
		}
		return nil
	})
	if err != nil {
		return nil, fmt.Errorf("check journal file: %w", err)
	}
	return faults, nil
}

// Close closes the file.
func (s *Store) Close() error { return s.db.Close() }

// typed gives the errors that callers tell apart their names.
func typed(err error) error {
	var fault *sqlite.Error
	if !errors.As(err, &fault) {
		return err
	}
	const primary = 0xff // the low byte of an extended code
	switch {
	case fault.Code()&primary == sqlite3.SQLITE_FULL:
		return fmt.Errorf("%w (%w)", journal.ErrFull, err)
	case fault.Code() == sqlite3.SQLITE_CONSTRAINT_UNIQUE:
		return fmt.Errorf("%w (%w)", journal.ErrNumberTaken, err)
	}
	return err
}

// sayNotAJob puts into words that a file is something else.
func sayNotAJob(err error) error {
	var fault *sqlite.Error
	if errors.As(err, &fault) && fault.Code() == sqlite3.SQLITE_NOTADB {
		return fmt.Errorf("this file is not a job: choose the one that was made here, or import a folder (%w)", err)
	}
	return err
}
