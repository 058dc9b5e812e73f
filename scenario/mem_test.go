package scenario

import (
	"time"

	"asfound/journal"
)

// newMem is an empty store of a laptop.
func newMem() *journal.Memory {
	return journal.NewMemory([32]byte{9}, func() time.Time { return start.AddDate(0, 0, 7) })
}
