// Package days says what to do next: for each person one card, ranked over all
// that is open on the job by certainty a minute, from where the person stands.
//
// It takes what package trace proposes about the wiring, adds what is missing
// from the record, and counts the minutes of moving: walks, stairs, ladders,
// plates. It works out nothing about the wiring itself and changes no standing:
// habit and guessed minutes order the steps and nothing else. A step is
// proposed only if every panel it needs dead is on record as locked out and
// proven dead; that is a record, and the test at the place still comes first.
//
// The same journal gives the same card, in whatever order it arrived and
// whenever it is asked for. Start with Next.
package days

import (
	"slices"
	"strings"
	"time"

	"asfound/observation"
	"asfound/site"
	"asfound/step"
	"asfound/trace"
)

// Person is who asks. With no place given, he is where he last recorded
// something.
type Person struct {
	Name string
	At   observation.Thing
}

// Card is what a person may do now.
type Card struct {
	At   observation.Thing // where he stands; empty when nothing says
	Best []step.Step       // at most three, the best first; none when all are put off
	Off  []step.Step       // those that are put off, the best first
	// Instead is the choice that the first of Best follows, if one stands.
	Instead *Choice
}

// most is how many steps a card offers.
const most = 3

// Next ranks all steps for a person. When there is no step at all, the card
// holds one of kind step.Rest that says what stays open.
func Next(a *site.AsFound, who Person) Card {
	r := rank(a, who)
	card := Card{At: r.at}
	off := putOff(a.Installation)
	choice, passed := standingChoice(a.Installation, who.Name, r)
	first := ""
	if choice != nil {
		card.Instead, first = choice, choice.Chosen
		card.Best = append(card.Best, r.shown(r.find(first)))
	}
	for _, c := range r.candidates {
		switch {
		case off[c.Key]:
			card.Off = append(card.Off, r.shown(c))
		case len(card.Best) < most && !passed[c.Key] && c.Key != first:
			card.Best = append(card.Best, r.shown(c))
		}
	}
	if len(r.candidates) == 0 {
		card.Best = []step.Step{{Key: "rest", Kind: step.Rest, Where: "Here", Reason: a.Trace.Left(a.Installation)}}
	}
	return card
}

// candidate is a proposal with the way to it, as one person ranks it.
type candidate struct {
	trace.Proposal
	proposed trace.Proposal    // without the way to it
	ends     observation.Thing // where the person is after it
	first    bool              // before all else, unless somebody is at it
	rate     float64           // gain a minute
}

// ranked is all candidates for one person, best first.
type ranked struct {
	at         observation.Thing
	last       time.Time                  // when the last entry that tells a place was taken, by anybody
	taken      map[observation.Thing]bool // where others are at work right now
	candidates []*candidate
	ways       *ways
}

// Assumed: what a step is worth to a person where another is at work, in a room
// and at a panel, before which only one can stand; and what it is worth at the
// panel that he stands at himself.
const (
	nearlySame = 0.75
	inTheWay   = 0.25
	stays      = 1 / nearlySame
)

// recently is how long a person is taken to be where he last recorded something,
// counted back from the last entry of anybody (assumed).
const recently = 20 * time.Minute

func rank(a *site.AsFound, who Person) *ranked {
	stands := Stands(a.Installation)
	r := &ranked{at: who.At, ways: newWays(a.Installation)}
	if i := slices.IndexFunc(stands, func(s Stand) bool { return s.Who == who.Name }); i >= 0 && r.at == "" {
		r.at = stands[i].At
	}
	for _, s := range stands {
		if s.Since.After(r.last) {
			r.last = s.Since
		}
	}
	r.taken = r.takenBy(stands, who.Name)
	for _, p := range proposals(a) {
		r.candidates = append(r.candidates, r.from(r.at, p))
	}
	slices.SortFunc(r.candidates, better)
	return r
}

// takenBy lists where others than a person are at work right now, except where
// he stands himself.
func (r *ranked) takenBy(stands []Stand, who string) map[observation.Thing]bool {
	out := map[observation.Thing]bool{}
	for _, s := range stands {
		if s.Who != who && r.last.Sub(s.Since) <= recently {
			out[r.ways.end(s.At)] = true
		}
	}
	delete(out, r.ways.end(r.at))
	delete(out, "")
	return out
}

func (r *ranked) find(key string) *candidate {
	for _, c := range r.candidates {
		if c.Key == key {
			return c
		}
	}
	return nil
}

// shown is the step of a candidate for a card: why now, and that he is there.
func (r *ranked) shown(c *candidate) step.Step {
	s := reasoned(c)
	if here := r.ways.end(observation.Thing(s.Place)); here != "" && here == r.ways.end(r.at) {
		s.Reason = strings.TrimSuffix(s.Reason, ".") + ", and you are there."
	}
	return s
}

// reasoned is the step of a candidate with its reason worked out.
func reasoned(c *candidate) step.Step {
	s := c.Step
	if s.Reason == "" && c.Why != nil {
		s.Reason = c.Why()
	}
	return s
}

// proposals are all steps of all sorts.
func proposals(a *site.AsFound) []trace.Proposal {
	if first := unrecorded(a.Installation); first != nil {
		return first
	}
	wiring := a.Trace.Proposals(a.Installation)
	return slices.Concat(wiring, records(a.Installation), releases(a.Installation, wiring))
}
