package report

import (
	"fmt"
	"slices"

	"asfound/installation"
	"asfound/observation"
	"asfound/site"
)

// renaming is a thing that was called otherwise when a sheet was made.
type renaming struct{ was, is string }

// Say is told to whoever holds the sheet.
func (r renaming) Say() string { return fmt.Sprintf("%s on this sheet is %s now", r.was, r.is) }

// renamings are the things that bear another name after than before, in the
// order of the property.
func renamings(before, after *site.AsFound) []renaming {
	var out []renaming
	add := func(t observation.Thing) {
		if was, is := before.Name(t), after.Name(t); was != is && after.Story(t) != nil && is != nameless {
			out = append(out, renaming{was, is})
		}
	}
	for _, b := range before.Buildings {
		add(b.Thing)
	}
	for _, r := range before.Rooms {
		add(r.Thing)
	}
	for _, p := range before.Panels {
		add(p.Thing)
	}
	for _, o := range before.Openings {
		add(o.Thing)
	}
	for _, s := range before.Sources {
		add(s.Thing)
	}
	return out
}

// nameless is what a thing is called that is no longer on record.
const nameless = "not recorded"

// namesNow are the names of now for the words of a sheet from before. A name that
// two things bore is left: which is meant cannot be told.
func namesNow(before *site.AsFound, renamed []renaming) installation.Names {
	bearers := map[string]int{}
	for _, o := range before.Openings {
		bearers[o.Number]++
	}
	for _, p := range before.Panels {
		bearers[p.Name]++
	}
	for _, r := range before.Rooms {
		bearers[r.Name]++
	}
	for _, b := range before.Buildings {
		bearers[b.Name]++
	}
	out := installation.Names{}
	for _, r := range renamed {
		if bearers[r.was] < 2 {
			out[r.was] = r.is
		}
	}
	return out
}

// names reports whether a name stands somewhere on a sheet.
func (l list) names(name, head string) bool {
	if installation.Stands(name, head) {
		return true
	}
	for _, r := range l.rows {
		if installation.Stands(name, r.key) || installation.Stands(name, r.said) ||
			slices.ContainsFunc(r.cells, func(c string) bool { return installation.Stands(name, c) }) {
			return true
		}
	}
	return false
}

// Follow finds the sheet that is about the same as one that was made before,
// under its name of now: sheets are called after what they are about.
func Follow(before, after *site.AsFound, name string) (now Kind, found bool) {
	was, found := Named(before, name)
	if !found {
		return Kind{}, false
	}
	return same(after, was)
}

// same finds the sheet of a sort about a thing, a person or a day.
func same(a *site.AsFound, k Kind) (Kind, bool) {
	if !k.day.IsZero() {
		return k, true
	}
	for _, other := range Sheets(a) {
		if other.Of == k.Of && other.Who == k.Who && other.Sort == k.Sort {
			return other, true
		}
	}
	return Kind{}, false
}
