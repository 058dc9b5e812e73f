package web

import (
	"fmt"

	"asfound/observation"
)

// Words of the plan, the measures and the drawings that do not stand in their
// templates.

const (
	titleDrawings    = "Drawings that came with the job"
	titleDifferences = "Drawings against building"

	doorPlan        = "Plan"
	doorDrawings    = "Record drawings"
	doorDifferences = "Drawings against building"

	sayAlong         = "Type how far it is along the wall, as 7 ft, 7' 6\" or 90 in."
	sayOnWall        = "Choose the wall it is in, or ceiling or floor."
	sayFromTo        = "Type where it begins and where it ends, as 3 ft and 6 ft."
	sayNoCorner      = "Type both: how far right and how far back the corner is. 0 is a measure too."
	sayHowMany       = "Type how many as a number from 1 to 100."
	sayMoreMarks     = "There are more marks than openings. Check the number, or leave a mark out."
	sayChooseOpening = "Choose the opening"
	sayNoNumber      = "No opening has that number. Check the number on the tape, or record the opening first."
	sayRoomFirst     = "Say in which room the drawing shows them. Record the room first if it is not listed."
)

// wallOptions are the four walls, named as one sees them from the front of the
// building.
func wallOptions() []option {
	return newOptions(string(observation.FrontWall), "Front", string(observation.BackWall), "Back", string(observation.LeftWall), "Left", string(observation.RightWall), "Right")
}

// spotOptions are the walls, ceiling and floor.
func spotOptions() []option {
	return append(wallOptions(), newOptions(string(observation.Overhead), "Ceiling", string(observation.Underfoot), "Floor")...)
}

// sayKeptSome says that a disk filled up in the middle of several records.
func sayKeptSome(kept, of int) string {
	return fmt.Sprintf("Kept %d of %d: the form now asks for the rest.", kept, of)
}

// sayDrawnKept says what was kept of a drawing.
func sayDrawnKept(n int, room string) string { return fmt.Sprintf("Kept %d in %s.", n, room) }

// drawnSummary says how the drawings compare in one line.
func drawnSummary(drawn, paired, missing, counted, extra int) string {
	return fmt.Sprintf("%d drawn: %d paired with an opening, %d not found, %d counted by room and use. %d found and on no drawing.", drawn, paired, missing, counted, extra)
}
