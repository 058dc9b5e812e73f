package web

import (
	"time"
)

// Words of tours and of what is read in them that do not stand in a template.

const (
	// sayNotUnderOff refuses what is entered in a tour that is taken down.
	sayNotUnderOff = "Not kept: the resistors are off. What was read before goes in by late entry, with its time."
	// sayTooMuch refuses a value that no ohmmeter on conductors shows.
	sayTooMuch = "That is more than 20 MΩ. Check the figures; no path is open."
	// sayMeter refuses an error that no meter's booklet gives.
	sayMeter = "Type the error from the meter's booklet in ohms, from 0 to 10."
)

// sayOff says that a tour's resistors are off.
func sayOff(tour, since string) string {
	return "The resistors of " + tour + " are off since " + since + "."
}

// sinceWord is a moment after "since": the time of day alone when it is today.
func sinceWord(t, now time.Time) string {
	t = t.In(now.Location())
	if t.Format(time.DateOnly) == now.Format(time.DateOnly) {
		return t.Format("15:04")
	}
	return t.Format("Jan 2, 2006 15:04")
}

// answerWord is an answer that is no value, as its button says it.
func answerWord(answer string) string {
	return map[string]string{"open": "open", "cannot": "cannot read", "notreached": "not reached"}[answer]
}

// sayBusy says that another tour's resistors are on at a panel.
func sayBusy(tour, panel string) string {
	return "Resistors of " + tour + " are still on at panel " + panel + ". Two on one conductor read as neither: take those off first."
}

// sayTourUsed refuses the name of a tour on record, and offers another.
func sayTourUsed(name, other string) string {
	return "The name " + name + " is used by a tour on record. Take another, such as " + other + "."
}
