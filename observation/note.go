package observation

// Note is what a person wrote of the subject, in his own words; an empty subject
// is the whole job.
type Note struct {
	Text string `json:"text"`
}

// Kind is "note.1".
func (Note) Kind() string { return "note.1" }

// Check wants a text.
func (n Note) Check() error { return needText("text", n.Text, "Write the note.") }
