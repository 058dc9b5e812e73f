// Package observation holds what someone saw, did or measured on the job: one
// file for each kind, with who, when it was taken, at which stop and under
// which set-ups.
//
// An observation is never edited. A wrong one is withdrawn by another that
// names it. The package gives no meaning to what it holds: it refuses only what
// can never be right by itself (a resistance below zero, a reading between a
// conductor and itself). What is impossible only in this building (space 33 of
// a 30-space panel) is for package installation to say.
//
// Start with Observation and Body, then any kind, for example Ohm.
package observation

import (
	"fmt"
	"strings"
	"time"
)

// Thing is the lasting name of a building, room, opening or panel: the text of
// the ID of the event that first recorded it. Numbers and names that people
// read may change or be given twice; a Thing does neither.
type Thing string

// Body is the content of one observation, one Go type for each kind.
type Body interface {
	// Kind is the name and version under which the body is kept, such as "ohm.1".
	Kind() string
	// Check returns an Unusable error when no building could make the body right.
	Check() error
}

// Observation is one thing seen, done or measured, as the person gave it and
// before the journal has numbered it.
type Observation struct {
	Who     string    // the person, as known on this job
	Taken   time.Time // when it was taken, as the person says; zero means when it was recorded
	Stop    string    // one visit of one person to one place; readings of a stop share its place doubt
	Under   []ID      // the set-ups it rests on: a tour, a resistor, a lock-out
	Seen    []ID      // the events its author saw and replaces
	Subject Thing     // the thing it is about; empty when it records a new thing
	Body    Body
}

// clockSlack is how far ahead of this clock a time may be before it counts as
// in the future; two clocks on one site differ by minutes.
const clockSlack = 10 * time.Minute

// Check returns an Unusable error naming the field to mend, or nil. The clock
// of the one who records is now.
func (o Observation) Check(now time.Time) error {
	if o.Body == nil {
		return Unusable{Field: "kind", Say: "Choose what to record."}
	}
	if strings.TrimSpace(o.Who) == "" {
		return Unusable{Field: "who", Say: "Say who took it."}
	}
	if !o.Taken.IsZero() && o.Taken.After(now.Add(clockSlack)) {
		return Unusable{Field: "taken", Typed: o.Taken.Format("2006-01-02 15:04"),
			Say: "That time has not come yet. Type when it was taken."}
	}
	return firstFault(checkText("who", o.Who), checkText("stop", o.Stop), o.Body.Check())
}

// Unusable says that what was typed cannot be used: Say is one plain sentence
// for the person, shown beside the field Field; Typed is what stood there.
type Unusable struct {
	Field, Typed, Say string
}

func (u Unusable) Error() string {
	if u.Field == "" {
		return u.Say
	}
	return u.Field + ": " + u.Say
}

// unusable is a short way to an Unusable with a formatted sentence.
func unusable(field, typed, format string, args ...any) error {
	return Unusable{Field: field, Typed: typed, Say: fmt.Sprintf(format, args...)}
}

// Known is yes, no, or not known; the zero value is not known.
type Known string

// The three values of Known.
const (
	NotKnown Known = ""
	Yes      Known = "yes"
	No       Known = "no"
)

func (k Known) check(field string) error {
	if k != NotKnown && k != Yes && k != No {
		return unusable(field, string(k), "Answer yes, no, or leave it as not known.")
	}
	return nil
}
