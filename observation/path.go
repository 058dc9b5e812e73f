package observation

import (
	"strconv"

	"asfound/quantity"
)

// Path is the way on foot from a building (the subject) to another.
type Path struct {
	To   Thing         `json:"to"`
	Feet quantity.Feet `json:"feet"`
	Snow Known         `json:"snow,omitempty"` // slow going
}

// Kind is "path.1".
func (Path) Kind() string { return "path.1" }

// Check wants another building and a length.
func (p Path) Check() error {
	if p.To == "" {
		return unusable("to", "", "Say to which building.")
	}
	if !sized(float64(p.Feet), 1, 100000) {
		return unusable("feet", strconv.FormatFloat(float64(p.Feet), 'g', -1, 64), "Type the length of the way in feet.")
	}
	return p.Snow.check("snow")
}
