package observation

import "strings"

// Letters are the two check letters read from the tape of an opening (the
// subject) at this stop. They tell whether the number was written right.
type Letters struct {
	Letters string `json:"letters"`
}

// Kind is "letters.1".
func (Letters) Kind() string { return "letters.1" }

// Check wants two letters.
func (l Letters) Check() error {
	text := strings.Join(strings.Fields(l.Letters), "")
	if len(text) != 2 || strings.Trim(strings.ToUpper(text), "ABCDEFGHIJKLMNOPQRSTUVWXYZ") != "" {
		return unusable("letters", l.Letters, "Type the two letters on the tape of this opening.")
	}
	return nil
}

// RoomCheck is a look around a room (the subject) at the end of its part of a
// tour: each opening read bears one new pencil mark on its tape, put there when
// it was read. All says whether that was so for every opening of the room.
type RoomCheck struct {
	All     Known   `json:"all"`
	Without []Thing `json:"without,omitempty"` // openings found without a mark
}

// Kind is "roomcheck.1".
func (RoomCheck) Kind() string { return "roomcheck.1" }

// Check wants an answer.
func (r RoomCheck) Check() error {
	if r.All == NotKnown {
		return unusable("all", "", "Look at each opening of the room: does every one bear its mark? Answer yes or no.")
	}
	return r.All.check("all")
}
