package diary

import (
	"strings"

	"asfound/installation"
	"asfound/observation"
)

// StepWords say a step by its key, which is all that a decision keeps of it.
func StepWords(in *installation.Installation, key string) string {
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
