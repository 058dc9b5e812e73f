package web

import (
	"asfound/diary"
	"asfound/installation"
)

// notNow is the answer of a decision that puts a step off.
const notNow = diary.NotNow

const sayTakenUp = "taken up again"

// notNowReasons are the buttons of the second touch.
var notNowReasons = []string{"No access today", "Somebody is at work there", "It has to stay on today", "Material is missing"}

// stepKeyWords says a step by its key, which is all that a decision keeps of it.
func stepKeyWords(in *installation.Installation, key string) string { return diary.StepWords(in, key) }
