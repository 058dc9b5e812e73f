// Package report makes the sheets that go to a panel, along on a tour, to the
// door of a panel or to the builder: circuit directory, isolation sheet, resistor
// list, read-back sheet, tour sheet and tape list; what can still be live in a
// panel, the locks of two people, all directories in one print, the one-line, and
// the helper's sheet; count by room, list of differences and plan; survey sheet,
// the day and the take-over record.
//
// A guess never reaches paper: a statement that is not settled stands with its
// mark in words and in pencil, and one without a single answer is not told as
// one. Each sheet bears the journal state it was made from and a code by which
// it is found again. The package reads nothing but a site.AsFound, writes no
// PDF itself, and says of nothing that it is dead: that takes the
// absence-of-voltage test.
//
// Start with Sheets and Make; each kind of sheet has a file of its own.
package report

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"asfound/installation"
	"asfound/observation"
	"asfound/paper"
	"asfound/site"
)

// Kind is a sheet that can be made of a site as found.
type Kind struct {
	Name  string            // for a command line and for Make: "directory-a1"
	Title string            // for people: "Panel A1: circuit directory"
	Of    observation.Thing // the panel, tour or building it is about; empty is the property
	Who   string            // the person of a helper's sheet; empty is anybody else
	Sort  Sort

	day    time.Time // the day it is about, for those that are about one
	beside Beside
}

// Beside is what some sheets need beside the site as found. Either may be nil:
// the sheet says then what it could not look at.
type Beside struct {
	Photos  Photos
	History History
}

// Photos gives photographs by the hash they are kept under.
type Photos interface {
	// Here reports whether this device has it.
	Here(hash string) bool
	// TooLarge reports whether it has more pixels than can be read for paper.
	TooLarge(hash string) bool
	// JPEG gives it upright, its longer side at most so many pixels; nothing when
	// it cannot be read.
	JPEG(hash string, longest int) []byte
}

// History gives the site before and after a stretch of time, as this device
// knew it.
type History interface {
	Between(from, to time.Time) (before, after *site.AsFound, err error)
}

// Sort is the sort of a sheet.
type Sort string

// The sorts of sheet there are, in the order Sheets lists them.
const (
	Directory Sort = "directory" // what each space of a panel feeds
	Isolation Sort = "isolation" // the panel isolation test of a panel
	Resistors Sort = "resistors" // which resistor goes on which space for a tour
	ReadBack  Sort = "readback"  // the same spaces without their values, to be read blind
	Walk      Sort = "tour"      // the openings of a tour with room to write
	Tapes     Sort = "tapes"     // numbers and check letters of a building, for writing tapes

	Door        Sort = "door"        // what can still be live in a panel with it off
	Locks       Sort = "lockout"     // the locks of two people, with room to write
	Directories Sort = "directories" // the directories of all panels, one after another
	OneLine     Sort = "oneline"     // sources, feeders and panels
	Helper      Sort = "helper"      // the next steps of a person who goes on without a phone
	Count       Sort = "count"       // openings by room and use, of a building or the property
	Differences Sort = "differences" // drawings against building, for the builder
	Plan        Sort = "plan"        // the floors of a building as measured
	Survey      Sort = "survey"      // the openings of a building or room with room to write what is seen
	DaySheet    Sort = "day"         // one day on one page, for the builder
	TakeOver    Sort = "takeover"    // what was seen by the end of the first day, or another, with photographs
)

// maker makes the sheets of one sort.
type maker struct {
	title func(name string) string
	make  func(*site.AsFound, Kind) (*paper.Sheet, error)
	rows  func(*site.AsFound, Kind) (list, error)
}

func makers(s Sort) maker {
	return map[Sort]maker{
		Directory: {panelTitle("circuit directory"), makeDirectory, directoryRows},
		Isolation: {panelTitle("isolation sheet"), makeIsolation, isolationRows},
		Resistors: {titled("resistor list"), makeResistors, resistorRows},
		ReadBack:  {titled("read-back sheet"), makeReadBack, readBackRows},
		Walk:      {titled("tour sheet"), makeWalk, walkRows},
		Tapes:     {titled("tape list"), makeTapes, tapeRows},

		Door:        {panelTitle("what can still be live"), makeDoor, doorRows},
		Locks:       {always("Locks of two people"), makeLocks, lockRows},
		Directories: {always("All panels: circuit directories"), makeDirectories, directoriesRows},
		OneLine:     {always("Sources, feeders and panels"), makeOneLine, oneLineRows},
		Helper:      {titled("helper's sheet"), makeHelper, helperRows},
		Count:       {titled("count by room"), makeCount, countRows},
		Differences: {titled("list of differences"), makeDifferences, differenceRows},
		Plan:        {titled("plan"), makePlan, planRows},
		Survey:      {titled("survey sheet"), makeSurvey, surveyRows},
		DaySheet:    {nil, makeDay, dayRows},
		TakeOver:    {nil, makeTakeOver, takeOverRows},
	}[s]
}

func panelTitle(what string) func(string) string {
	return func(name string) string { return "Panel " + name + ": " + what }
}

// always is the title of a sheet about the whole property.
func always(title string) func(string) string { return func(string) string { return title } }

func titled(what string) func(string) string {
	return func(name string) string { return name + ": " + what }
}

// plainName keeps letters and figures, so that a name can be typed and stand in
// an address.
func plainName(s string) string {
	words := strings.FieldsFunc(strings.ToLower(s), func(r rune) bool {
		return (r < 'a' || r > 'z') && (r < '0' || r > '9')
	})
	if len(words) == 0 {
		return "unnamed"
	}
	return strings.Join(words, "-")
}

// Make makes a sheet by its name. An unknown name, and a sheet for which
// something is still to be recorded, come back as an observation.Unusable.
func Make(a *site.AsFound, name string) (*paper.Sheet, error) { return Beside{}.Make(a, name) }

// Make makes a sheet with what stands beside the site as found.
func (b Beside) Make(a *site.AsFound, name string) (*paper.Sheet, error) {
	k, err := b.lookup(a, name)
	if err != nil {
		return nil, err
	}
	s, err := makers(k.Sort).make(a, k)
	if err != nil {
		return nil, fmt.Errorf("make sheet %s: %w", name, err)
	}
	return s, nil
}

// Named returns the sheet of a name, listed or not.
func Named(a *site.AsFound, name string) (Kind, bool) {
	listed := Sheets(a)
	i := slices.IndexFunc(listed, func(k Kind) bool { return k.Name == name })
	if i >= 0 {
		return listed[i], true
	}
	return unlisted(a, name)
}

func (b Beside) lookup(a *site.AsFound, name string) (Kind, error) {
	if k, ok := Named(a, name); ok {
		k.beside = b
		return k, nil
	}
	var names []string
	for _, k := range Sheets(a) {
		names = append(names, k.Name)
	}
	say := "There is no sheet of that name. Choose one of: " + strings.Join(names, ", ") + "."
	if len(names) == 0 {
		say = "There is nothing to make a sheet of yet. Record a panel first."
	}
	return Kind{}, observation.Unusable{Field: "sheet", Typed: name, Say: say}
}

// panelOf returns the panel a sheet is about; Sheets lists no other.
func panelOf(a *site.AsFound, k Kind) *installation.Panel { return a.Panel(k.Of) }
