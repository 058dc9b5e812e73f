package observation

import "strconv"

// Panel is a panelboard in its cabinet. Spaces are numbered down the two
// columns, odd left and even right.
type Panel struct {
	Building Thing  `json:"building"`
	Room     Thing  `json:"room,omitempty"`
	Name     string `json:"name"`
	Spaces   int    `json:"spaces"`
	FedFrom  string `json:"fed_from,omitempty"` // as its label says, if it has one
	Note     string `json:"note,omitempty"`
}

// Kind is "panel.1".
func (Panel) Kind() string { return "panel.1" }

// Check wants a building, a name and an even number of spaces up to 84.
func (p Panel) Check() error {
	if p.Building == "" {
		return unusable("building", "", "Say which building the panel is in.")
	}
	if p.Spaces < 2 || p.Spaces > 84 || p.Spaces%2 != 0 {
		return unusable("spaces", strconv.Itoa(p.Spaces), "Count the spaces of both columns: an even number from 2 to 84.")
	}
	return firstFault(needText("name", p.Name, "Give the panel the name on its tape."),
		checkText("fed_from", p.FedFrom), checkText("note", p.Note))
}
