package web

import (
	"asfound/installation"
	"asfound/observation"
)

type safetyPage struct {
	Places []safetyPlace
	Locks  int
}

// safetyPlace is what stands of the safety records of one panel or source.
type safetyPlace struct {
	Title, State string
	IsDead       bool
	Locks        []lockRow
	Voided       []testView
	Told         []entryView
	Doors        []navItem
}

type lockRow struct {
	Entry             entryView
	Device, On, Key   string
	Who, When, ToldOf string
}

// showSafety lists the locks that stand, and the tests that count no more, place
// by place.
func showSafety(v *visit) error {
	var data safetyPage
	for _, p := range v.found.Panels {
		place := v.safetyPlace(p.Thing, &p.Safety)
		place.State = v.deadWords(p)
		_, place.IsDead = v.found.DeadSince(p)
		for _, t := range v.tests(p) {
			if t.Void != "" {
				place.Voided = append(place.Voided, t)
			}
		}
		place.Doors = append([]navItem{{Href: "door/" + string(p.Thing), Name: doorLive}, {Href: "dead/" + string(p.Thing), Name: doorDead}}, place.Doors...)
		data.Places = append(data.Places, place)
	}
	for _, s := range v.found.Sources {
		data.Places = append(data.Places, v.safetyPlace(s.Thing, &s.Safety))
	}
	for _, p := range data.Places {
		data.Locks += len(p.Locks)
	}
	return v.render("safety", titleSafety, data)
}

func (v *visit) safetyPlace(t observation.Thing, s *installation.Safety) safetyPlace {
	out := safetyPlace{Title: placeTitle(v.found.Installation, t), Doors: []navItem{v.placeItem(t), {Href: "lockout/" + string(t), Name: doorLockOut}, {Href: "release/" + string(t), Name: doorRelease}, {Href: "energize/" + string(t), Name: doorEnergize}, {Href: "told/" + string(t), Name: doorTold}}}
	for _, e := range s.Standing() {
		b := e.Body.(observation.LockOut)
		on := "whole supply"
		if len(b.Spaces) > 0 {
			on = atSpaces(b.Spaces)
		}
		out.Locks = append(out.Locks, lockRow{Entry: v.entry(e), Device: b.Device, On: on, Key: b.Key, Who: e.Who, When: dayAndTime(e.When(), v.ask.Now), ToldOf: b.Told})
	}
	for i := len(s.Told) - 1; i >= 0; i-- {
		out.Told = append(out.Told, v.entry(s.Told[i]))
	}
	return out
}
