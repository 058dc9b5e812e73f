package observation

// Told says that a person was told of a lock-out, a release or a live test at a
// panel (the subject).
type Told struct {
	Person string `json:"person"`
	Of     string `json:"of"`
}

// Kind is "told.1".
func (Told) Kind() string { return "told.1" }

// Check wants who, and of what.
func (t Told) Check() error {
	return firstFault(needText("person", t.Person, "Say who was told."), needText("of", t.Of, "Say of what: lock-out, release, live test."))
}
