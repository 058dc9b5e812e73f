package web

import (
	"strings"

	"asfound/installation"
	"asfound/observation"
	"asfound/step"
)

const (
	sayTakenUp = "taken up again"
	sayNoStep  = "This step is not proposed any more: somebody did it, or the record has changed. Choose again."
)

// notNowReasons are the buttons of the second touch.
var notNowReasons = []string{"No access today", "Somebody is at work there", "It has to stay on today", "Material is missing"}

// stepKeyWords says a step by its key, which is all that a decision keeps of it.
func stepKeyWords(in *installation.Installation, key string) string {
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
		"read": "Read ", "look": "Look around ", "clash": "Settle the clash at ", "again": "Read once more at ",
		"count": "Record the openings of ", "rooms": "Record the rooms of building ", "feeder": "What feeds panel ", "sources": "Record what can put voltage on the property",
		"drawn": "Look for what the drawing shows in ", "release": "Take the locks off panel ",
	}[what]
	if !ok {
		return key
	}
	return say + name
}

// sayTime is how long a step takes, and how much of that is not spent on it.
func sayTime(s step.Step) string {
	out := sayMinutes(s.Minutes)
	if s.Moving >= 1 {
		out += ", " + strings.TrimPrefix(sayMinutes(s.Moving), "about ") + " of it getting there"
	}
	return out
}
