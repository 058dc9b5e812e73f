package drawing

import (
	"fmt"
	"strconv"
	"strings"

	"asfound/installation"
	"asfound/observation"
	"asfound/paper"
	"asfound/trace"
)

// PanelFace draws the face of a panel as built, 200 mm wide, for a laptop or for
// paper: the two columns of spaces in their cabinet, and beside each what it
// feeds. Each space is linked to what link gives for its branch hot; link may be
// nil. It returns nil when there is no such panel.
//
// For a phone there is NarrowPanelFace.
func PanelFace(in *installation.Installation, tr *trace.Trace, panel observation.Thing, link func(observation.Point) string) *paper.Page {
	f := newFace(in, tr, panel, link)
	if f == nil {
		return nil
	}
	const width, margin = 200.0, 1.5
	box := interior{gutter: 5, body: 19, strip: 13, rows: (f.panel.Spaces + 1) / 2}
	box.x = (width - box.width()) / 2
	left, right := f.blocks(besideWidth, 1), f.blocks(besideWidth, 2)
	box.pitch = min(18, max(9, (height(left)+height(right))/2/float64(box.rows)))
	p := paper.NewPage(paper.Size{Width: width}, f.title())
	y := f.head(p, 2, width-4)
	box.y = y + nameRoom + trimEdge + 2
	box.trim(p.Named(""), f.panel.Name)
	bottom := box.y + box.height() + trimEdge + 6
	bottom = max(bottom, f.beside(&p.Group, box, left, margin), f.beside(&p.Group, box, right, width-margin-besideWidth))
	f.interior(&p.Group, box)
	p.Height = legend(&p.Group, 2, bottom+8, width-4) + 2
	return p
}

// face is a panel about to be drawn.
type face struct {
	in     *installation.Installation
	tr     *trace.Trace
	panel  *installation.Panel
	spaces []Space
	feeds  map[int][]Feed
	link   func(observation.Point) string
}

func newFace(in *installation.Installation, tr *trace.Trace, panel observation.Thing, link func(observation.Point) string) *face {
	p := in.Panel(panel)
	if p == nil {
		return nil
	}
	if link == nil {
		link = func(observation.Point) string { return "" }
	}
	f := &face{in: in, tr: tr, panel: p, spaces: Spaces(p), feeds: map[int][]Feed{}, link: link}
	for _, s := range f.spaces {
		f.feeds[s.Number] = Feeds(in, tr, panel, s.Number)
	}
	return f
}

func (f *face) title() string { return "Panel " + f.panel.Name + ", face as built" }

// head writes where the panel is and what its label says of its supply.
func (f *face) head(g *paper.Page, x, width float64) float64 {
	st := paper.Style{Size: 10, Ink: paper.Faint}
	var parts []string
	if b := f.in.Building(f.panel.Building); b != nil {
		parts = append(parts, b.Name)
	}
	if r := f.in.Room(f.panel.Room); r != nil {
		parts = append(parts, r.Name)
	}
	parts = append(parts, fmt.Sprintf("%d spaces", f.panel.Spaces))
	if from := strings.TrimSpace(f.panel.FedFrom); from != "" {
		parts = append(parts, "label says fed from "+from)
	}
	return g.Wrapped(x, 5, width, strings.Join(parts, " · "), st) - 1
}

// interior draws all spaces, and last the ties that lie over two breakers.
func (f *face) interior(g *paper.Group, box interior) {
	for _, s := range f.spaces {
		f.space(g, box, s)
	}
	for _, s := range f.spaces {
		if s.State == Breaker && s.Upper == 0 && (s.Poles == 2 || s.Tied == observation.Yes) && s.Number+2 <= f.panel.Spaces {
			box.tie(g, s.Number)
		}
	}
}

// space draws one space with its breaker, as one thing to touch.
func (f *face) space(g *paper.Group, box interior, s Space) {
	g = g.Link(box.area(s.Number), f.link(trace.SpacePoint(f.panel.Thing, s.Number)), f.aloud(s))
	box.draw(g, s)
	box.number(g, s.Number, f.feeds[s.Number])
}

// aloud is a space for whoever cannot see the drawing.
func (f *face) aloud(s Space) string {
	out := fmt.Sprintf("Space %d: %s; %s.", s.Number, s.Words(), s.LandsWords())
	if with, settled := JoinedWith(f.tr, f.panel.Thing, s.Number); with != "" {
		out += map[bool]string{true: " Joined", false: " Not settled: joined"}[settled] + " with " + with + "."
	}
	if len(f.feeds[s.Number]) == 0 {
		return out + " " + s.Empty() + "."
	}
	for _, feed := range f.feeds[s.Number] {
		out += " " + feed.Say() + " (" + Meaning(feed.Standing) + ")."
	}
	return out
}

// remarks are what the face shows besides what a space feeds.
func (f *face) remarks(s Space) []string {
	var out []string
	if s.Spare() && len(f.feeds[s.Number]) > 0 {
		out = append(out, "recorded as spare: look again")
	}
	if with, settled := JoinedWith(f.tr, f.panel.Thing, s.Number); with != "" {
		out = append(out, map[bool]string{true: "", false: "not settled: "}[settled]+"joined with "+with)
	}
	if s.Upper > 0 {
		out = append(out, "lower half of the 2-pole breaker at "+strconv.Itoa(s.Upper))
	}
	if about := strings.TrimPrefix(s.conductor(), ", "); about != "" {
		out = append(out, about)
	}
	if label := strings.TrimSpace(s.Label); label != "" {
		out = append(out, "label found: “"+label+"”")
	}
	return out
}
