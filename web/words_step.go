package web

import (
	"strings"

	"asfound/diary"
	"asfound/installation"
	"asfound/step"
)

const (
	sayTakenUp = "taken up again"
	sayNoStep  = "This step is not proposed any more: somebody did it, or the record has changed. Choose again."
)

// notNowReasons are the buttons of the second touch.
var notNowReasons = []string{"No access today", "Somebody is at work there", "It has to stay on today", "Material is missing"}

// stepKeyWords says a step by its key, which is all that a decision keeps of it.
func stepKeyWords(in *installation.Installation, key string) string { return diary.StepWords(in, key) }

// sayTime is how long a step takes, and how much of that is not spent on it.
func sayTime(s step.Step) string {
	out := sayMinutes(s.Minutes)
	if s.Moving >= 1 {
		out += ", " + strings.TrimPrefix(sayMinutes(s.Moving), "about ") + " of it getting there"
	}
	return out
}
