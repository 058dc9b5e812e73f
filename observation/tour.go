package observation

import "asfound/quantity"

// Tour is a set-up for many readings: resistors are put on at panels, and
// openings are read under it until it is taken down. Its resistors, read-backs
// and readings name it in Under.
type Tour struct {
	Name          string        `json:"name"`
	Means         Means         `json:"means"`
	Panels        []Thing       `json:"panels,omitempty"` // opened, locked out and proven dead for it
	Tolerance     float64       `json:"tolerance"`        // of the resistors: 0.01 is 1 %
	MeterRelative float64       `json:"meter_relative"`   // of the meter: 0.009 is 0.9 % of the reading
	MeterOhm      quantity.Ohms `json:"meter_ohm"`        // and so many ohms beside
	NeutralJoined Known         `json:"neutral_joined,omitempty"`
}

// Means is how a tour tells one conductor from another.
type Means string

// The means of a tour.
const (
	ByResistor Means = "resistor" // resistors from branch hots to the EGC at the panels, dead
	ByPairing  Means = "pairing"  // a resistor on each cable end met first, read at the other, dead
)

// Kind is "tour.1".
func (Tour) Kind() string { return "tour.1" }

// Check wants a name, a known means, and errors between 0 and 20 %.
func (t Tour) Check() error {
	if t.Means != ByResistor && t.Means != ByPairing {
		return unusable("means", string(t.Means), "Choose how this tour tells circuits apart.")
	}
	if !sized(t.Tolerance, 0, 0.2) {
		return unusable("tolerance", "", "Type the tolerance on the resistor bag, from 0.1 to 20 percent.")
	}
	if !sized(t.MeterRelative, 0, 0.2) || !sized(float64(t.MeterOhm), 0, 10) {
		return unusable("meter", "", "Type the error from the meter's booklet: percent of reading, and ohms.")
	}
	if err := firstFault(needText("name", t.Name, "Give the tour a name."), t.NeutralJoined.check("neutral_joined")); err != nil {
		return err
	}
	if t.Means == ByResistor && len(t.Panels) == 0 {
		return unusable("panels", "", "Say at which panels the resistors are put on.")
	}
	return nil
}
