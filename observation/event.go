package observation

import (
	"encoding/json"
	"fmt"
	"slices"
	"time"
)

// Event is an observation as a journal keeps it: numbered and chained by the
// device that recorded it.
type Event struct {
	ID
	Observation
	Prev    string    // SHA-256 of the device's event before, hexadecimal; empty for its first
	HLC     uint64    // hybrid clock: 48 bits of milliseconds, 16 bits of counter
	Wall    time.Time // the device's clock as shown to the person, with its zone
	After   []ID      // the last event of each other device that this one held
	Kind    string    // kept even when Body is nil because this program does not know it
	Unknown json.RawMessage
}

// Follows reports whether e is known to come after earlier: because e names it,
// or was recorded after it: later on the same device, or on one that held it by
// then. Clocks of two devices prove no order. What was typed in late, from before
// the time of earlier, does not come after it for having been typed after it.
func (e Event) Follows(earlier Event) bool {
	switch {
	case slices.Contains(e.Under, earlier.ID) || slices.Contains(e.Seen, earlier.ID):
		return true
	case !e.Taken.IsZero() && !earlier.Wall.IsZero() && e.Taken.Before(earlier.When()):
		return false
	case e.Device == earlier.Device:
		return e.Seq > earlier.Seq
	case !e.Taken.IsZero():
		return false // when it was typed tells nothing of when it was taken
	}
	return slices.ContainsFunc(e.After, func(held ID) bool { return held.Device == earlier.Device && held.Seq >= earlier.Seq })
}

// When is when it was taken: as the person says, else when it was recorded.
func (e Event) When() time.Time {
	if e.Taken.IsZero() {
		return e.Wall
	}
	return e.Taken
}

// Place is the thing at which it was recorded: the opening or panel of a
// reading, what a new record is about, what a withdrawal or a decision names as
// its subject; empty when it is about the whole job or about a set-up alone.
func (e Event) Place() Thing {
	switch b := e.Body.(type) {
	case Ohm:
		return b.A.At
	case Resistor:
		return b.On.At
	case ReadBack:
		return b.At.At
	case Joined:
		return b.Feed.At
	case Feeder:
		return b.To
	case Building, Room, Opening, Panel, Source, Drawn:
		if e.Subject == "" {
			return e.ID.Thing()
		}
	}
	return e.Subject
}

// envelope is the kept form of an event; the order of keys is part of the form.
type envelope struct {
	Dev   string          `json:"dev"`
	Seq   uint64          `json:"seq"`
	Prev  string          `json:"prev,omitempty"`
	HLC   uint64          `json:"hlc"`
	Wall  time.Time       `json:"wall"`
	Taken *time.Time      `json:"taken,omitempty"`
	Stop  string          `json:"stop,omitempty"`
	Under []ID            `json:"under,omitempty"`
	Who   string          `json:"who"`
	Kind  string          `json:"kind"`
	Subj  Thing           `json:"subj,omitempty"`
	Data  json.RawMessage `json:"data"`
	Seen  []ID            `json:"seen,omitempty"`
	After []ID            `json:"after,omitempty"`
}

// Encode gives the bytes under which e is kept. An event of an unknown kind
// cannot be encoded: its received bytes are what counts.
func (e Event) Encode() ([]byte, error) {
	if e.Body == nil {
		return nil, fmt.Errorf("encode event %s: kind %q is not known here", e.ID, e.Kind)
	}
	data, err := json.Marshal(e.Body)
	if err != nil {
		return nil, fmt.Errorf("encode event %s: %w", e.ID, err)
	}
	out := envelope{Dev: e.Device, Seq: e.Seq, Prev: e.Prev, HLC: e.HLC, Wall: e.Wall, Stop: e.Stop,
		Under: e.Under, Who: e.Who, Kind: e.Body.Kind(), Subj: e.Subject, Data: data, Seen: e.Seen, After: e.After}
	if !e.Taken.IsZero() {
		out.Taken = &e.Taken
	}
	return json.Marshal(out)
}

// Decode reads kept bytes. An unknown kind is no error: Body is nil and Unknown
// holds its data. A known kind whose data cannot be read here is one; the event
// comes with the error, as if its kind were unknown. Any other error comes with
// the zero Event.
func Decode(raw []byte) (Event, error) {
	if e, ok := scanEvent(raw); ok {
		return e, nil
	}
	return decodeAny(raw)
}

// decodeAny reads an event in any layout that JSON allows.
func decodeAny(raw []byte) (Event, error) {
	var in envelope
	if err := json.Unmarshal(raw, &in); err != nil {
		return Event{}, fmt.Errorf("decode event: %w", err)
	}
	if in.Dev == "" || in.Seq == 0 || in.Kind == "" {
		return Event{}, fmt.Errorf("decode event: device, number or kind is missing")
	}
	e := Event{ID: ID{in.Dev, in.Seq}, Prev: in.Prev, HLC: in.HLC, Wall: in.Wall, After: in.After, Kind: in.Kind,
		Observation: Observation{Who: in.Who, Stop: in.Stop, Under: in.Under, Seen: in.Seen, Subject: in.Subj}}
	if in.Taken != nil {
		e.Taken = *in.Taken
	}
	return e, e.readBody(in.Data)
}

// readBody reads data as e.Kind says, or keeps it in Unknown.
func (e *Event) readBody(data []byte) error {
	read, known := bodies[e.Kind]
	if !known {
		e.Unknown = data
		return nil
	}
	body, err := read(data)
	if err != nil {
		e.Unknown = data
		return fmt.Errorf("decode event %s, kind %s: %w", e.ID, e.Kind, err)
	}
	e.Body = body
	return nil
}

// bodies reads the data of each known kind.
var bodies = map[string]func(json.RawMessage) (Body, error){}

// register makes a kind known; the type parameter is its body.
func register[B Body]() {
	var zero B
	bodies[zero.Kind()] = func(data json.RawMessage) (Body, error) {
		var b B
		err := json.Unmarshal(data, &b)
		return b, err
	}
}

func init() {
	register[Building]()
	register[Room]()
	register[Opening]()
	register[Panel]()
	register[Space]()
	register[CableEnd]()
	register[Raceway]()
	register[PassThrough]()
	register[Cabinet]()
	register[Photo]()
	register[Isolation]()
	register[Tour]()
	register[Resistor]()
	register[Removed]()
	register[ReadBack]()
	register[Ohm]()
	register[Letters]()
	register[RoomCheck]()
	register[Joined]()
	register[LockOut]()
	register[ProvenDead]()
	register[CannotRead]()
	register[NotReached]()
	register[RoomSize]()
	register[Doorway]()
	register[Spot]()
	register[Plate]()
	register[Path]()
	register[Drawn]()
	register[Reconciled]()
	register[Source]()
	register[Feeder]()
	register[Energized]()
	register[Released]()
	register[Told]()
	register[Note]()
	register[Decision]()
	register[Withdrawal]()
}

// Kinds lists the known kinds, unsorted.
func Kinds() []string {
	out := make([]string, 0, len(bodies))
	for k := range bodies {
		out = append(out, k)
	}
	return out
}
