package observation

import (
	"strconv"

	"asfound/quantity"
)

// Raceway is a raceway entry seen at an opening or a panel (the subject).
type Raceway struct {
	Tag   string          `json:"tag"`
	Type  string          `json:"type,omitempty"` // as the trade calls it: EMT, PVC ...
	Size  quantity.Inches `json:"size,omitempty"` // trade size
	Side  string          `json:"side,omitempty"` // top, left, back ...
	Count int             `json:"count,omitempty"`
	Note  string          `json:"note,omitempty"`
}

// Kind is "raceway.1".
func (Raceway) Kind() string { return "raceway.1" }

// Check wants a tag.
func (r Raceway) Check() error {
	if !sized(float64(r.Size), 0, 12) {
		return unusable("size", "", "Type the trade size in inches, such as 3/4.")
	}
	if r.Count < 0 || r.Count > 500 {
		return unusable("count", strconv.Itoa(r.Count), "Count the conductors in the raceway.")
	}
	return firstFault(needText("tag", r.Tag, "Give the raceway a tag: R1, R2 as they enter."),
		checkText("type", r.Type), checkText("side", r.Side), checkText("note", r.Note))
}
