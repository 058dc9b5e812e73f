package web

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"asfound/site"
)

// Words of the pages that take lists in from files, and take them back.

const (
	titleLists = "Take in a list"

	// namePasted is the name of a list that was pasted.
	namePasted = "pasted list"

	sayNoKind       = "Choose what the list holds."
	sayNoList       = "Choose a file, or paste the table below."
	sayListTooLarge = "This file is larger than 32 MB. Split it, each part with the head."
	sayListGone     = "This list is no longer held here. Choose the file once more: what is on record of it already is told so."
	sayNoFile       = "No list that was taken in has this name. It may not have reached this device yet."
)

// backReasons are the buttons for taking a file back.
var backReasons = []string{"The wrong file", "Another job's list", "Taken in twice"}

// listWord names a kind of list.
func listWord(k site.ListKind) string {
	return map[site.ListKind]string{site.ListOpenings: "Openings", site.ListPanels: "Panels",
		site.ListCircuits: "Circuits: labels and breakers", site.ListDrawn: "Openings on drawings"}[k]
}

// counting is a number for an address.
func counting(n int) string { return strconv.Itoa(n) }

// sayFile names a list that was taken in.
func sayFile(f site.File, now time.Time) string {
	entries := "1 entry"
	if n := len(f.Entries); n > 1 {
		entries = fmt.Sprintf("%d entries", n)
	}
	return fmt.Sprintf("%s: %s, %s, %s", f.Title(), entries, f.Who, dayAndTime(f.When, now))
}

func sayFileTitle(name string) string { return "Taken in from " + name }

func sayMoreNew(n int) string { return fmt.Sprintf("and %d more", n) }

// sayFrom names the file and line an entry came from.
func sayFrom(f site.File, line int) string { return fmt.Sprintf("%s, line %d", f.Title(), line) }

// listTold says how a file was read, and what of it was passed over.
func listTold(t site.Taken) []string {
	out := []string{fmt.Sprintf("Read as %s, a %s between cells.", t.Encoding, t.Separator)}
	if len(t.Unknown) > 0 {
		out = append(out, "Not used, since no column is called so: "+strings.Join(t.Unknown, ", ")+".")
	}
	if t.Empty > 0 {
		out = append(out, "Passed over: "+counted(t.Empty, "empty line")+".")
	}
	return out
}
