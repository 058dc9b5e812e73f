package web

import "fmt"

// Words of the survey sheet's late entry that do not stand in its template.

const (
	sayUse    = "Write receptacle, switch, lighting, equipment or junction; the first letters are enough."
	sayCables = "Write how many cables enter, or each by its jacket: 14/2, 12/3."
)

// sayLateSurvey is the title of the late entry of a room.
func sayLateSurvey(room string) string { return "Survey sheet, " + room }

// sayLine names a line of the sheet.
func sayLine(no int, number string) string {
	if number == "" {
		return fmt.Sprintf("line %d", no)
	}
	return fmt.Sprintf("%d, %s", no, number)
}

// sayLineTwice refuses a number that stands on a line above.
func sayLineTwice(number string, line int) string {
	return fmt.Sprintf("%s stands on line %d too: give one of them another number.", number, line)
}
