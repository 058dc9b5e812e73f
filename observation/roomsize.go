package observation

import "asfound/quantity"

// RoomSize is a room (the subject) as measured: Width along the front of its
// building, Depth away from the front, Ceiling above its floor. Corner is where
// its front left corner lies, when that was measured too.
type RoomSize struct {
	Width   quantity.Inches `json:"width,omitempty"`
	Depth   quantity.Inches `json:"depth,omitempty"`
	Ceiling quantity.Inches `json:"ceiling,omitempty"`
	Corner  *Corner         `json:"corner,omitempty"`
	Spaced  Known           `json:"spaced,omitempty"` // receptacles along the walls are required here
}

// Corner is a place on the plan of a building, seen from its front: so far to
// the right of the building's front left corner and so far behind its front.
// Either may be below zero.
type Corner struct {
	Right quantity.Inches `json:"right"`
	Back  quantity.Inches `json:"back"`
}

// Kind is "roomsize.1".
func (RoomSize) Kind() string { return "roomsize.1" }

// Check refuses sizes below zero and a room of which nothing was measured.
func (r RoomSize) Check() error {
	const widest = 12 * 1000 // of a room, in inches
	for _, size := range []struct {
		field string
		of    quantity.Inches
	}{{"width", r.Width}, {"depth", r.Depth}, {"ceiling", r.Ceiling}} {
		if !sized(float64(size.of), 0, widest) {
			return unusable(size.field, size.of.String(), "Type the size in feet or inches, not below zero.")
		}
	}
	if c := r.Corner; c != nil && (!sized(float64(c.Right), -10*widest, 10*widest) || !sized(float64(c.Back), -10*widest, 10*widest)) {
		return unusable("corner", "", "Type how far the corner is from the front left corner of the building, in feet or inches.")
	}
	if r.Width == 0 && r.Depth == 0 && r.Ceiling == 0 && r.Corner == nil && r.Spaced == NotKnown {
		return unusable("width", "", "Type at least one size.")
	}
	return r.Spaced.check("spaced")
}
