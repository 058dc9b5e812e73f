package observation

import "strconv"

// PassThrough is a set of conductors that enter and leave a cabinet (the
// subject) without landing.
type PassThrough struct {
	From    string `json:"from,omitempty"` // cable or raceway tags at this cabinet
	To      string `json:"to,omitempty"`
	Count   int    `json:"count"`
	Spliced Known  `json:"spliced,omitempty"` // spliced inside the cabinet
	Note    string `json:"note,omitempty"`
}

// Kind is "passthrough.1".
func (PassThrough) Kind() string { return "passthrough.1" }

// Check wants a count.
func (p PassThrough) Check() error {
	if p.Count < 1 || p.Count > 500 {
		return unusable("count", strconv.Itoa(p.Count), "Count the conductors that pass through.")
	}
	return firstFault(p.Spliced.check("spliced"), checkText("from", p.From), checkText("to", p.To), checkText("note", p.Note))
}
