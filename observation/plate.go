package observation

// Plate says whether the plate of an opening (the subject) is on, so that
// reading there means taking it off.
type Plate struct {
	On Known `json:"on"`
}

// Kind is "plate.1".
func (Plate) Kind() string { return "plate.1" }

// Check wants yes or no.
func (p Plate) Check() error {
	if p.On == NotKnown {
		return unusable("on", "", "Say whether the plate is on.")
	}
	return p.On.check("on")
}
