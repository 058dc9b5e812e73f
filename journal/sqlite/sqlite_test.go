package sqlite_test

import (
	"path/filepath"
	"testing"
	"time"

	"asfound/journal"
	"asfound/journal/journaltest"
	"asfound/journal/sqlite"
)

func TestSQLite(t *testing.T) {
	journaltest.Run(t, func(t testing.TB, now func() time.Time) func() journal.Store {
		path := filepath.Join(t.TempDir(), "Pellam Point [100%] #1?.job")
		return func() journal.Store {
			t.Helper()
			s, err := sqlite.Open(path, now)
			if err != nil {
				t.Fatal(err)
			}
			return s
		}
	}, 12)
}
