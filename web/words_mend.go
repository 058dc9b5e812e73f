package web

import "fmt"

// Words of the pages on which things are recorded and put right that do not
// stand in their templates.

// sayStands is the reason kept with a withdrawal that is taken back.
const sayStands = "it stands"

// sayTakenBack says an entry that takes a withdrawal back.
func sayTakenBack(reason string) string { return "Withdrawal taken back: " + reason }

// sayNoFigure refuses an opening's number without a letter or figure.
const sayNoFigure = "A number holds at least one letter or figure. Type what stands on the tape."

// sayNameUsed says that a building, room or panel of this name is on record.
func sayNameUsed(kind, name string) string {
	return fmt.Sprintf("There is a %s %s on record: open that one, or give this one another name.", kind, name)
}

// sayNumberUsed says that another opening bears the number.
func sayNumberUsed(number, room string) string {
	return fmt.Sprintf("The number %s is in use in %s, and its letters would be the same: give another number.", number, room)
}
