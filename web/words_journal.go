package web

import (
	"fmt"
	"strings"
	"time"
)

// Words of the journal, the story of a thing, the notes and the day that do not
// stand in their templates.

const (
	sayEverybody = "Everybody"
	sayEveryKind = "Every kind"
	sayOneStop   = "one stop"
	sayGoneOnly  = "withdrawn only"
	sayDiffer    = "people differ"
	sayDayOrder  = "This day is before the first one. Type a later day, or exchange the two."
	sayNoDay     = "Nothing was recorded on this day. Choose another one from the journal."
)

// dayWords is a day as people say it.
func dayWords(day time.Time) string { return day.Format("Monday, January 2, 2006") }

// sayVisit is the heading of a visit: "Marit, 08:10 to 08:25, A02-08: 4 entries".
func sayVisit(g *visited, place string, at *time.Location) string {
	first, last := g.first.In(at).Format("15:04"), g.last.In(at).Format("15:04")
	when := first
	if first != last {
		when += " to " + last
	}
	return strings.Join(nonEmpty(g.who, when, place), ", ") + ": " + entriesWord(len(g.events))
}

func entriesWord(n int) string {
	if n == 1 {
		return "1 entry"
	}
	return fmt.Sprintf("%d entries", n)
}

// sayWas says an earlier name of a thing: "was A02-07 until Mar 3, 2031".
func sayWas(name string, until time.Time) string {
	return "was " + name + " until " + until.Format("Jan 2, 2006")
}

// sayLeaning says how many lines rest on an entry now.
func sayLeaning(n int) string {
	if n == 1 {
		return "1 line rests on it now"
	}
	return fmt.Sprintf("%d lines rest on it now", n)
}

const sayNoteJob = "A note about the whole job"

// sayNoteOf heads the page of a note.
func sayNoteOf(name string) string { return "A note about " + name }

// sayStoryOf heads the story of a thing.
func sayStoryOf(name string) string { return "The story of " + name }
