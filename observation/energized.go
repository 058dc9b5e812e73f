package observation

import "strconv"

// Energized says that power was put on a panel or a source (the subject), or
// found on: Spaces empty means the whole of it. Every absence-of-voltage test
// before it counts no more, here and at what is fed from here.
type Energized struct {
	Spaces []int  `json:"spaces,omitempty"`
	Why    string `json:"why,omitempty"`
	Told   string `json:"told,omitempty"`  // who was told before
	Found  bool   `json:"found,omitempty"` // it was found on; nobody here put it on
}

// Kind is "energized.1".
func (Energized) Kind() string { return "energized.1" }

// Check wants spaces numbered from 1.
func (e Energized) Check() error {
	for _, s := range e.Spaces {
		if s < 1 {
			return unusable("spaces", strconv.Itoa(s), "Spaces are numbered from 1.")
		}
	}
	return firstFault(checkText("why", e.Why), checkText("told", e.Told))
}
