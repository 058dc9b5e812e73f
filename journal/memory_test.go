package journal_test

import (
	"encoding/binary"
	"testing"
	"time"

	"asfound/journal"
	"asfound/journal/journaltest"
)

func TestMemory(t *testing.T) {
	var made uint64
	journaltest.Run(t, func(_ testing.TB, now func() time.Time) func() journal.Store {
		made++
		var seed [32]byte
		binary.LittleEndian.PutUint64(seed[:], made)
		m := journal.NewMemory(seed, now)
		return func() journal.Store { return m }
	}, 300)
}
