// Package count tells how much of the property was read, what is in it room by
// room, and how the drawings that came with the job compare with what was found.
//
// A drawing is what somebody meant: what stands on it and was not found counts
// as not looked for until somebody says what became of it and what shows that.
// The package pairs only what was said to be the same or bears the same number
// in the same room; the rest it counts, and names no opening as the missing one.
// All of it follows from the installation and the trace alone, in any order of
// arrival.
//
// Start with CoverageOf and Compare.
package count

import (
	"asfound/evidence"
	"asfound/installation"
	"asfound/observation"
	"asfound/trace"
)

// Openings lists the openings of a room or building, or all of the property for
// no thing, in walking order.
func Openings(in *installation.Installation, of observation.Thing) []*installation.Opening {
	var out []*installation.Opening
	for _, o := range in.Openings {
		b := in.BuildingOf(o.Thing)
		if of == "" || o.Room == of || b != nil && b.Thing == of {
			out = append(out, o)
		}
	}
	return out
}

// Rooms lists the rooms of a building, or all for no thing, in walking order.
func Rooms(in *installation.Installation, of observation.Thing) []*installation.Room {
	var out []*installation.Room
	for _, r := range in.Rooms {
		if of == "" || r.Thing == of || r.Building == of {
			out = append(out, r)
		}
	}
	return out
}

// Visit is what came of going to an opening.
type Visit int

// What came of it; the zero value is that nobody went.
const (
	NotVisited Visit = iota
	NotReached
	CannotRead
	Read
)

// VisitOf says what came of going to an opening: what was read counts before
// what could not be.
func VisitOf(o *installation.Opening) Visit {
	out := NotVisited
	for _, s := range o.Stops {
		switch {
		case len(s.Ohms) > 0:
			return Read
		case len(s.Cannot) > 0:
			out = CannotRead
		}
	}
	if out == NotVisited && o.NotReached != nil {
		return NotReached
	}
	return out
}

// Coverage is how far the openings of a place were read, and how firmly their
// lines stand.
type Coverage struct {
	Openings int
	Visits   [Read + 1]int
	Lines    [evidence.Clash + 1]int // by standing
}

// CoverageOf counts a room or building, or the property for no thing. Each
// opening is in exactly one of the visits.
func CoverageOf(in *installation.Installation, tr *trace.Trace, of observation.Thing) Coverage {
	var out Coverage
	inside := map[observation.Thing]bool{}
	for _, o := range Openings(in, of) {
		inside[o.Thing] = true
		out.Openings++
		out.Visits[VisitOf(o)]++
	}
	for _, l := range tr.Lines {
		if inside[l.End.At] {
			out.Lines[l.Verdict.Standing]++
		}
	}
	return out
}

// Uses is how many openings of one use there are, for ordering material.
type Uses struct {
	Use       observation.OpeningUse
	Openings  int
	Gangs     int // of those whose gangs were noted
	NoGangs   int // whose gangs were not noted
	Equipment []string
}

// ByUse counts the openings of a place by use, in the order of a form; uses that
// none has are left out.
func ByUse(in *installation.Installation, of observation.Thing) []Uses {
	all := Openings(in, of)
	var out []Uses
	for _, use := range observation.OpeningUses {
		u := Uses{Use: use}
		for _, o := range all {
			if o.Use != use {
				continue
			}
			u.Openings++
			u.Gangs += o.Gangs
			if o.Gangs == 0 {
				u.NoGangs++
			}
			if use == observation.Equipment && o.Note != "" {
				u.Equipment = append(u.Equipment, o.Note)
			}
		}
		if u.Openings > 0 {
			out = append(out, u)
		}
	}
	return out
}
