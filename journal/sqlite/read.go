package sqlite

import (
	"crypto/sha256"
	"database/sql"
	"fmt"

	"asfound/journal"
)

// chunk is how many entries are read, decoded and handed on at a time.
const chunk = 256

// Read gives the entries there were when it was called. The rows are read on one
// goroutine, decoded on a second and handed out on the caller's, so that a long
// journal is read in the time of the slowest of the three.
func (s *Store) Read(after int64, each func(journal.Entry) error) error {
	stop := make(chan struct{})
	rows, decoded := make(chan []journal.Entry, 4), make(chan []journal.Entry, 4)
	var failed error // of the reading goroutine, set before rows is closed
	go func() {
		defer close(rows)
		failed = s.rows(after, rows, stop)
	}()
	go func() {
		defer close(decoded)
		for entries := range rows {
			for i := range entries {
				decode(&entries[i])
			}
			decoded <- entries
		}
	}()
	err := hand(decoded, each)
	close(stop)
	for range decoded { // until both goroutines have ended
	}
	if err == nil && failed != nil {
		return fmt.Errorf("read journal: %w", typed(failed))
	}
	return err
}

func hand(decoded <-chan []journal.Entry, each func(journal.Entry) error) error {
	for entries := range decoded {
		for _, e := range entries {
			if err := each(e); err != nil {
				return err
			}
		}
	}
	return nil
}

// rows sends the rows in chunks until the end or until stop is closed.
func (s *Store) rows(after int64, to chan<- []journal.Entry, stop <-chan struct{}) error {
	rows, err := s.db.Query(`SELECT position, hash, raw FROM events WHERE position > ? ORDER BY position`, after)
	if err != nil {
		return err
	}
	defer rows.Close()
	var kept []byte // the bytes of many lines in one piece of memory
	entries := make([]journal.Entry, 0, chunk)
	for rows.Next() {
		var e journal.Entry
		var hash, raw sql.RawBytes
		if err := rows.Scan(&e.Position, &hash, &raw); err != nil {
			return err
		}
		if len(hash) != sha256.Size {
			return fmt.Errorf("entry %d has no hash: the file is damaged", e.Position)
		}
		copy(e.Hash[:], hash)
		e.Raw, kept = keep(kept, raw)
		if entries = append(entries, e); len(entries) == chunk {
			select {
			case to <- entries:
			case <-stop:
				return nil
			}
			entries = make([]journal.Entry, 0, chunk)
		}
	}
	if len(entries) > 0 {
		to <- entries
	}
	return rows.Err()
}

// keep copies raw to the end of kept, or of a new piece when it does not fit.
func keep(kept, raw []byte) (copied, rest []byte) {
	const piece = 64 << 10
	if len(kept)+len(raw) > cap(kept) {
		kept = make([]byte, 0, max(piece, len(raw)))
	}
	from := len(kept)
	kept = append(kept, raw...)
	return kept[from:len(kept):len(kept)], kept
}

// decode fills in the event of a kept line. A line that cannot be read, which
// Merge lets in only when a newer program wrote its kind, has no Body.
func decode(e *journal.Entry) {
	e.Event, _ = journal.Decode(e.Raw)
}
