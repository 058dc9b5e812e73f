package sqlite

import (
	"database/sql"
	"errors"

	"asfound/journal"
	"asfound/observation"
)

// tx is a transaction under way, as the rules of package journal use it.
type tx struct {
	sql    *sql.Tx
	device string // id in use, once asked for
	add    *sql.Stmt
}

func (t *tx) Own() (string, error) {
	var seed []byte
	if err := t.sql.QueryRow(`SELECT seed FROM device ORDER BY number DESC LIMIT 1`).Scan(&seed); err != nil {
		return "", err
	}
	k, err := keyFrom(seed)
	if err != nil {
		return "", err
	}
	t.device = k.device()
	return t.device, nil
}

func (t *tx) Renew() (string, error) {
	k, err := newKey()
	if err != nil {
		return "", err
	}
	t.device = k.device()
	_, err = t.sql.Exec(`INSERT INTO device (seed) VALUES (?)`, k[:])
	return t.device, err
}

func (t *tx) Clock() (uint64, error) {
	var hlc int64
	err := t.sql.QueryRow(`SELECT hlc FROM clock`).Scan(&hlc)
	return uint64(hlc), err
}

// SetClock keeps the 64 bits as SQLite's signed number and reads them back so.
func (t *tx) SetClock(hlc uint64) error {
	_, err := t.sql.Exec(`UPDATE clock SET hlc = ?`, int64(hlc))
	return err
}

func (t *tx) Tail(device string) (journal.Tail, error) {
	var seq int64
	var hash []byte
	err := t.sql.QueryRow(`SELECT seq, hash FROM events WHERE dev = ? ORDER BY seq DESC LIMIT 1`, device).Scan(&seq, &hash)
	if errors.Is(err, sql.ErrNoRows) {
		return journal.Tail{}, nil
	}
	out := journal.Tail{Seq: uint64(seq)}
	copy(out.Hash[:], hash)
	return out, err
}

func (t *tx) Marks() (map[string]uint64, error) { return marks(t.sql) }

func (t *tx) Hash(id observation.ID) (out journal.Hash, held bool, err error) {
	var hash []byte
	err = t.sql.QueryRow(`SELECT hash FROM events WHERE dev = ? AND seq = ?`, id.Device, int64(id.Seq)).Scan(&hash)
	if errors.Is(err, sql.ErrNoRows) {
		return out, false, nil
	}
	copy(out[:], hash)
	return out, err == nil, err
}

func (t *tx) Aside(device string, h journal.Hash) (aside bool, err error) {
	err = t.sql.QueryRow(`SELECT EXISTS (SELECT 1 FROM forks WHERE dev = ? AND hash = ?)`, device, h[:]).Scan(&aside)
	return aside, err
}

// Add leaves the position to SQLite: one more than the highest, and since no row
// is ever deleted, without gaps.
func (t *tx) Add(e journal.Entry) (int64, error) {
	if t.add == nil {
		add, err := t.sql.Prepare(`INSERT INTO events (dev, seq, hash, raw) VALUES (?, ?, ?, ?)`)
		if err != nil {
			return 0, err
		}
		t.add = add // closed with the transaction
	}
	id := e.Event.ID
	done, err := t.add.Exec(id.Device, int64(id.Seq), e.Hash[:], e.Raw)
	if err != nil {
		return 0, typed(err)
	}
	return done.LastInsertId()
}

func (t *tx) SetAside(f journal.Fork) error {
	_, err := t.sql.Exec(`INSERT INTO forks (dev, seq, hash, raw) VALUES (?, ?, ?, ?)`,
		f.ID.Device, int64(f.ID.Seq), f.Hash[:], f.Raw)
	return err
}
