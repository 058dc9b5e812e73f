package drawing

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"asfound/installation"
	"asfound/observation"
	"asfound/trace"
)

// Places tells where lines of one room end, in the words of a directory: "Great
// room: receptacles A02-06, A02-08, lighting A02-12". The building is named when
// it is not home.
func Places(in *installation.Installation, tr *trace.Trace, lines []*trace.Line, home *installation.Building) string {
	room := in.Room(roomOf(in, lines[0].End.At))
	if room == nil {
		return elsewhere(in, lines)
	}
	name := room.Name
	if b := in.Building(room.Building); b != nil && home != nil && b != home {
		name = b.Name + ", " + name
	}
	var parts []string
	for _, use := range observation.OpeningUses {
		if names := numbers(in, tr, lines, use); len(names) > 0 {
			part := noun(use, len(names)) + " " + strings.Join(Ranges(names), ", ")
			if use == observation.NoUse {
				part += " (use not known)"
			}
			parts = append(parts, part)
		}
	}
	return name + ": " + strings.Join(parts, ", ")
}

func elsewhere(in *installation.Installation, lines []*trace.Line) string {
	var out []string
	for _, l := range lines {
		out = append(out, in.PointName(l.End))
	}
	return strings.Join(out, ", ")
}

// numbers names the openings of one use, each once unless only some of its
// conductors are meant.
func numbers(in *installation.Installation, tr *trace.Trace, lines []*trace.Line, use observation.OpeningUse) []string {
	var out []string
	done := map[observation.Thing]bool{}
	for _, l := range lines {
		o := in.Opening(l.End.At)
		if o == nil || o.Use != use || done[o.Thing] {
			continue
		}
		if whole(tr, lines, o.Thing) {
			done[o.Thing] = true
			out = append(out, o.Number+purpose(o))
		} else {
			out = append(out, EndName(in, tr, l.End)+purpose(o))
		}
	}
	return out
}

// whole reports whether every line of an opening is among lines.
func whole(tr *trace.Trace, lines []*trace.Line, opening observation.Thing) bool {
	for _, l := range tr.Lines {
		if l.End.At == opening && !slices.Contains(lines, l) {
			return false
		}
	}
	return true
}

// alone reports whether one line only was read at a place.
func alone(tr *trace.Trace, place observation.Thing) bool {
	n := 0
	for _, l := range tr.Lines {
		if l.End.At == place {
			n++
		}
	}
	return n == 1
}

// purpose is what equipment is, where somebody noted it.
func purpose(o *installation.Opening) string {
	if o.Use == observation.Equipment && strings.TrimSpace(o.Note) != "" {
		return " (" + strings.TrimSpace(o.Note) + ")"
	}
	return ""
}

// EndName names a conductor end shortly: "A02-08", where it is one of several
// read there "A02-08 cable 2", "A02-08 red of cable 2".
func EndName(in *installation.Installation, tr *trace.Trace, p observation.Point) string {
	name := in.Name(p.At)
	switch {
	case p.Wire == observation.Hot && p.Space == 0 && alone(tr, p.At):
		return name
	case p.Wire == observation.Hot && p.Cable != "":
		return name + " cable " + p.Cable
	case p.Wire == observation.Hot && p.Space == 0:
		return name
	}
	return name + " " + p.String()
}

func noun(use observation.OpeningUse, n int) string {
	one := map[observation.OpeningUse][2]string{
		observation.Receptacle: {"receptacle", "receptacles"},
		observation.Switch:     {"switch", "switches"},
		observation.Lighting:   {"lighting", "lighting"},
		observation.Equipment:  {"equipment", "equipment"},
		observation.Junction:   {"junction box", "junction boxes"},
		observation.NoUse:      {"opening", "openings"},
	}[use]
	return one[min(n, 2)-1]
}

// Ranges writes three or more numbers in a row as "A02-06 to A02-08". Only what
// is written alike and counts up by one is a row, so that none between is meant
// that is not there.
func Ranges(names []string) []string {
	var out []string
	for i := 0; i < len(names); {
		end := i + 1
		for end < len(names) && names[end] == next(names[end-1]) {
			end++
		}
		if end-i >= 3 {
			out = append(out, fmt.Sprintf("%s to %s", names[i], names[end-1]))
		} else {
			out = append(out, names[i:end]...)
		}
		i = end
	}
	return out
}

// next is the number after this one, written as wide, or "" when the name does
// not end in figures.
func next(name string) string {
	head := strings.TrimRight(name, "0123456789")
	tail := name[len(head):]
	n, err := strconv.Atoi(tail)
	if err != nil || len(tail) > 9 {
		return ""
	}
	return head + fmt.Sprintf("%0*d", len(tail), n+1)
}
