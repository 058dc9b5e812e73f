package journal

import (
	"time"

	"asfound/observation"
)

// Adder records one more observation within an append of several.
type Adder func(observation.Observation) (Entry, error)

// Together records several observations of this device, each as Append would,
// within one transaction: do is given what records the next. When do returns an
// error nothing is to be kept, which is for the store to see to.
func Together(tx Tx, now func() time.Time, do func(Adder) error) error {
	device, err := tx.Own()
	if err != nil {
		return err
	}
	tail, err := tx.Tail(device)
	if err != nil {
		return err
	}
	clock, err := tx.Clock()
	if err != nil {
		return err
	}
	after, err := held(tx, device)
	if err != nil {
		return err
	}
	add := func(o observation.Observation) (Entry, error) {
		wall := now()
		clock = tick(clock, wall)
		e := observation.Event{ID: observation.ID{Device: device, Seq: tail.Seq + 1}, Observation: o,
			HLC: clock, Wall: wall.Round(0).Truncate(time.Millisecond), After: after}
		if tail.Seq > 0 {
			e.Prev = tail.Hash.String()
		}
		out, err := stamped(e)
		if err != nil {
			return Entry{}, err
		}
		if out.Position, err = tx.Add(out); err != nil {
			return Entry{}, err
		}
		tail = Tail{Seq: e.Seq, Hash: out.Hash}
		return out, nil
	}
	if err := do(add); err != nil {
		return err
	}
	return tx.SetClock(clock)
}
