package sqlite

import (
	"context"
	"crypto/sha256"
	"database/sql"
	"embed"
	"encoding/hex"
	"fmt"
	"io/fs"
	"slices"
)

// steps are the numbered steps from an empty file to the newest layout. A step
// that was released is never edited: its checksum is in the files of users.
//
//go:embed migrations/*.sql
var steps embed.FS

const versions = `CREATE TABLE IF NOT EXISTS version (
    number   INTEGER PRIMARY KEY,
    checksum TEXT NOT NULL
) STRICT`

// migrate brings the file to the newest layout, in one transaction, so that two
// programs opening it at once both find it whole.
func migrate(tx *sql.Tx) error {
	ctx := context.Background()
	if _, err := tx.ExecContext(ctx, versions); err != nil {
		return err
	}
	done, err := checksums(tx)
	if err != nil {
		return err
	}
	files, err := fs.Glob(steps, "migrations/*.sql")
	if err != nil {
		return err
	}
	slices.Sort(files)
	if len(done) > len(files) {
		return fmt.Errorf("the file was written by a newer program (layout %d, this one knows %d): use the newer one", len(done), len(files))
	}
	for i, file := range files {
		text, err := steps.ReadFile(file)
		if err != nil {
			return err
		}
		sum := sha256.Sum256(text)
		checksum := hex.EncodeToString(sum[:])
		if i < len(done) {
			if done[i] != checksum {
				return fmt.Errorf("layout %d of the file is not the one this program knows", i+1)
			}
			continue
		}
		if _, err := tx.ExecContext(ctx, string(text)); err != nil {
			return fmt.Errorf("step %s: %w", file, err)
		}
		if _, err := tx.ExecContext(ctx, `INSERT INTO version (number, checksum) VALUES (?, ?)`, i+1, checksum); err != nil {
			return err
		}
	}
	return nil
}

// checksums gives those of the steps taken, first step first.
func checksums(tx *sql.Tx) ([]string, error) {
	rows, err := tx.QueryContext(context.Background(), `SELECT checksum FROM version ORDER BY number`)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	var out []string
	for rows.Next() {
		var sum string
		if err := rows.Scan(&sum); err != nil {
			return nil, err
		}
		out = append(out, sum)
	}
	return out, rows.Err()
}
