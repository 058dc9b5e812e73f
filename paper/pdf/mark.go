package pdf

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"image/jpeg"
	"strings"

	"codeberg.org/go-pdf/fpdf"

	"asfound/paper"
)

func (d *document) marks(ms []paper.Mark) {
	for _, m := range ms {
		switch m := m.(type) {
		case paper.Path:
			d.path(m)
		case paper.Circle:
			d.circle(m)
		case paper.Text:
			d.text(m)
		case paper.Picture:
			d.picture(m)
		case *paper.Group:
			d.marks(m.Marks)
		}
	}
}

func (d *document) path(p paper.Path) {
	how := d.prepare(p.Pen, p.Fill)
	if how == "" {
		return
	}
	drawn := false
	for _, run := range p.Runs {
		for i, pt := range run {
			if i == 0 {
				d.MoveTo(pt.X, pt.Y)
			} else {
				d.LineTo(pt.X, pt.Y)
			}
			drawn = true
		}
		if p.Closed && len(run) > 0 {
			d.ClosePath()
		}
	}
	if drawn {
		d.DrawPath(how)
	}
}

func (d *document) circle(c paper.Circle) {
	if how := d.prepare(c.Pen, c.Fill); how != "" {
		d.Circle(c.Center.X, c.Center.Y, c.Radius, strings.TrimSuffix(how, "*"))
	}
}

// picture draws a photograph in the middle of its area. One that stands on
// several pages is in the file once.
func (d *document) picture(p paper.Picture) {
	data := p.JPEG()
	config, err := jpeg.DecodeConfig(bytes.NewReader(data))
	if err != nil || config.Width == 0 || config.Height == 0 {
		d.marks(p.Instead().Marks)
		return
	}
	sum := sha256.Sum256(data)
	name, kind := hex.EncodeToString(sum[:]), fpdf.ImageOptions{ImageType: "JPG"}
	d.RegisterImageOptionsReader(name, kind, bytes.NewReader(data))
	scale := min(p.Area.W/float64(config.Width), p.Area.H/float64(config.Height))
	w, h := scale*float64(config.Width), scale*float64(config.Height)
	d.ImageOptions(name, p.Area.X+(p.Area.W-w)/2, p.Area.Y+(p.Area.H-h)/2, w, h, false, kind, 0, "")
}

// prepare sets pen and fill, and returns how to draw: stroke, even-odd fill,
// both, or not at all.
func (d *document) prepare(p paper.Pen, fill paper.Ink) string {
	how := ""
	if fill != paper.NoInk {
		d.SetFillColor(rgb(fill))
		how = "f*"
	}
	if p.Width <= 0 {
		return how
	}
	d.SetDrawColor(rgb(p.Ink))
	d.SetLineWidth(p.Width)
	d.SetLineJoinStyle("round")
	d.SetDashPattern(p.Dash, 0)
	d.SetLineCapStyle("round")
	if len(p.Dash) > 0 {
		d.SetLineCapStyle("butt")
	}
	if how == "" {
		return "D"
	}
	return "FD*"
}

func (d *document) text(t paper.Text) {
	st := t.Style
	d.face(st.Face, st.Points())
	d.SetTextColor(textRGB(st.Ink))
	s := shown(t.S, st.Face)
	x, y := t.At.X, t.At.Y
	switch st.Anchor {
	case paper.Middle:
		x -= d.GetStringWidth(s) / 2
	case paper.End:
		x -= d.GetStringWidth(s)
	}
	if st.Turn == 0 {
		d.Text(x, y, s)
		return
	}
	d.TransformBegin()
	d.TransformRotate(-st.Turn, t.At.X, t.At.Y)
	d.Text(x, y, s)
	d.TransformEnd()
}

// missing stands for a character the embedded font cannot show, so that its
// absence is seen.
const missing = '\uFFFD'

func shown(s string, f paper.Face) string {
	return strings.Map(func(r rune) rune {
		if f.Has(r) {
			return r
		}
		return missing
	}, paper.Clean(s))
}

// textRGB prints graphite letters black: a laser printer screens any gray, and
// small letters suffer. Lines stay graphite.
func textRGB(i paper.Ink) (r, g, b int) {
	if i == paper.NoInk || i == paper.Graphite {
		return 0, 0, 0
	}
	return rgb(i)
}

func rgb(i paper.Ink) (r, g, b int) {
	x, y, z := i.RGB()
	return int(x), int(y), int(z)
}
