package drawing

import (
	"fmt"
	"slices"
	"strings"

	"asfound/installation"
	"asfound/observation"
	"asfound/paper"
)

// OneLine draws the sources, feeders and panels on record as a tree of rows:
// each under what feeds it, the feeder drawn as firmly as it is known. A panel
// with no feeder on record stands under a hatched box. Each source and panel is
// linked to what link gives for it; link may be nil. The width is in
// millimeters.
func OneLine(in *installation.Installation, width float64, link func(observation.Thing) string) *paper.Page {
	p := paper.NewPage(paper.Size{Width: width}, "Sources, feeders and panels")
	y := 2.0
	for _, r := range OneLineRows(in) {
		at := paper.Area{X: 1, Y: y, W: width - 2, H: r.Height(width - 2)}
		r.Draw(&p.Group, at, link)
		y += at.H
	}
	y += 4
	key := paper.Area{X: 1, Y: y, W: width - 2}
	OneLineKey(&p.Group, key)
	p.Height = y + OneLineKeyHeight + 1
	return p
}

// OneLineRow is one row: a source, a panel, or what is not known.
type OneLineRow struct {
	Thing observation.Thing // empty is not known
	Name  string
	About string            // beneath the name
	Fed   string            // the feeder that comes to it, in words; empty at the root
	how   observation.Basis // how that feeder is known
	sort  rowSort           // how it is drawn
	depth int
	rails []bool // for each row above it on the way from the root: more hangs below
	feeds bool   // something hangs below this one
}

type rowSort int

const (
	sourceRow rowSort = iota
	panelRow
	againRow // a panel that is drawn above
	unknownRow
)

// OneLineRows lists the rows from top to bottom: each source with what it feeds,
// then what nothing on record feeds.
func OneLineRows(in *installation.Installation) []OneLineRow {
	t := &tree{in: in, drawn: map[observation.Thing]bool{}}
	for _, s := range in.Sources {
		t.rows = append(t.rows, OneLineRow{Thing: s.Thing, Name: s.Name, About: sourceAbout(s), sort: sourceRow})
		t.below(s.Thing, nil)
	}
	t.unknown()
	return t.rows
}

// tree is the rows as far as they are laid.
type tree struct {
	in    *installation.Installation
	drawn map[observation.Thing]bool
	rows  []OneLineRow
}

// below lays what a source or panel feeds.
func (t *tree) below(from observation.Thing, rails []bool) {
	var fed []*installation.Feeder
	for _, f := range t.in.Feeders {
		if f.From == from {
			fed = append(fed, f)
		}
	}
	t.hang(fed, rails)
}

// hang lays feeders under the latest row.
func (t *tree) hang(fed []*installation.Feeder, rails []bool) {
	t.rows[len(t.rows)-1].feeds = len(fed) > 0
	for i, f := range fed {
		t.panel(f.To, f, append(slices.Clone(rails), i < len(fed)-1))
	}
}

// panel lays a panel under the feeder that comes to it; without one, under what
// is not known.
func (t *tree) panel(thing observation.Thing, f *installation.Feeder, rails []bool) {
	r := OneLineRow{Thing: thing, Name: t.in.Name(thing), sort: panelRow, depth: len(rails), rails: rails, Fed: "no feeder on record"}
	if f != nil {
		r.how, r.Fed = f.How, fedWords(t.in, f)
	}
	if t.drawn[thing] {
		r.sort, r.About = againRow, "drawn above"
		t.rows = append(t.rows, r)
		return
	}
	t.drawn[thing] = true
	if p := t.in.Panel(thing); p != nil {
		r.About = panelAbout(t.in, p)
	}
	t.rows = append(t.rows, r)
	t.below(thing, rails)
}

