package web

import (
	"fmt"
	"strings"
)

// Words of the late entry from paper that do not stand in its template.

// sayKeptRows says how many rows of the sheet are kept: "Kept 3 rows."
func sayKeptRows(n int) string { return "Kept " + counted(n, "row") + "." }

// mostNamed is how many rows are named one by one.
const mostNamed = 8

// sayNotKeptRows stands over a sheet that comes back: what is kept, and the rows
// that are not; nothing when no row is at fault.
func sayNotKeptRows(kept int, not []string) string {
	rows := strings.Join(not[:min(len(not), mostNamed)], "; ")
	if more := len(not) - mostNamed; more > 0 {
		rows += fmt.Sprintf("; and %d more", more)
	}
	switch {
	case len(not) == 0:
		return ""
	case kept == 0:
		return "Not kept yet: " + rows + "."
	}
	return sayKeptRows(kept) + " Not kept yet: " + rows + "."
}

// sayTimeOff stands at the time of a row without one, in a tour taken down.
const sayTimeOff = "The resistors are off: type when this was read."

// sayAfterOff refuses a time after the take-off.
func sayAfterOff(off string) string {
	return "The resistors are off since " + off + ": type when this was read, before that."
}

const (
	// sayNoCopy refuses the state of a copy.
	sayNoCopy = "This journal was never in that state. Type the letters under the square code once more; the rows are numbered as on a sheet printed now."
	// sayGoneRow stands in the row of an opening that is no longer on record.
	sayGoneRow = "Withdrawn since: record the opening again before its readings."
)

// sayOnCopy names a room that the copy calls otherwise.
func sayOnCopy(now, was string) string { return now + ", on your sheet " + was }

// saySince names a room in which rows came in since the copy was printed.
func saySince(room string) string { return room + ", not on your sheet" }

// sayLettersBefore says that letters are those of a number from before.
func sayLettersBefore(letters, was, is string) string {
	return fmt.Sprintf("%s are the letters of %s, the number before: it is %s now. Look whether its tape says so.", letters, was, is)
}

// sayLookOf names the line of a sheet at the end of a room.
func sayLookOf(room string) string { return "look around " + room }

func sayNotInRoom(number string) string {
	return fmt.Sprintf("No opening %s is on record in this room. Type yes, no, or the numbers without a mark.", number)
}

// sayWrongLetters says that letters do not belong to a number, and where they do.
func sayWrongLetters(letters, number string, fits []string) string {
	out := fmt.Sprintf("%s are not the letters of %s.", letters, number)
	if len(fits) > 0 {
		out += " They fit " + strings.Join(fits, ", ") + "."
	}
	return out
}
