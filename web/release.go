package web

import (
	"strconv"
	"strings"

	"asfound/installation"
	"asfound/observation"
)

type releasePage struct {
	Form *form
	At   supply
	Kept bool
	On   string // resistors that are still on where power could come
}

// showRelease takes in locks taken off: which, how many in the hand, who was told.
func showRelease(v *visit) error { return releaseWith(v, v.form()) }

func releaseWith(v *visit, f *form) error {
	at, err := v.supply()
	if err != nil {
		return err
	}
	data := releasePage{Form: f, At: at, Kept: v.query("kept") != "",
		On: v.stopWords(installation.Effect{Tours: v.found.Energizing(at.Thing, nil).Tours})}
	return v.renderForm("release", "Take locks off, "+at.Low, f, data)
}

// addRelease keeps it once the locks in the hand are as many as were ticked.
func addRelease(v *visit) error {
	f := v.typed()
	at, err := v.supply()
	if err != nil {
		return err
	}
	o := v.when(f)
	body := observation.Released{Told: strings.TrimSpace(f.Get("told")), Note: strings.TrimSpace(f.Get("note"))}
	for _, e := range at.safety.Standing() {
		if !f.Has("lock", e.ID.String()) {
			continue
		}
		body.Locks = append(body.Locks, e.ID)
		if e.Who != v.who && body.Note == "" {
			f.fault("note", sayOthersLock(e.Body.(observation.LockOut).Device, e.Who))
		}
	}
	switch n, err := strconv.Atoi(strings.TrimSpace(f.Get("count"))); {
	case len(body.Locks) == 0:
		f.fault("locks", sayWhichLocks)
	case err != nil:
		f.fault("count", sayCountLocks)
	case n != len(body.Locks):
		f.fault("count", sayCountedLocks(len(body.Locks), n))
	}
	o.Body = body
	if _, ok := v.record(f, o, map[string]string{"taken": "clock"}); !ok {
		return releaseWith(v, f)
	}
	return v.goTo("release/" + v.args["at"] + "?kept=yes")
}
