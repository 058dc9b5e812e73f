package paper

// Moved returns the group as drawn at another place, so many millimeters to the
// right and down. The group itself stays where it is.
func (g *Group) Moved(right, down float64) *Group {
	out := &Group{Name: g.Name, Href: g.Href, Touch: Area{g.Touch.X + right, g.Touch.Y + down, g.Touch.W, g.Touch.H}}
	move := func(p Point) Point { return Point{p.X + right, p.Y + down} }
	for _, m := range g.Marks {
		switch m := m.(type) {
		case Path:
			runs := make([][]Point, len(m.Runs))
			for i, run := range m.Runs {
				runs[i] = make([]Point, len(run))
				for j, p := range run {
					runs[i][j] = move(p)
				}
			}
			m.Runs = runs
			out.Add(m)
		case Circle:
			m.Center = move(m.Center)
			out.Add(m)
		case Text:
			m.At = move(m.At)
			out.Add(m)
		case *Group:
			out.Add(m.Moved(right, down))
		}
	}
	return out
}
