package observation

import (
	"strconv"

	"asfound/quantity"
)

// Space is what is seen at one space of a panel: the breaker in it, the label
// found beside it, and the conductor that lands on it. Subject is the panel.
type Space struct {
	Number int              `json:"space"`
	Poles  int              `json:"poles,omitempty"` // 0 not looked, 1, 2
	Amps   quantity.Amperes `json:"amps,omitempty"`
	Tied   Known            `json:"tied,omitempty"`  // handle tied to the next in the column
	Label  string           `json:"label,omitempty"` // as found; marks may lie
	Lands  Lands            `json:"lands,omitempty"`
	Cable  string           `json:"cable,omitempty"` // tag of the cable whose hot lands here
	Wire   string           `json:"wire,omitempty"`  // its color and size as seen
}

// Lands says whether a branch conductor lands on a space.
type Lands string

// The answers of Lands.
const (
	LandsNotLooked Lands = ""
	LandsBranch    Lands = "branch" // a branch-circuit conductor lands here
	LandsFeeder    Lands = "feeder" // a feeder to another panel or a supply lands here
	LandsNothing   Lands = "nothing"
)

// Kind is "space.1".
func (Space) Kind() string { return "space.1" }

// Check wants a space number, and poles of 0 to 2.
func (s Space) Check() error {
	if s.Number < 1 {
		return unusable("space", strconv.Itoa(s.Number), "Spaces are numbered from 1.")
	}
	if s.Poles < 0 || s.Poles > 2 {
		return unusable("poles", strconv.Itoa(s.Poles), "Type 1 or 2 poles.")
	}
	if !sized(float64(s.Amps), 0, 1200) {
		return unusable("amps", strconv.FormatFloat(float64(s.Amps), 'g', -1, 64), "Type the ampere rating on the breaker handle.")
	}
	switch s.Lands {
	case LandsNotLooked, LandsBranch, LandsFeeder, LandsNothing:
	default:
		return unusable("lands", string(s.Lands), "Choose what lands on the space from the list.")
	}
	return firstFault(s.Tied.check("tied"), checkText("label", s.Label), checkText("cable", s.Cable), checkText("wire", s.Wire))
}