// unknown lays the panels that no source on record feeds, each with the feeder
// that comes to it from a place not known, or with none; last those that only
// feed each other.
func (t *tree) unknown() {
	type loose struct {
		panel observation.Thing
		f     *installation.Feeder
	}
	var all []loose
	for _, p := range t.in.Panels {
		to := slices.DeleteFunc(slices.Clone(t.in.Feeders), func(f *installation.Feeder) bool { return f.To != p.Thing })
		if len(to) == 0 {
			all = append(all, loose{p.Thing, nil})
		}
		for _, f := range to {
			if f.From == "" {
				all = append(all, loose{p.Thing, f})
			}
		}
	}
	covered := map[observation.Thing]bool{}
	for _, x := range all {
		covered[x.panel] = true
		for _, f := range t.in.Downstream(x.panel) {
			covered[f.To] = true
		}
	}
	for _, p := range t.in.Panels {
		if !t.drawn[p.Thing] && !covered[p.Thing] { // a ring of feeders, begun where it comes first
			all = append(all, loose{p.Thing, nil})
			for _, f := range t.in.Downstream(p.Thing) {
				covered[f.To] = true
			}
		}
	}
	if len(all) == 0 {
		return
	}
	t.rows = append(t.rows, OneLineRow{Name: "Not known", About: "what feeds these is not on record: treat them as live", sort: unknownRow, feeds: true})
	for i, x := range all {
		t.panel(x.panel, x.f, []bool{i < len(all)-1})
	}
}

func fedWords(in *installation.Installation, f *installation.Feeder) string {
	from := ""
	if f.Space > 0 || f.From == "" {
		from = "from " + in.FromName(f.Feeder)
	}
	return joinWords(from, f.How.String(), f.Wires, f.Way)
}

func sourceAbout(s *installation.Source) string {
	starts := ""
	if s.Starts == observation.Yes {
		starts = "can start by itself"
	}
	opens := "what opens it is not on record"
	if s.Disconnect != "" {
		opens = "opened by " + s.Disconnect
	}
	sort := string(s.Of)
	if strings.EqualFold(sort, s.Name) {
		sort = ""
	}
	return joinWords(sort, opens, starts, lockWords(s.Standing()))
}

func panelAbout(in *installation.Installation, p *installation.Panel) string {
	building := ""
	if b := in.Building(p.Building); b != nil {
		building = b.Name
	}
	return joinWords(building, fmt.Sprintf("%d spaces", p.Spaces), lockWords(p.Standing()))
}

func lockWords(locks []observation.Event) string {
	switch len(locks) {
	case 0:
		return ""
	case 1:
		return "1 lock stands"
	}
	return fmt.Sprintf("%d locks stand", len(locks))
}

func joinWords(parts ...string) string {
	return strings.Join(slices.DeleteFunc(parts, func(s string) bool { return s == "" }), " · ")
}

// Millimeters.
const (
	rowIndent = 11.0
	railAt    = 3.2
	boxHeight = 7.4
	rowGap    = 3.0
	mostDepth = 4
)

var (
	nameStyle  = paper.Style{Size: 12, Face: paper.Bold}
	smallStyle = paper.Style{Size: 9.5, Ink: paper.Faint}
)

// feederPen draws a feeder as firmly as it is known; the words stand beside it.
func feederPen(how observation.Basis) paper.Pen {
	return paper.Pen{Ink: paper.Graphite, Width: paper.Firm.Width, Dash: map[observation.Basis][]float64{
		observation.BasisLabel: {2.2, 0.9}, observation.BasisAssumed: {0.9, 0.9}, observation.BasisUnknown: {0.35, 1.5}}[how]}
}

// left is how far a row is set in; beyond four feeders in a row no further.
func (r OneLineRow) left() float64 { return float64(min(r.depth, mostDepth)) * rowIndent }

// Height is what the row takes of a width.
func (r OneLineRow) Height(width float64) float64 {
	small := smallStyle.Leading()
	return rowGap + float64(len(r.lines(r.Fed, width))+len(r.lines(r.About, width)))*small + boxHeight
}

func (r OneLineRow) lines(text string, width float64) []string {
	if text == "" {
		return nil
	}
	return smallStyle.Wrap(text, width-r.left()-1)
}

