package observation

import "asfound/quantity"

// ReadBack is a resistor read where it was put. Blind means that the sheet
// named the place and the person wrote the value, in another order than
// placed; After means it was read when the tour was over, before taking off,
// so that nothing was moved in between.
type ReadBack struct {
	At    Point               `json:"at"`
	Ohm   quantity.Resistance `json:"ohm"`
	Blind bool                `json:"blind,omitempty"`
	After bool                `json:"after,omitempty"`
}

// Kind is "readback.1".
func (ReadBack) Kind() string { return "readback.1" }

// Check wants a place.
func (r ReadBack) Check() error {
	return firstFault(r.At.check("at"), checkResistance("ohm", r.Ohm))
}
