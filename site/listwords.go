package site

import (
	"fmt"

	"asfound/observation"
)

// What is said of the lines of a list: one sentence each, which says what to do.
const (
	sayListKind   = "Choose what the list holds: openings, panels, circuits or drawn."
	sayWhole      = "Type a whole number, such as 2, or leave the cell empty."
	sayUse        = "Write receptacle, switch, lighting, equipment or junction, or leave the cell empty."
	sayLands      = "Write branch, feeder or nothing, or leave the cell empty."
	sayYesNo      = "Write yes or no, or leave the cell empty."
	sayListAmps   = "Write the ampere rating on the breaker handle, such as 20."
	sayListSpace  = "Write the number of the space, such as 12; of a 2-pole breaker both, such as 12/14."
	sayListFloor  = "Write the floor as a small number: 0 is the main floor, -1 the one below."
	sayNoFigure   = "A number holds at least one letter or figure. Write what stands on the tape."
	sayNoName     = "This cell is needed: write what it holds."
	sayCount      = "Write how many there are, from 1 to 500, or a mark for one."
	sayMarkCount  = "A mark is for one opening: leave the count empty, or the mark."
	saySpacesTold = "Count the spaces of both columns: an even number from 2 to 84."
	sayCables     = "Count the cables in the box: a number from 0 to 20."
)

func sayTwoSuch(kind, name string) string {
	return fmt.Sprintf("More than one %s on record is called %s. Give one of them another name on its page first.", kind, name)
}

func sayNoPanelSuch(name string) string {
	return fmt.Sprintf("No panel %s is on record. Record it first, or take in the list of panels.", name)
}

func sayNumberElsewhere(number, room string) string {
	return fmt.Sprintf("The number %s is in use in %s, and its letters would be the same. Mend the number or the room, here or on record.", number, room)
}

func sayNumberTwice(number string) string {
	return fmt.Sprintf("More than one opening here bears the number %s on record. Give all but one another number first.", number)
}

// sayOther says that something else is on record, or stands in an earlier line.
func sayOther(value any, line int) string {
	if line > 0 {
		return fmt.Sprintf("Line %d says %v. Leave the one that is right.", line, value)
	}
	return fmt.Sprintf("On record is %v. Mend this line, or put right what is on record first.", value)
}

func sayFewer(record, here int) string {
	return fmt.Sprintf("On record are %d like it, the list has %d. Write how many there are in all, or withdraw what is too many.", record, here)
}

func sayPoles(from, to int) string {
	return fmt.Sprintf("A 2-pole breaker takes a space and the next in its column, not %d and %d. Check the numbers.", from, to)
}

// bad refuses a line for what stands in a column.
func bad(column, stood, say string) error {
	return observation.Unusable{Field: column, Typed: stood, Say: say}
}
