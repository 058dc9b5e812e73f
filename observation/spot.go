package observation

import "asfound/quantity"

// Spot is where in its room an opening (the subject) is. On a wall, Along is
// measured from its left end as one faces it from inside; on the ceiling or
// floor from the left wall, and Out from the front wall.
type Spot struct {
	Wall  Wall            `json:"wall"`
	Along quantity.Inches `json:"along"`
	Out   quantity.Inches `json:"out,omitempty"`
}

// Kind is "spot.1".
func (Spot) Kind() string { return "spot.1" }

// Check wants a side of the room.
func (s Spot) Check() error {
	if !s.Wall.isWall() && s.Wall != Overhead && s.Wall != Underfoot {
		return unusable("wall", string(s.Wall), "Choose the wall it is in, or ceiling or floor.")
	}
	if !sized(float64(s.Along), 0, 12000) || !sized(float64(s.Out), 0, 12000) {
		return unusable("along", "", "Type the distance in feet or inches, not below zero.")
	}
	return nil
}
