package observation

import (
	"fmt"
	"strconv"
	"strings"
)

// ID names an event for good: the device that recorded it and that device's
// own count, from 1 without gaps. Its text is the device, a hyphen, the count.
type ID struct {
	Device string
	Seq    uint64
}

func (id ID) String() string {
	if id == (ID{}) {
		return ""
	}
	return id.Device + "-" + strconv.FormatUint(id.Seq, 10)
}

// Thing is the lasting name of what the event with this ID recorded first.
func (id ID) Thing() Thing { return Thing(id.String()) }

// IsZero reports whether id names no event.
func (id ID) IsZero() bool { return id == ID{} }

// Compare orders IDs by device, then count.
func (id ID) Compare(other ID) int {
	if c := strings.Compare(id.Device, other.Device); c != 0 {
		return c
	}
	switch {
	case id.Seq < other.Seq:
		return -1
	case id.Seq > other.Seq:
		return 1
	}
	return 0
}

// ParseID reads the text of an ID.
func ParseID(s string) (ID, error) {
	cut := strings.LastIndexByte(s, '-')
	if cut <= 0 {
		return ID{}, fmt.Errorf("event name %q has no device", s)
	}
	seq, err := strconv.ParseUint(s[cut+1:], 10, 64)
	if err != nil || seq == 0 || s[cut+1] == '0' {
		return ID{}, fmt.Errorf("event name %q has no count", s)
	}
	return ID{Device: s[:cut], Seq: seq}, nil
}

// MarshalText and UnmarshalText keep an ID as its text; no event is "".
func (id ID) MarshalText() ([]byte, error) { return []byte(id.String()), nil }

// UnmarshalText reads the text of an ID.
func (id *ID) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*id = ID{}
		return nil
	}
	got, err := ParseID(string(text))
	if err != nil {
		return err
	}
	*id = got
	return nil
}
