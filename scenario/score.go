package scenario

import (
	"slices"

	"asfound/evidence"
	"asfound/observation"
	"asfound/trace"
)

// Score compares what was concluded with what is so.
type Score struct {
	Openings     int // of the property
	Ends         int // conductor ends in them
	Lines        int
	Standing     map[evidence.Standing]int
	WrongSettled []Wrong // what judges the product
	WrongLikely  []Wrong
	Unresolved   int // openings without a settled or likely line
	Joins        Share
	Foreign      Share
	Dead         Share
}

// Wrong is a line that says what is not so.
type Wrong struct {
	Line *trace.Line
	Box  int // the opening of the truth
}

// Share is how many of a sort there are and how many were found.
type Share struct{ Found, Of int }

// WrongLabels is the share of openings with a wrong line, likely or settled.
func (s Score) WrongLabels() float64 {
	return float64(len(s.WrongSettled)+len(s.WrongLikely)) / float64(max(1, s.Openings))
}

// Score judges the lines of a played job.
func (p *Played) Score() Score {
	s := Score{Openings: len(p.View.Boxes), Standing: p.AsFound.Trace.Standing(), Lines: len(p.AsFound.Trace.Lines)}
	named, dead := map[int]bool{}, map[int]bool{}
	for _, l := range p.AsFound.Trace.Lines {
		box, known := p.Box[l.End.At]
		settled := l.Verdict.Standing == evidence.Settled
		if !known || !firm(l) {
			continue
		}
		named[box] = true
		right := p.right(l, box)
		switch {
		case !right && settled:
			s.WrongSettled = append(s.WrongSettled, Wrong{l, box})
		case !right:
			s.WrongLikely = append(s.WrongLikely, Wrong{l, box})
		}
		dead[box] = dead[box] || right && l.Source.Kind == trace.Nothing
	}
	for i, b := range p.View.Boxes {
		s.Ends += len(b.Ends)
		if !named[i] {
			s.Unresolved++
		}
	}
	if t, made := p.World.(*Truth); made {
		p.scoreFaults(&s, t, dead)
	}
	return s
}

// scoreFaults counts what was found of the faults of a made-up property.
func (p *Played) scoreFaults(s *Score, t *Truth, dead map[int]bool) {
	foreign := map[int]bool{}
	for _, odd := range p.AsFound.Trace.Oddities {
		if odd.Kind == trace.ForeignFeed {
			foreign[p.Box[odd.Place]] = true
		}
	}
	for i, o := range t.Openings {
		if o.Circuit == Dead {
			s.Dead.count(dead[i])
		}
		if o.Foreign {
			s.Foreign.count(foreign[i])
		}
	}
	for _, j := range t.Joins {
		s.Joins.count(p.foundJoined(t.Circuits[j[0]], t.Circuits[j[1]]))
	}
}

func (s *Share) count(found bool) {
	s.Of++
	if found {
		s.Found++
	}
}

// firm reports whether a line's answer is settled or likely.
func firm(l *trace.Line) bool {
	return l.Verdict.Standing == evidence.Settled || l.Verdict.Standing == evidence.Likely
}

// right reports whether a line says what is so: the hot is on that terminal, and
// on those said to be joined with it, once the switches are in; nothing reaches
// it, as people had it; or what reaches it bore no resistor.
func (p *Played) right(l *trace.Line, box int) bool {
	end := End{box, l.End.Cable}
	if l.End.Wire != observation.Hot {
		return l.Source.Kind == trace.Nothing
	}
	switch l.Source.Kind {
	case trace.FromSpace, trace.FromEnd:
		return !slices.ContainsFunc(append([]observation.Point{l.Source.At}, l.Source.Also...), func(at observation.Point) bool {
			panel, known := p.Panel[at.At]
			return !known || !p.World.Feeds(Terminal{Panel: panel, Space: at.Space, Cable: at.Cable}, end)
		})
	case trace.Nothing:
		return len(p.World.Reaching(p.Rig, end)) == 0
	case trace.Outside:
		return !slices.ContainsFunc(p.World.Reaching(p.Rig, end), func(at Terminal) bool { return len(p.Rig.on[at]) > 0 })
	}
	return false
}

// foundJoined reports whether the isolation tests showed two circuits joined.
func (p *Played) foundJoined(a, b Circuit) bool {
	for thing, panel := range p.Panel {
		if panel != a.Panel {
			continue
		}
		for _, g := range p.AsFound.Trace.JoinedGroups(thing) {
			if slices.Contains(g, a.Space) && slices.Contains(g, b.Space) {
				return true
			}
		}
	}
	return false
}
