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
	case kept == 0 && len(not) == 1:
		return "This row is not kept yet: " + rows + "."
	case kept == 0:
		return fmt.Sprintf("These %d rows are not kept yet: %s.", len(not), rows)
	case len(not) == 1:
		return sayKeptRows(kept) + " This one is not kept yet: " + rows + "."
	}
	return fmt.Sprintf("%s These %d are not kept yet: %s.", sayKeptRows(kept), len(not), rows)
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
