package web

import (
	"strings"

	"asfound/installation"
	"asfound/observation"
)

// notNow is the answer of a decision that puts a step off.
const notNow = "not now"

const sayTakenUp = "taken up again"

// notNowReasons are the buttons of the second touch.
var notNowReasons = []string{"No access today", "Somebody is at work there", "It has to stay on today", "Material is missing"}

// stepKeyWords says a step by its key, which is all that a decision keeps of it.
func stepKeyWords(in *installation.Installation, key string) string {
	what, rest, _ := strings.Cut(key, " ")
	name := rest
	if t := observation.Thing(rest); in.Story(t) != nil {
		name = in.Name(t)
	}
	say, ok := map[string]string{
		"buildings": "Record the first building", "panels": "Record the panel", "openings": "Record the openings",
		"spaces": "What lands on the spaces of panel ", "dead": "Absence-of-voltage test of panel ", "isolation": "Panel isolation test of panel ",
		"resistors": "Resistors at panel ", "back": "Blind read-back of ", "off": "Read back and take off ",
		"read": "Read ", "look": "Look around ", "clash": "Settle the clash at ", "again": "Read once more at ",
	}[what]
	if !ok {
		return key
	}
	return say + name
}
