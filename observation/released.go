package observation

// Released says that locks put on a panel (the subject) were taken off: those in
// Locks.
type Released struct {
	Locks []ID   `json:"locks"`
	Told  string `json:"told,omitempty"` // who was told before
	Note  string `json:"note,omitempty"`
}

// Kind is "released.1".
func (Released) Kind() string { return "released.1" }

// Check wants the locks named.
func (r Released) Check() error {
	if len(r.Locks) == 0 {
		return unusable("locks", "", "Say which locks were taken off.")
	}
	return firstFault(checkText("told", r.Told), checkText("note", r.Note))
}
