package observation

import (
	"strconv"

	"asfound/quantity"
)

// Resistor says that a resistor was put on between a conductor and the EGC, at
// a panel space or at either end of a cable. Ohm is its marked or measured
// value. A reading between the conductor and itself is not possible: the other
// lead is always the EGC of the same place.
type Resistor struct {
	On    Point         `json:"on"`
	Ohm   quantity.Ohms `json:"ohm"`
	Label string        `json:"label,omitempty"` // what is written on the resistor
}

// Kind is "resistor.1".
func (Resistor) Kind() string { return "resistor.1" }

// Check wants a place and a value above zero.
func (r Resistor) Check() error {
	if !sized(float64(r.Ohm), 1e-3, 1e12) {
		return unusable("ohm", strconv.FormatFloat(float64(r.Ohm), 'g', -1, 64), "Type the value of the resistor, above zero.")
	}
	if r.On.Wire == EGC {
		return unusable("on", "", "The resistor goes from a conductor to the ground: name the conductor.")
	}
	return firstFault(r.On.check("on"), checkText("label", r.Label))
}

// Removed says that the tour in Under was taken down: its resistors are off, and
// readings taken later do not rest on them.
type Removed struct {
	Note string `json:"note,omitempty"`
}

// Kind is "removed.1".
func (Removed) Kind() string { return "removed.1" }

// Check accepts any note.
func (r Removed) Check() error { return checkText("note", r.Note) }
