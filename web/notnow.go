package web

import (
	"slices"
	"strings"

	"asfound/days"
	"asfound/observation"
	"asfound/step"
)

// offView is a step that somebody put off, with the reason.
type offView struct {
	ID, Key, Say, Reason, Who, When string
	place                           int // the place in the order of being put off
}

// putOffs lists the steps that are put off: decisions about the key of a step
// that were not withdrawn.
func (v *visit) putOffs() []offView {
	var out []offView
	for _, d := range v.found.Decisions {
		if b := d.Body.(observation.Decision); b.Answer == observation.NotNow {
			out = append(out, offView{ID: d.ID.String(), Key: b.About, Say: stepKeyWords(v.found.Installation, b.About),
				Reason: b.Reason, Who: d.Who, When: dayAndTime(d.When(), v.ask.Now), place: len(out)})
		}
	}
	return out
}

// offBy is the latest time that the step with this key was put off.
func offBy(offs []offView, key string) *offView {
	for i := len(offs) - 1; i >= 0; i-- {
		if offs[i].Key == key {
			return &offs[i]
		}
	}
	return nil
}

// CanWait reports whether a step may be put off.
func (s stepView) CanWait() bool { return s.Kind != step.Rest }

// putOff keeps that a step is not done now, and why; the next one comes up.
func putOff(v *visit) error {
	f := v.typed()
	reason := strings.TrimSpace(f.Get("reason"))
	if reason == "" {
		reason = strings.TrimSpace(f.Get("other"))
	}
	body := observation.Decision{About: f.Get("key"), Answer: observation.NotNow, Reason: reason}
	if _, ok := v.record(f, observation.Observation{Body: body}, map[string]string{"reason": "other"}); !ok {
		return nextWith(v, f)
	}
	return v.goTo("")
}

// doInstead keeps that another step than the one proposed is done, and goes on
// to where that one is entered.
func doInstead(v *visit) error {
	f := v.typed()
	proposed, chosen := f.Get("proposed"), f.Get("chosen")
	best := v.card().Best
	i := slices.IndexFunc(best, func(s step.Step) bool { return s.Key == chosen })
	if i < 0 {
		f.fault("chosen", sayNoStep)
		return nextWith(v, f)
	}
	body := observation.Decision{About: proposed, Answer: days.Instead(chosen), Reason: sayNotGiven}
	if _, ok := v.record(f, observation.Observation{Body: body}, map[string]string{"about": "chosen"}); !ok {
		return nextWith(v, f)
	}
	return v.goTo(v.stepHref(best[i]))
}

// takeUp withdraws a step put off or a choice: the step may be proposed again.
func takeUp(v *visit) error {
	f := v.typed()
	id, err := observation.ParseID(v.args["entry"])
	if err != nil {
		return notFound{sayNoEntry}
	}
	e, ok := v.job.Site.Event(id)
	if !ok {
		return notFound{sayNoEntry}
	}
	if e.Live() {
		o := observation.Observation{Seen: []observation.ID{id}, Subject: e.Subject, Body: observation.Withdrawal{Reason: sayTakenUp}}
		if _, ok := v.record(f, o, nil); !ok {
			return nextWith(v, f)
		}
	}
	return v.goTo("")
}
