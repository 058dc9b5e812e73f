package observation

// Joined is a set-up made on purpose, dead: at a switch box (the subject) the
// feed is joined to the leg, so that readings beyond the switch reach the panel.
type Joined struct {
	Feed Point  `json:"feed"`
	Leg  Point  `json:"leg"`
	Note string `json:"note,omitempty"`
}

// Kind is "joined.1".
func (Joined) Kind() string { return "joined.1" }

// Check wants two different conductors of one opening.
func (j Joined) Check() error {
	if err := firstFault(j.Feed.check("feed"), j.Leg.check("leg"), checkText("note", j.Note)); err != nil {
		return err
	}
	if j.Feed == j.Leg {
		return unusable("leg", j.Leg.String(), "Feed and leg are the same conductor. Say which one goes to the lamp.")
	}
	if j.Feed.At != j.Leg.At {
		return unusable("leg", "", "Feed and leg are joined in one box. Choose one opening.")
	}
	return nil
}
