package observation

import "asfound/quantity"

// Cabinet is the measured size of a panel's cabinet (the subject) and of the
// opening in the wall around it; zero is not measured. Set is how far its front
// edge lies behind the finished surface: zero is flush, below zero stands proud,
// nil is not measured.
type Cabinet struct {
	Width      quantity.Inches  `json:"width,omitempty"`
	Height     quantity.Inches  `json:"height,omitempty"`
	Depth      quantity.Inches  `json:"depth,omitempty"`
	WallWidth  quantity.Inches  `json:"wall_width,omitempty"`
	WallHeight quantity.Inches  `json:"wall_height,omitempty"`
	Set        *quantity.Inches `json:"set,omitempty"`
}

// Kind is "cabinet.1".
func (Cabinet) Kind() string { return "cabinet.1" }

// Check refuses sizes below zero and a cabinet with nothing measured.
func (c Cabinet) Check() error {
	const most = 200
	any := c.Set != nil
	for _, size := range []struct {
		field string
		of    quantity.Inches
	}{{"width", c.Width}, {"height", c.Height}, {"depth", c.Depth}, {"wall_width", c.WallWidth}, {"wall_height", c.WallHeight}} {
		if !sized(float64(size.of), 0, most) {
			return unusable(size.field, size.of.String(), "Type sizes in inches, not below zero.")
		}
		any = any || size.of > 0
	}
	if c.Set != nil && !sized(float64(*c.Set), -most, most) {
		return unusable("set", c.Set.String(), "Type how far the front edge is behind the finished surface, in inches.")
	}
	if !any {
		return unusable("width", "", "Type at least one size.")
	}
	return nil
}
