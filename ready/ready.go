// Package ready says what is not ready at a place where somebody wants to work:
// what can still be live in a panel when it is off, or in a box when its circuit
// is off, each with the entries it rests on and how firmly it is known.
//
// It lists what is on record and, first of all, what is not. It refuses to say
// that anything is dead: that takes the absence-of-voltage test, of which
// package installation says whether it counts.
//
// Start with Panel and Opening.
package ready

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"asfound/evidence"
	"asfound/installation"
	"asfound/observation"
	"asfound/trace"
)

// Sort is the sort of a way by which voltage can be at a place.
type Sort int

// The sorts, in the order in which they are listed.
const (
	NotKnown Sort = iota // something nobody has on record
	Supply               // a source
	Feed                 // a feeder on the way from a source
	Back                 // power that comes back through what is fed from here
	Passing              // conductors that only pass through
	Circuit              // a branch circuit
	Neutral              // a neutral that two circuits may share
)

// Way is one way by which voltage can still be at a place.
type Way struct {
	Sort  Sort
	Say   string            // a sentence without its full stop
	Known string            // how firmly it is known; empty where it was seen
	At    observation.Thing // where it comes from, or is; may be empty
	Lines []*trace.Line     // the lines that say so
	Of    []observation.ID  // the entries that say so
	Unfed bool              // no feeder to At is on record
}

// ways gathers the ways of one place.
type ways struct {
	in  *installation.Installation
	tr  *trace.Trace
	at  map[observation.Thing][]*trace.Line // by where they end
	out []Way
}

func newWays(in *installation.Installation, tr *trace.Trace) *ways {
	w := &ways{in: in, tr: tr, at: map[observation.Thing][]*trace.Line{}}
	for _, l := range tr.Lines {
		w.at[l.End.At] = append(w.at[l.End.At], l)
	}
	return w
}

func (w *ways) add(x Way) { w.out = append(w.out, x) }

// sorted puts what is not known first.
func (w *ways) sorted() []Way {
	slices.SortStableFunc(w.out, func(a, b Way) int { return cmp.Compare(a.Sort, b.Sort) })
	return w.out
}

// entries are the live entries of a story whose body is a B and passes.
func entries[B observation.Body](story installation.Story, passes func(B) bool) []observation.ID {
	var out []observation.ID
	for _, e := range story {
		if b, ok := e.Body.(B); ok && e.Live() && passes(b) {
			out = append(out, e.ID)
		}
	}
	return out
}

func all[B observation.Body](B) bool { return true }

// firm reports whether a line has one answer that may be spoken of.
func firm(l *trace.Line) bool {
	return l.Verdict.Standing == evidence.Settled || l.Verdict.Standing == evidence.Likely
}

// live says which places showed voltage though they should not.
func (w *ways) live(here func(observation.Thing) bool) {
	for _, odd := range w.tr.Oddities {
		if odd.Kind == trace.AlwaysLive && here(odd.Place) {
			w.add(Way{Sort: NotKnown, Say: "The latest absence-of-voltage test found voltage at " + w.in.Name(odd.Place) + ", and what feeds it is not on record", At: odd.Place,
				Of: entries(w.in.Story(odd.Place), func(b observation.ProvenDead) bool { return b.Absent == observation.No })})
		}
	}
}

// counted is "1 space", "3 spaces".
func counted(n int, one string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + one + "s"
}

// listed is "1, 3 and 5".
func listed(parts []string) string {
	if len(parts) < 2 {
		return strings.Join(parts, "")
	}
	return strings.Join(parts[:len(parts)-1], ", ") + " and " + parts[len(parts)-1]
}

// joined puts what there is behind a sentence, with commas.
func joined(parts ...string) string {
	return strings.Join(slices.DeleteFunc(parts, func(s string) bool { return s == "" }), ", ")
}
