package observation

// CannotRead says that a reading was tried at the subject and gave nothing that
// counts: covered, conductors too short, meter not steady.
type CannotRead struct {
	What string `json:"what"`
	Why  string `json:"why"`
}

// Kind is "cannotread.1".
func (CannotRead) Kind() string { return "cannotread.1" }

// Check wants a reason.
func (c CannotRead) Check() error {
	return firstFault(checkText("what", c.What), needText("why", c.Why, "Say in a few words why it could not be read."))
}

// NotReached says that nobody got to the subject: buried, too high, locked.
type NotReached struct {
	Why string `json:"why,omitempty"`
}

// Kind is "notreached.1".
func (NotReached) Kind() string { return "notreached.1" }

// Check accepts any reason.
func (n NotReached) Check() error { return checkText("why", n.Why) }
