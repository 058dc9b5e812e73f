package drawing

import (
	"asfound/installation"
	"asfound/observation"
	"asfound/paper"
	"asfound/trace"
)

// NarrowPanelFace draws the face of a panel as built, 72 mm wide, for a phone:
// the cabinet with its breakers, each number over the pencil line of the weakest
// of its statements, and beneath it, in the order of the two columns, what each
// space feeds. Links and the missing panel are as in PanelFace.
func NarrowPanelFace(in *installation.Installation, tr *trace.Trace, panel observation.Thing, link func(observation.Point) string) *paper.Page {
	f := newFace(in, tr, panel, link)
	if f == nil {
		return nil
	}
	const width = 72.0
	box := interior{gutter: 5, body: 20, strip: 15, pitch: 10, rows: (f.panel.Spaces + 1) / 2}
	box.x = (width - box.width()) / 2
	p := paper.NewPage(paper.Size{Width: width}, f.title())
	box.y = f.head(p, 1, width-2) + nameRoom + trimEdge + 2
	box.trim(p.Named(""), f.panel.Name)
	f.interior(&p.Group, box)
	y := f.listed(&p.Group, box.y+box.height()+trimEdge+8, width)
	p.Height = legend(&p.Group, 1, y+6, width-2) + 2
	return p
}

// listed writes what each space feeds, left column then right.
func (f *face) listed(g *paper.Group, y, width float64) float64 {
	const touch = 10.0 // millimeters; 50 px on a phone of 360 px
	for first := 1; first <= 2; first++ {
		for _, b := range f.blocks(width-3, first) {
			room := max(b.height+2, touch)
			point := trace.SpacePoint(f.panel.Thing, b.space.Number)
			sub := g.Link(paper.Area{X: 0, Y: y, W: width, H: room}, f.link(point), f.blockAloud(b))
			sub.Line(1, y, width-1, y, paper.Hair)
			b.write(sub, 1.5, y+1.5)
			y += room
		}
	}
	g.Line(1, y, width-1, y, paper.Hair)
	return y
}
