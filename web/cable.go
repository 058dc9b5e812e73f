package web

import (
	"strings"

	"asfound/observation"
)

// nextCable is the first tag of 1, 2, 3 that no cable bears.
func nextCable(cables []observation.CableEnd) string {
	return firstFree(func(n string) bool { return cableTagged(cables, n) != nil })
}

// cableTagged is the cable with this tag, or nil. Capitals or not is one tag.
func cableTagged(cables []observation.CableEnd, tag string) *observation.CableEnd {
	for _, c := range cables {
		if sameName(c.Tag, tag) {
			return &c
		}
	}
	return nil
}

// mendsCable prefills the form of a cable that is put right, and finds the cable
// on record whose tag was typed for a new one.
func (v *visit) mendsCable(f *form, cables []observation.CableEnd, page string) (mend string, same *navItem) {
	if old := cableTagged(cables, v.query("cable")); old != nil {
		fillCable(f, *old)
		return old.Tag, nil
	}
	if old := cableTagged(cables, f.Get("tag")); old != nil && f.Bad() {
		same = &navItem{Href: page + "?cable=" + queryEscape(old.Tag) + "#cable", Name: "cable " + old.Tag}
	}
	return "", same
}

// usualConductors are the sets of conductors that one touch names.
var usualConductors = newOptions("hot,neutral,egc", "Hot, neutral, ground", "hot,red,neutral,egc", "Hot, red, neutral, ground", "", "Not looked")

// fillCable prefills what puts a cable right.
func fillCable(f *form, c observation.CableEnd) {
	f.set("tag", c.Tag).set("mark", c.Mark)
	var names []string
	for _, w := range c.Conductors {
		names = append(names, string(w.Wire))
		if w.Wire == observation.Hot {
			f.set("hot_state", string(w.State))
		}
	}
	if set := strings.Join(names, ","); offers(usualConductors, set) {
		f.set("conductors", set)
	} else {
		f.set("conductors_typed", strings.Join(names, ", "))
	}
}

// keepCable keeps a cable where it enters an opening or a panel. One whose tag
// is on record is refused, unless the form puts that one right: what the form
// does not ask of it stays.
func (v *visit) keepCable(f *form, at observation.Thing, cables []observation.CableEnd, conductors []observation.Conductor) bool {
	c := observation.CableEnd{Tag: strings.TrimSpace(f.Get("tag")), Jacket: f.Get("jacket"), Mark: f.Get("mark"), Conductors: conductors}
	mend := v.query("cable")
	old := cableTagged(cables, c.Tag)
	if old != nil && !sameName(old.Tag, mend) {
		f.fault("tag", sayOnRecord("Cable "+old.Tag))
	}
	o := observation.Observation{Subject: at}
	if old = cableTagged(cables, mend); mend != "" && old != nil {
		c = mendedCable(*old, c)
		o.Seen = replaces(v.found.Story(at), func(b observation.CableEnd) bool { return sameName(b.Tag, mend) })
	}
	o.Body = c
	_, ok := v.record(f, o, map[string]string{"conductors": "conductors_typed"})
	return ok
}

// mendedCable is a cable put right. Its tag stays: readings name it by that.
// Color, size and length of its conductors stay, and their states but that of
// the hot, which the form asks for.
func mendedCable(old, c observation.CableEnd) observation.CableEnd {
	c.Tag = old.Tag
	if c.Jacket == "" {
		c.Jacket = old.Jacket
	}
	for i, w := range c.Conductors {
		for _, before := range old.Conductors {
			if before.Wire != w.Wire {
				continue
			}
			state := before.State
			if w.Wire == observation.Hot || w.State != observation.StateNotSeen {
				state = w.State
			}
			c.Conductors[i] = before
			c.Conductors[i].State = state
		}
	}
	return c
}
