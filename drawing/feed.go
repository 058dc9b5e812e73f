package drawing

import (
	"slices"

	"asfound/evidence"
	"asfound/installation"
	"asfound/observation"
	"asfound/trace"
)

// Feed is what a space feeds in one room, as far as it stands equally firmly.
type Feed struct {
	Standing evidence.Standing
	Text     string // "Great room: receptacles A02-06, A02-08"; for one not settled, bare of any mark
	Foreign  bool   // in another building than the panel
	Lines    []*trace.Line
}

// Say is the text with its standing in words. Only a settled statement stands
// without a mark.
func (f Feed) Say() string {
	switch f.Standing {
	case evidence.Settled:
		return f.Text
	case evidence.Likely:
		return "likely: " + f.Text
	case evidence.Undecided:
		return "undecided whether here: " + f.Text
	case evidence.Clash:
		return "readings clash: " + f.Text
	}
	return "untested: " + f.Text
}

// Feeds lists what a space feeds, firmest first, then room by room in walking
// order. A line that is undecided or clashes is listed at each space that may
// be its answer, so that none of them looks like the answer.
func Feeds(in *installation.Installation, tr *trace.Trace, panel observation.Thing, space int) []Feed {
	home := in.BuildingOf(panel)
	var out []Feed
	for _, standing := range Standings {
		var lines []*trace.Line
		for _, l := range tr.Lines {
			if l.Verdict.Standing == standing && touches(l, panel, space) {
				lines = append(lines, l)
			}
		}
		for _, room := range byRoom(in, lines) {
			there := in.BuildingOf(room[0].End.At)
			foreign := home != nil && there != nil && home != there
			out = append(out, Feed{Standing: standing, Text: Places(in, tr, room, home), Foreign: foreign, Lines: room})
		}
	}
	return out
}

// touches reports whether a line may name a space: as its one answer when it is
// settled or likely, else as any of the answers that stand.
func touches(l *trace.Line, panel observation.Thing, space int) bool {
	if onSpace(l.Source, panel, space) {
		return l.Verdict.Standing != evidence.Untested
	}
	if !Open(l) {
		return false
	}
	return slices.ContainsFunc(l.Others, func(s trace.Source) bool { return onSpace(s, panel, space) })
}

// Open reports whether a line has no one answer: undecided, clashing or
// untested. Its best answer is then not to be told.
func Open(l *trace.Line) bool {
	return l.Verdict.Standing != evidence.Settled && l.Verdict.Standing != evidence.Likely
}

func onSpace(s trace.Source, panel observation.Thing, space int) bool {
	if s.Kind != trace.FromSpace {
		return false
	}
	on := func(p observation.Point) bool { return p.At == panel && p.Space == space }
	return on(s.At) || slices.ContainsFunc(s.Also, on)
}

// byRoom splits lines by the room their end is in, rooms in walking order; ends
// at a panel come last, each by itself.
func byRoom(in *installation.Installation, lines []*trace.Line) [][]*trace.Line {
	groups := map[observation.Thing][]*trace.Line{}
	var order []observation.Thing
	for _, l := range lines {
		key := roomOf(in, l.End.At)
		if groups[key] == nil {
			order = append(order, key)
		}
		groups[key] = append(groups[key], l)
	}
	place := func(t observation.Thing) int {
		if i := slices.IndexFunc(in.Rooms, func(r *installation.Room) bool { return r.Thing == t }); i >= 0 {
			return i
		}
		return len(in.Rooms)
	}
	slices.SortStableFunc(order, func(a, b observation.Thing) int { return place(a) - place(b) })
	out := make([][]*trace.Line, len(order))
	for i, key := range order {
		out[i] = groups[key]
	}
	return out
}

func roomOf(in *installation.Installation, t observation.Thing) observation.Thing {
	if o := in.Opening(t); o != nil {
		return o.Room
	}
	return t
}
