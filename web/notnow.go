package web

import (
	"strings"

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
		if b := d.Body.(observation.Decision); b.Answer == notNow {
			out = append(out, offView{ID: d.ID.String(), Key: v.keyNow(b.About), Say: stepKeyWords(v.found.Installation, b.About),
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
	body := observation.Decision{About: v.lastingKey(f.Get("key")), Answer: notNow, Reason: reason}
	if _, ok := v.record(f, observation.Observation{Body: body}, map[string]string{"reason": "other"}); !ok {
		return nextWith(v, f)
	}
	return v.goTo("")
}

// takeUp withdraws it: the step may be proposed again.
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

// Some steps are called after a panel or a room. Their keys are kept with its
// lasting name, so that a step that is put off stays so under another name.

// lastingKey is the key of a step as it is kept.
func (v *visit) lastingKey(key string) string {
	what, name, _ := strings.Cut(key, " ")
	var named []observation.Thing
	switch what {
	case "spaces", "dead", "isolation", "resistors":
		for _, p := range v.found.Panels {
			if p.Name == name {
				named = append(named, p.Thing)
			}
		}
	case "look":
		for _, r := range v.found.Rooms {
			if r.Name == name {
				named = append(named, r.Thing)
			}
		}
	}
	if len(named) != 1 {
		return key
	}
	return what + " " + string(named[0])
}

// keyNow is the key of a step that was kept, as steps are called now.
func (v *visit) keyNow(kept string) string {
	what, thing, _ := strings.Cut(kept, " ")
	switch what {
	case "spaces", "dead", "isolation", "resistors", "look":
		if t := observation.Thing(thing); v.found.Panel(t) != nil || v.found.Room(t) != nil {
			return what + " " + v.found.Name(t)
		}
	}
	return kept
}
