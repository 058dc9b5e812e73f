package observation

// Stood is where whoever recorded it stood: its Place, or "" when it does not
// tell. A withdrawal and a decision are words about something else, and a person
// can be told of a panel anywhere.
func (e Event) Stood() Thing {
	switch e.Body.(type) {
	case Withdrawal, Decision, Told:
		return ""
	}
	return e.Place()
}
