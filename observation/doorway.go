package observation

import "asfound/quantity"

// Doorway is a stretch of a wall of a room (the subject) where no receptacle can
// be: a doorway, a fireplace, a fixed cabinet. From and To are measured from the
// left end of the wall as one faces it from inside.
type Doorway struct {
	Wall Wall            `json:"wall"`
	From quantity.Inches `json:"from"`
	To   quantity.Inches `json:"to"`
	What string          `json:"what,omitempty"` // empty is a doorway
}

// Kind is "doorway.1".
func (Doorway) Kind() string { return "doorway.1" }

// Check wants one of the four walls and a stretch of it.
func (d Doorway) Check() error {
	if !d.Wall.isWall() {
		return unusable("wall", string(d.Wall), "Choose the wall it is in.")
	}
	if !sized(float64(d.From), 0, 12000) || !sized(float64(d.To), 0, 12000) {
		return unusable("from", "", "Type how far from the left end of the wall it begins and ends.")
	}
	if d.To <= d.From {
		return unusable("to", d.To.String(), "It ends before it begins. Measure both from the left end of the wall, facing it.")
	}
	return checkText("what", d.What)
}
