package web

import (
	"fmt"

	"asfound/quantity"
)

// Words of the pairing tour that do not stand in a template.

// How far a cable end or an opening has come.
const (
	statePaired    = "paired"
	stateOn        = " is on it"
	stateOpen      = "open: a resistor goes on"
	stateCannot    = "could not be read"
	stateUnread    = "not read yet"
	stateUnvisited = "not visited yet"
	stateLeft      = " left"
	stateAllDone   = "done"
)

const (
	sayNoPairing  = "Resistors go on at openings in a pairing tour alone."
	sayNoResistor = "Type the value on the resistor in ohms, such as 1.02k."
	sayEnter      = "Choose how many cables enter here, from 1 to 6; more are added on the page of the opening."
)

// sayUsed refuses a value that is on another cable end.
func sayUsed(value, where string) string {
	return fmt.Sprintf("%s is on already at %s. Take the next value, or check that resistor.", value, where)
}

func sayPutOn(value, on string) string { return value + " on the " + on }

// sayFitsNone says that a reading names no resistor that is on.
func sayFitsNone(r quantity.Resistance) string {
	return r.String() + " fits no resistor that is on; read it once more"
}

func cableName(tag string) string {
	if tag == "" {
		return "The cable here"
	}
	return "Cable " + tag
}

// sayOut says why the other end of a resistor may not have been read.
func sayOut(unvisited int) string {
	if unvisited == 0 {
		return "Every opening was visited: the other end is buried, cut, or was passed over."
	}
	return fmt.Sprintf("The other end is in an opening not visited yet (%d are left), or it is buried or cut.", unvisited)
}
