package journal

import (
	"maps"
	"slices"
	"time"

	"asfound/observation"
)

// Tail is the last event held of a device; the zero Tail is a device unheard of.
type Tail struct {
	Seq  uint64
	Hash Hash
}

// Tx is one transaction of a store: what Append and Merge need of it. Whatever a
// store is made of, these two give every store the same rules.
type Tx interface {
	Own() (string, error)              // id of this device
	Renew() (string, error)            // give this device a new id
	Clock() (uint64, error)            // latest hybrid reading given or followed
	SetClock(uint64) error             //
	Tail(device string) (Tail, error)  //
	Marks() (map[string]uint64, error) // how far each device is held
	// Hash finds a counted event.
	Hash(id observation.ID) (h Hash, held bool, err error)
	// Aside reports whether such a line of the device is kept aside.
	Aside(device string, h Hash) (bool, error)
	// Add counts an event at the next position, which it returns; ErrNumberTaken
	// when its number is in use.
	Add(e Entry) (position int64, err error)
	SetAside(f Fork) error
}

// Append records o as the next event of this device.
func Append(tx Tx, now time.Time, o observation.Observation) (Entry, error) {
	device, err := tx.Own()
	if err != nil {
		return Entry{}, err
	}
	tail, err := tx.Tail(device)
	if err != nil {
		return Entry{}, err
	}
	last, err := tx.Clock()
	if err != nil {
		return Entry{}, err
	}
	e := observation.Event{ID: observation.ID{Device: device, Seq: tail.Seq + 1}, Observation: o,
		HLC: tick(last, now), Wall: now.Round(0).Truncate(time.Millisecond)}
	if tail.Seq > 0 {
		e.Prev = tail.Hash.String()
	}
	if e.After, err = held(tx, device); err != nil {
		return Entry{}, err
	}
	out, err := stamped(e)
	if err != nil {
		return Entry{}, err
	}
	if out.Position, err = tx.Add(out); err != nil {
		return Entry{}, err
	}
	return out, tx.SetClock(e.HLC)
}

// held names the last event of each other device, by device.
func held(tx Tx, own string) ([]observation.ID, error) {
	marks, err := tx.Marks()
	if err != nil {
		return nil, err
	}
	var out []observation.ID
	for _, device := range slices.Sorted(maps.Keys(marks)) {
		if device != own {
			out = append(out, observation.ID{Device: device, Seq: marks[device]})
		}
	}
	return out, nil
}

// stamped encodes e, and decodes it again so that the entry is the one a later
// Read gives.
func stamped(e observation.Event) (Entry, error) {
	raw, err := e.Encode()
	if err != nil {
		return Entry{}, err
	}
	if len(raw) > LongestLine {
		return Entry{}, observation.Unusable{Say: "This is too long to keep as one observation. Split it."}
	}
	if e, err = observation.Decode(raw); err != nil {
		return Entry{}, err
	}
	return Entry{Event: e, Raw: raw, Hash: HashOf(raw)}, nil
}
