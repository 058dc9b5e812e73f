package observation

import "asfound/quantity"

// CableEnd is a cable seen where it enters an opening or a panel (the
// subject), with its conductors. Tag is what the person's tape on it says.
type CableEnd struct {
	Tag        string      `json:"tag"`
	Jacket     string      `json:"jacket,omitempty"` // what the jacket says, or its color
	Mark       string      `json:"mark,omitempty"`   // what somebody wrote on it
	Conductors []Conductor `json:"conductors,omitempty"`
}

// Conductor is one conductor of a cable end as seen.
type Conductor struct {
	Wire   Wire            `json:"wire"`
	Color  string          `json:"color,omitempty"`
	Size   quantity.Gauge  `json:"size,omitempty"`
	State  ConductorState  `json:"state,omitempty"`
	Length quantity.Inches `json:"length,omitempty"` // free length from the sheath or the box front
}

// ConductorState is how a conductor end was found.
type ConductorState string

// The states of a conductor end; StateNotSeen is not looked.
const (
	StateNotSeen ConductorState = ""
	Landed       ConductorState = "landed"  // on a terminal
	Spliced      ConductorState = "spliced" // joined with others in the box
	Coiled       ConductorState = "coiled"  // free, pushed back
	Capped       ConductorState = "capped"  // free, under a connector of its own
	Cut          ConductorState = "cut"
)

// Kind is "cable.1".
func (CableEnd) Kind() string { return "cable.1" }

// Check wants a tag, and conductors that differ by name.
func (c CableEnd) Check() error {
	if err := firstFault(needText("tag", c.Tag, "Give the cable a tag: 1, 2, 3 as they enter."),
		checkText("jacket", c.Jacket), checkText("mark", c.Mark)); err != nil {
		return err
	}
	seen := map[Wire]bool{}
	for _, w := range c.Conductors {
		if err := firstFault(needText("conductors", string(w.Wire), "Name each conductor: hot, neutral, egc, or its color."),
			checkText("conductors", w.Color)); err != nil {
			return err
		}
		if seen[w.Wire] {
			return unusable("conductors", string(w.Wire), "Two conductors are called %s. Number them: %[1]s 1, %[1]s 2.", string(w.Wire))
		}
		seen[w.Wire] = true
		if !sized(float64(w.Length), 0, 2000) {
			return unusable("conductors", "", "Type the free length in inches, not below zero.")
		}
		if _, err := quantity.ParseGauge(string(w.Size)); w.Size != "" && err != nil {
			return unusable("conductors", string(w.Size), "Type the conductor size as it is marked, such as 12 or 1/0.")
		}
		switch w.State {
		case StateNotSeen, Landed, Spliced, Coiled, Capped, Cut:
		default:
			return unusable("conductors", string(w.State), "Choose how the conductor was found from the list.")
		}
	}
	return nil
}