// Draw draws the row; its rails join those of the rows around it.
func (r OneLineRow) Draw(g *paper.Group, a paper.Area, link func(observation.Thing) string) {
	href := ""
	if link != nil && r.Thing != "" {
		href = link(r.Thing)
	}
	x, y := a.X+r.left(), a.Y+rowGap+0.75*smallStyle.MM()
	fed, about := r.lines(r.Fed, a.W), r.lines(r.About, a.W)
	box := paper.Area{X: x, Y: a.Y + rowGap + float64(len(fed))*smallStyle.Leading(), W: r.boxWidth(a.W - r.left()), H: boxHeight}
	r.rail(g, a, box)
	g = g.Link(paper.Area{X: x, Y: a.Y + 1, W: max(box.W, 30), H: a.H - 1}, href, r.aloud())
	for _, line := range fed {
		g.Text(x, y, line, smallStyle)
		y += smallStyle.Leading()
	}
	r.box(g, box)
	y = box.Y + box.H + 1.1*smallStyle.MM()
	for _, line := range about {
		left := x
		if r.feeds {
			left += railAt + 1.6
		}
		g.Text(left, y, line, smallStyle)
		y += smallStyle.Leading()
	}
}

// rail draws the lines from above and to below.
func (r OneLineRow) rail(g *paper.Group, a, box paper.Area) {
	mid := box.Y + box.H/2
	for k, goes := range r.rails[:min(r.depth, mostDepth)] {
		x := a.X + float64(k)*rowIndent + railAt
		switch {
		case goes:
			g.Line(x, a.Y, x, a.Y+a.H, paper.Thin)
		case k == min(r.depth, mostDepth)-1:
			g.Line(x, a.Y, x, mid, paper.Thin)
		}
		if k == min(r.depth, mostDepth)-1 {
			g.Line(x, mid, box.X, mid, feederPen(r.how))
		}
	}
	if r.feeds {
		g.Line(box.X+railAt, box.Y+box.H, box.X+railAt, a.Y+a.H, paper.Thin)
	}
}

func (r OneLineRow) boxWidth(room float64) float64 {
	w := nameStyle.Width(r.Name) + 5
	if r.sort == sourceRow {
		w += boxHeight
	}
	return min(max(w, 14), room)
}

// box draws a source as a circle beside its name, a panel as a box, one drawn
// above as a broken box, and what is not known as a hatched one.
func (r OneLineRow) box(g *paper.Group, a paper.Area) {
	text := a.X + 2.5
	switch r.sort {
	case sourceRow:
		g.Circle(a.X+railAt, a.Y+a.H/2, railAt, paper.Firm, paper.Ground)
		text = a.X + 2*railAt + 2
	case panelRow:
		g.Rect(a, paper.Firm, paper.Ground)
	case againRow:
		g.Rect(a, paper.Pen{Ink: paper.Graphite, Width: paper.Thin.Width, Dash: []float64{1.2, 0.9}}, paper.NoInk)
	case unknownRow:
		g.Hatch(a)
		w := nameStyle.Width(r.Name) + 2
		g.Rect(paper.Area{X: text - 1, Y: a.Y + 1.2, W: w, H: a.H - 2.4}, paper.Pen{}, paper.Ground)
		g.Rect(a, paper.Thin, paper.NoInk)
	}
	g.Fitted(text, a.Y+a.H/2+0.36*nameStyle.MM(), a.X+a.W-text-0.5, r.Name, nameStyle)
}

// aloud is the row for whoever cannot see it.
func (r OneLineRow) aloud() string {
	what := map[rowSort]string{sourceRow: "Source ", panelRow: "Panel ", againRow: "Panel ", unknownRow: ""}[r.sort]
	out := what + r.Name
	if r.Fed != "" {
		out += ", fed: " + r.Fed
	}
	if r.About != "" {
		out += "; " + r.About
	}
	return out + "."
}

// OneLineKeyHeight is what the key takes, in millimeters.
const OneLineKeyHeight = 4 * 5.0

// OneLineKey explains the four ways a feeder is drawn.
func OneLineKey(g *paper.Group, a paper.Area) {
	y := a.Y + 2
	for _, how := range []observation.Basis{observation.BasisTested, observation.BasisLabel, observation.BasisAssumed, observation.BasisUnknown} {
		g.Line(a.X, y, a.X+14, y, feederPen(how))
		g.Text(a.X+17, y+1.2, "feeder: "+how.String(), paper.Style{Size: 9.5})
		y += 5
	}
}
