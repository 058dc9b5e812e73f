package report

import (
	"fmt"
	"slices"
	"strings"

	"asfound/drawing"
	"asfound/evidence"
	"asfound/installation"
	"asfound/observation"
	"asfound/site"
	"asfound/trace"
)

// note is something at the foot of a directory. Those about a line without one
// answer are pointed to from the spaces.
type note struct {
	key  string
	text string
	line *trace.Line // nil for a note about anything else
}

func (n note) standing() string {
	if n.line == nil {
		return ""
	}
	return n.line.Verdict.Standing.String()
}

// may reports whether one of the answers that stand for the line is this space.
func (n note) may(panel observation.Thing, space int) bool {
	return slices.ContainsFunc(append([]trace.Source{n.line.Source}, n.line.Others...), func(s trace.Source) bool {
		return s.Kind == trace.FromSpace && slices.ContainsFunc(append([]observation.Point{s.At}, s.Also...),
			func(p observation.Point) bool { return p.At == panel && p.Space == space })
	})
}

// notesOf lists the notes of a panel's directory: first each line without one
// answer, then what no space reaches, and openings with nothing read.
func notesOf(a *site.AsFound, k Kind) []note {
	var out []note
	for _, l := range linesOf(a, k) {
		if drawing.Open(l) {
			out = append(out, note{key: drawing.EndName(a.Installation, a.Trace, l.End), text: orClosed(l, openWords(a, l)), line: l})
		}
	}
	for _, l := range linesOf(a, k) {
		if !drawing.Open(l) && l.Source.Kind != trace.FromSpace {
			name := drawing.EndName(a.Installation, a.Trace, l.End)
			out = append(out, note{key: name, text: orClosed(l, marked(l, name+" "+answer(a, l.Source))), line: l})
		}
	}
	return append(out, unread(a, k)...)
}

// orClosed adds to what is said of a line that it reads closed.
func orClosed(l *trace.Line, text string) string {
	if !l.Closed {
		return text
	}
	return text + ". Reads closed: " + closedWords
}

// linesOf are the lines a panel's directory has to answer for: those on the
// panel or perhaps on it, and those of its building that are on no space known.
func linesOf(a *site.AsFound, k Kind) []*trace.Line {
	home := a.BuildingOf(k.Of)
	var out []*trace.Line
	for _, l := range a.Trace.Lines {
		here := a.BuildingOf(l.End.At) == home
		if names(l, k.Of) || here && (drawing.Open(l) || l.Source.Kind != trace.FromSpace && l.Source.Kind != trace.FromEnd) {
			out = append(out, l)
		}
	}
	return out
}

// names reports whether an answer that stands is a space of the panel.
func names(l *trace.Line, panel observation.Thing) bool {
	sources := []trace.Source{l.Source}
	if drawing.Open(l) {
		sources = append(sources, l.Others...)
	}
	return slices.ContainsFunc(sources, func(s trace.Source) bool {
		return s.Kind == trace.FromSpace && slices.ContainsFunc(append([]observation.Point{s.At}, s.Also...),
			func(p observation.Point) bool { return p.At == panel })
	})
}

// marked puts the mark before a statement that is not settled.
func marked(l *trace.Line, text string) string {
	if l.Verdict.Standing == evidence.Settled {
		return text
	}
	return "Not settled, " + l.Verdict.Standing.String() + ": " + text
}

// openWords say of a line without one answer what stands, all of it or nothing.
func openWords(a *site.AsFound, l *trace.Line) string {
	name := drawing.EndName(a.Installation, a.Trace, l.End)
	switch l.Verdict.Standing {
	case evidence.Undecided:
		if len(l.Others) == 0 {
			return "Not settled, undecided: " + name + ", several answers stand"
		}
		var answers []string
		for _, s := range append([]trace.Source{l.Source}, l.Others...) {
			if say := answer(a, s); !slices.Contains(answers, say) { // two may be told by the same words
				answers = append(answers, say)
			}
		}
		return "Not settled, undecided: " + name + " " + strings.Join(answers, "; or ")
	case evidence.Clash:
		return "Not settled, clash: the readings at " + name + " cannot all be right" + decides(a, l)
	}
	return "Not settled, untested: nothing was read that says what " + name + " is on"
}

// answer is trace.SaySource for paper that hangs at a panel, where nothing that
// was only read with an ohmmeter is called dead.
func answer(a *site.AsFound, s trace.Source) string {
	if s.Kind == trace.Nothing {
		return "is reached from no space that was read: not spliced yet, broken on the way, or fed from elsewhere"
	}
	return trace.SaySource(a.Installation, s)
}

// decides names the reading that decides a clash best.
func decides(a *site.AsFound, l *trace.Line) string {
	for _, c := range a.Trace.Clashes {
		if !slices.Contains(c.Lines, l) || c.Settle.At == (observation.Point{}) {
			continue
		}
		if c.Settle.Back {
			return "; a read-back at " + a.PointName(c.Settle.At) + " decides best"
		}
		return "; a reading at " + drawing.EndName(a.Installation, a.Trace, c.Settle.At) + " decides best"
	}
	return ""
}

// unread are the openings of the panel's building at which nothing was read.
func unread(a *site.AsFound, k Kind) []note {
	home := a.BuildingOf(k.Of)
	read := map[observation.Thing]bool{}
	for _, l := range a.Trace.Lines {
		read[l.End.At] = true
	}
	var out []note
	for _, room := range a.Rooms {
		if home == nil || room.Building != home.Thing {
			continue
		}
		var numbers []string
		for _, o := range a.In(room.Thing) {
			if !read[o.Thing] {
				numbers = append(numbers, o.Number+why(o))
			}
		}
		if len(numbers) > 0 {
			text := fmt.Sprintf("Untested: nothing was read in %s at %s", room.Name, strings.Join(drawing.Ranges(numbers), ", "))
			out = append(out, note{key: room.Name, text: text})
		}
	}
	return out
}

func why(o *installation.Opening) string {
	if o.NotReached != nil {
		return " (not reached)"
	}
	return ""
}
