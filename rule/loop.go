package rule

import (
	"cmp"
	"slices"

	"asfound/quantity"
)

// loop is a floor line as one closed line.
type loop struct {
	walls  []Wall
	begins []quantity.Inches // of each wall
	length quantity.Inches
	breaks []*Stretch // sorted, none touching another
	points []*point
}

// point is a receptacle on the loop that counts, or may count.
type point struct {
	at    quantity.Inches
	name  string
	doubt string
}

func (f FloorLine) loop(out *Spaced) *loop {
	l := &loop{walls: f.Walls}
	for _, w := range f.Walls {
		l.begins = append(l.begins, l.length)
		for _, b := range w.Breaks {
			l.breaks = append(l.breaks, &Stretch{l.length + b.From, l.length + b.To})
		}
		l.length += w.Length
	}
	l.breaks = joined(l.breaks)
	for i, w := range f.Walls {
		for _, r := range w.Receptacles {
			may, note, doubt := r.counts()
			at := l.begins[i] + r.Along
			if may && l.broken(at) {
				may, note = false, r.Name+" lies within a break of the wall and was not counted"
			}
			if may {
				l.points = append(l.points, &point{at, r.Name, doubt})
			} else {
				out.Notes = append(out.Notes, note)
			}
		}
	}
	slices.SortFunc(l.points, func(a, b *point) int { return cmp.Or(cmp.Compare(a.at, b.at), cmp.Compare(a.name, b.name)) })
	slices.Sort(out.Notes)
	return l
}

// joined sorts stretches and joins those that touch.
func joined(all []*Stretch) []*Stretch {
	slices.SortFunc(all, func(a, b *Stretch) int { return cmp.Or(cmp.Compare(a.From, b.From), cmp.Compare(a.To, b.To)) })
	var out []*Stretch
	for _, s := range all {
		if n := len(out); n > 0 && s.From <= out[n-1].To {
			out[n-1].To = max(out[n-1].To, s.To)
		} else {
			out = append(out, s)
		}
	}
	return out
}

func (l *loop) broken(at quantity.Inches) bool {
	return slices.ContainsFunc(l.breaks, func(b *Stretch) bool { return b.From < at && at < b.To })
}

// spaces are the wall spaces between the breaks. The one that runs over the
// beginning of the loop ends beyond its length.
func (l *loop) spaces() []Stretch {
	var out []Stretch
	for i, b := range l.breaks {
		end := l.length + l.breaks[0].From
		if i+1 < len(l.breaks) {
			end = l.breaks[i+1].From
		}
		if end > b.To {
			out = append(out, Stretch{b.To, end})
		}
	}
	return out
}

// within are the points of a space, those of the next round moved beyond the
// length. One at the very end of a break belongs to the space beside it.
func (l *loop) within(s Stretch) []*point {
	var out []*point
	for _, p := range l.points {
		for _, at := range []quantity.Inches{p.at, p.at + l.length} {
			if at >= s.From && at <= s.To {
				out = append(out, &point{at, p.name, p.doubt})
				break
			}
		}
	}
	slices.SortStableFunc(out, func(a, b *point) int { return cmp.Compare(a.at, b.at) })
	return out
}

// gaps are those of a space by all that may count, then those that are one only
// if what may count does not.
func (l *loop) gaps(s Stretch, unplaced []Receptacle) []*Gap {
	all := l.within(s)
	var sure []*point
	for _, p := range all {
		if p.doubt == "" {
			sure = append(sure, p)
		}
	}
	var out []*Gap
	for _, g := range l.between(s, all) {
		for _, r := range unplaced {
			if may, _, _ := r.counts(); may {
				g.Because = append(g.Because, "where "+r.Name+" is along the walls was not measured")
			}
		}
		out = append(out, &g.Gap)
	}
	for _, g := range l.between(s, sure) {
		for _, p := range all {
			if p.doubt != "" && g.from <= p.at && p.at <= g.to {
				g.Because = append(g.Because, p.doubt)
			}
		}
		if len(g.Because) > 0 {
			out = append(out, &g.Gap)
		}
	}
	return out
}

// stretched is a gap with its ends on the loop.
type stretched struct {
	Gap
	from, to quantity.Inches
}

// between finds the gaps that some points leave in a space.
func (l *loop) between(s Stretch, points []*point) []stretched {
	var out []stretched
	from, name, covered := s.From, "", quantity.Inches(0)
	add := func(to quantity.Inches, toName string, reached quantity.Inches) {
		if beyond := to - from - covered - reached; beyond > 0 {
			out = append(out, stretched{Gap{From: l.end(from, name, false), To: l.end(to, toName, true), Length: to - from, Beyond: beyond}, from, to})
		}
	}
	for _, p := range points {
		add(p.at, p.name, reach)
		from, name, covered = p.at, p.name, reach
	}
	add(s.To, "", 0)
	return out
}

// end names a place on the loop; what is at a corner belongs to the wall that
// ends there when last is set, else to the one that begins there.
func (l *loop) end(at quantity.Inches, name string, last bool) End {
	if at > l.length || at == l.length && !last {
		at -= l.length
	}
	i := len(l.begins) - 1
	for i > 0 && (l.begins[i] > at || last && l.begins[i] == at) {
		i--
	}
	return End{Name: name, Wall: l.walls[i].Name, Along: at - l.begins[i]}
}
