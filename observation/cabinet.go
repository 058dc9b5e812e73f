package observation

import "asfound/quantity"

// Cabinet is the measured size of a panel's cabinet (the subject) and of the
// opening in the wall around it; zero is not measured.
type Cabinet struct {
	Width      quantity.Inches `json:"width,omitempty"`
	Height     quantity.Inches `json:"height,omitempty"`
	Depth      quantity.Inches `json:"depth,omitempty"`
	WallWidth  quantity.Inches `json:"wall_width,omitempty"`
	WallHeight quantity.Inches `json:"wall_height,omitempty"`
	Set        quantity.Inches `json:"set,omitempty"` // front edge behind the finished surface
}

// Kind is "cabinet.1".
func (Cabinet) Kind() string { return "cabinet.1" }

// Check refuses sizes below zero and a cabinet with nothing measured.
func (c Cabinet) Check() error {
	sizes := []quantity.Inches{c.Width, c.Height, c.Depth, c.WallWidth, c.WallHeight, c.Set}
	var any bool
	for _, s := range sizes {
		if !sized(float64(s), 0, 200) {
			return unusable("width", "", "Type sizes in inches, not below zero.")
		}
		any = any || s > 0
	}
	if !any {
		return unusable("width", "", "Type at least one size.")
	}
	return nil
}
