package observation

// Drawn is an opening on a drawing that came with the job. A drawing is what
// somebody meant, never what is there. The subject is empty for a new one.
type Drawn struct {
	Room  Thing      `json:"room"`
	Use   OpeningUse `json:"use,omitempty"`
	Mark  string     `json:"mark,omitempty"`  // number beside the symbol, if there is one
	What  string     `json:"what,omitempty"`  // "deck heater"
	Sheet string     `json:"sheet,omitempty"` // of the drawing
}

// Kind is "drawn.1".
func (Drawn) Kind() string { return "drawn.1" }

// Check wants a room.
func (d Drawn) Check() error {
	if d.Room == "" {
		return unusable("room", "", "Say in which room the drawing shows it.")
	}
	if err := d.Use.check(); err != nil {
		return err
	}
	return firstFault(checkText("mark", d.Mark), checkText("what", d.What), checkText("sheet", d.Sheet))
}
