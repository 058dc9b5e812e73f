package days

import (
	"strings"
	"time"

	"asfound/installation"
	"asfound/observation"
)

const instead = "instead: "

// Instead is the answer of a decision by which a person does the step with key
// chosen and not the one proposed, which the decision is about.
func Instead(chosen string) string { return instead + chosen }

// Chosen reads an answer that Instead made.
func Chosen(answer string) (key string, ok bool) { return strings.CutPrefix(answer, instead) }

// Choice is a person's choice of another step than the one proposed.
type Choice struct {
	ID               observation.ID
	Who              string
	When             time.Time
	Proposed, Chosen string // keys of steps
}

// holds is how long a choice holds while what was chosen is not done, counted to
// the last entry on record (assumed): a day's work.
const holds = 12 * time.Hour

// putOff tells by its key whether a step is put off.
func putOff(in *installation.Installation) map[string]bool {
	out := map[string]bool{}
	for _, e := range in.Decisions {
		if b := e.Body.(observation.Decision); b.Answer == observation.NotNow {
			out[b.About] = true
		}
	}
	return out
}

// standingChoice returns the latest choice of a person that still holds, or nil,
// and the keys of all steps that he passed over by choices that hold. A choice
// holds until what was chosen is done, put off, or a day old.
func standingChoice(in *installation.Installation, who string, r *ranked) (*Choice, map[string]bool) {
	off, passed := putOff(in), map[string]bool{}
	var latest *Choice
	for _, e := range in.Decisions {
		b := e.Body.(observation.Decision)
		chosen, ok := Chosen(b.Answer)
		if !ok || e.Who != who || off[chosen] || r.find(chosen) == nil || r.last.Sub(e.When()) > holds {
			continue
		}
		passed[b.About] = true
		latest = &Choice{ID: e.ID, Who: e.Who, When: e.When(), Proposed: b.About, Chosen: chosen}
	}
	if latest != nil {
		delete(passed, latest.Chosen)
	}
	return latest, passed
}
