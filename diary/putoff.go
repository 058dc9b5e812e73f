package diary

import (
	"strings"

	"asfound/installation"
	"asfound/observation"
)

// StepWords say a step by its key, which is all that a decision keeps of it.
func StepWords(in *installation.Installation, key string) string {
	what, rest, _ := strings.Cut(key, " ")
	var names []string
	for _, part := range strings.Split(rest, " ") {
		if t := observation.Thing(part); in.Story(t) != nil {
			part = in.Name(t)
		}
		names = append(names, part)
	}
	name := strings.Join(names, " ")
	if len(names) == 2 && what == "back" {
		name = names[0] + ", panel " + names[1]
	}
	say, ok := map[string]string{
		"buildings": "Record the first building", "panels": "Record the panel", "openings": "Record the openings",
		"spaces": "What lands on the spaces of panel ", "dead": "Absence-of-voltage test of panel ", "isolation": "Panel isolation test of panel ",
		"resistors": "Resistors at panel ", "back": "Blind read-back of ", "off": "Read back and take off ",
		"read": "Read ", "look": "Look around ", "live": "Find what feeds ", "clash": "Settle the clash at ", "again": "Read once more at ",
		"count": "Record the openings of ", "rooms": "Record the rooms of building ", "feeder": "What feeds panel ", "sources": "Record what can put voltage on the property",
		"drawn": "Look for what the drawing shows in ", "release": "Take the locks off panel ",
	}[what]
	if !ok {
		return key
	}
	return say + name
}
