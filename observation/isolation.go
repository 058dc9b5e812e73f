package observation

import (
	"strconv"

	"asfound/quantity"
)

// Isolation is one reading of the panel isolation test, dead, all branch
// breakers off: between the branch conductors of the spaces A, joined together,
// and those of B, joined together, or one of the bars. Subject is the panel.
type Isolation struct {
	A       []int               `json:"a"`
	Against Against             `json:"against"`
	B       []int               `json:"b,omitempty"`
	Ohm     quantity.Resistance `json:"ohm"`
	// What must be so for "open" to mean anything: a join through an open wall
	// switch cannot be seen, a load plugged in looks like one.
	SwitchesOn Known `json:"switches_on,omitempty"`
	LoadsOff   Known `json:"loads_off,omitempty"`
}

// Against is the other side of an isolation reading.
type Against string

// The other sides.
const (
	AgainstSpaces  Against = "spaces"
	AgainstNeutral Against = "neutral"
	AgainstEGC     Against = "egc"
)

// Kind is "isolation.1".
func (Isolation) Kind() string { return "isolation.1" }

// Check wants spaces on one side, and none of them on both.
func (i Isolation) Check() error {
	if len(i.A) == 0 {
		return unusable("a", "", "Say which space the first lead was on.")
	}
	switch i.Against {
	case AgainstSpaces:
		if len(i.B) == 0 {
			return unusable("b", "", "Say which spaces the second lead was on.")
		}
	case AgainstNeutral, AgainstEGC:
		if len(i.B) > 0 {
			return unusable("b", "", "The second lead was on a bar or on spaces, not both.")
		}
	default:
		return unusable("against", string(i.Against), "Say what the reading was taken against: spaces, neutral bar or ground bar.")
	}
	seen := map[int]bool{}
	for _, s := range append(append([]int{}, i.A...), i.B...) {
		if s < 1 {
			return unusable("a", strconv.Itoa(s), "Spaces are numbered from 1.")
		}
		if seen[s] {
			return unusable("b", strconv.Itoa(s), "Space %d is named twice: a conductor cannot be read against itself.", s)
		}
		seen[s] = true
	}
	return firstFault(checkResistance("ohm", i.Ohm), i.SwitchesOn.check("switches_on"), i.LoadsOff.check("loads_off"))
}
