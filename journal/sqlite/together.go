package sqlite

import (
	"fmt"

	"asfound/journal"
)

// Together records several observations in one transaction, and returns when all
// of them are durable. When do or the disk fails none is kept.
func (s *Store) Together(do func(journal.Adder) error) error {
	err := s.write(func(t *tx) error { return journal.Together(t, s.now, do) })
	if err != nil {
		return fmt.Errorf("append observations: %w", err)
	}
	return nil
}
