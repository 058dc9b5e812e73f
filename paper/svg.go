package paper

import (
	"bytes"
	"encoding/base64"
	"fmt"
	"html"
	"net/url"
	"strconv"
	"strings"
)

// SVGOptions says where the drawing will stand.
type SVGOptions struct {
	// Standalone makes a file of its own: sized in millimeters, graphite on
	// white. Otherwise the drawing takes width and colors from the page around
	// it; see CSS.
	Standalone bool
}

// Font families, the wanted one first. Text is fitted to its measured width, so
// another font changes the letters but never the layout.
const (
	svgFamily     = `Go, 'Lucida Grande', 'DejaVu Sans', Verdana, sans-serif`
	svgMonoFamily = `'Go Mono', ui-monospace, 'DejaVu Sans Mono', monospace`
)

// SVG writes one page. The same page gives the same bytes. It holds no style,
// no script and no id, so several may stand in one page under a strict content
// policy; nothing in a text or name can leave the text it stands in.
func SVG(p *Page, o SVGOptions) []byte {
	w := &svgWriter{}
	w.open(p, o)
	w.marks(p.Marks)
	w.put("</svg>\n")
	return w.Bytes()
}

type svgWriter struct{ bytes.Buffer }

func (w *svgWriter) put(format string, a ...any) { fmt.Fprintf(w, format, a...) }

func (w *svgWriter) open(p *Page, o SVGOptions) {
	role := "img"
	if p.linked() {
		role = "group" // the content of an "img" is hidden from whoever listens
	}
	if o.Standalone {
		w.put(`<?xml version="1.0" encoding="UTF-8"?>` + "\n")
	}
	w.put(`<svg xmlns="http://www.w3.org/2000/svg" class="paper" viewBox="0 0 %s %s"`, num(p.Width), num(p.Height))
	if o.Standalone {
		w.put(` width="%smm" height="%smm" color="#2b2b2b"`, num(p.Width), num(p.Height))
	}
	w.put(` role="%s"`, role)
	w.attr("aria-label", p.Title)
	w.put(` font-family="%s" xml:space="preserve">`, svgFamily)
	w.put("<title>%s</title>\n", escape(p.Title))
	if o.Standalone {
		w.put(`<rect width="%s" height="%s" fill="#fff"/>`+"\n", num(p.Width), num(p.Height))
	}
}

func (w *svgWriter) marks(ms []Mark) {
	for _, m := range ms {
		switch m := m.(type) {
		case Path:
			w.path(m)
		case Circle:
			w.circle(m)
		case Text:
			w.text(m)
		case Picture:
			w.picture(m)
		case *Group:
			w.group(m)
		}
	}
}

func (w *svgWriter) group(g *Group) {
	href, linked := safeHref(g.Href)
	switch {
	case linked:
		w.put("<a")
		w.attr("href", href)
		w.attr("aria-label", g.label())
		w.put(">\n")
		w.touch(g.Touch)
		w.marks(g.Marks)
		w.put("</a>\n")
		return
	case g.Name == "":
		w.put("<g>\n")
	case g.linked():
		w.put(`<g role="group"`)
		w.attr("aria-label", g.Name)
		w.put(">\n")
	default:
		w.put(`<g role="img"`)
		w.attr("aria-label", g.Name)
		w.put(">\n")
	}
	w.marks(g.Marks)
	w.put("</g>\n")
}

func (w *svgWriter) touch(a Area) {
	w.put(`<rect class="touch" x="%s" y="%s" width="%s" height="%s" fill="none" pointer-events="all"/>`+"\n",
		num(a.X), num(a.Y), num(a.W), num(a.H))
}

func (w *svgWriter) path(p Path) {
	var d strings.Builder
	for _, run := range p.Runs {
		for i, pt := range run {
			d.WriteString([]string{"M", "L"}[min(i, 1)] + num(pt.X) + " " + num(pt.Y))
		}
		if p.Closed {
			d.WriteString("Z")
		}
	}
	w.inked(p.Pen, p.Fill, `<path d="`+d.String()+`" fill-rule="evenodd"`)
}

func (w *svgWriter) circle(c Circle) {
	w.inked(c.Pen, c.Fill, fmt.Sprintf(`<circle cx="%s" cy="%s" r="%s"`, num(c.Center.X), num(c.Center.Y), num(c.Radius)))
}

// inked writes a shape. One element has one color, so a shape filled with one
// ink and stroked with another is written twice.
func (w *svgWriter) inked(p Pen, fill Ink, shape string) {
	one := p.Width > 0 && fill == p.Ink.orGraphite()
	if fill != NoInk {
		w.put(`%s%s fill="currentColor"`, shape, inkAttr(fill))
		if one {
			w.stroke(p)
		}
		w.put("/>\n")
	}
	if p.Width > 0 && !one {
		w.put(`%s%s fill="none"`, shape, inkAttr(p.Ink))
		w.stroke(p)
		w.put("/>\n")
	}
}

func (w *svgWriter) stroke(p Pen) {
	w.put(` stroke="currentColor" stroke-width="%s" stroke-linejoin="round"`, num(p.Width))
	if len(p.Dash) == 0 {
		w.put(` stroke-linecap="round"`)
		return
	}
	dash := make([]string, len(p.Dash))
	for i, d := range p.Dash {
		dash[i] = num(d)
	}
	w.put(` stroke-dasharray="%s"`, strings.Join(dash, " "))
}

func (w *svgWriter) text(t Text) {
	st := t.Style
	w.put(`<text x="%s" y="%s" font-size="%s"%s fill="currentColor"`, num(t.At.X), num(t.At.Y), num(st.MM()), inkAttr(st.Ink))
	w.put("%s%s", [...]string{"", ` text-anchor="middle"`, ` text-anchor="end"`}[st.Anchor],
		[...]string{"", ` font-weight="700"`, ` font-style="italic"`, ` font-family="` + svgMonoFamily + `"`}[st.Face])
	if st.Turn != 0 {
		w.put(` transform="rotate(%s %s %s)"`, num(st.Turn), num(t.At.X), num(t.At.Y))
	}
	if t.Width > 0 {
		w.put(` textLength="%s" lengthAdjust="spacingAndGlyphs"`, num(t.Width))
	}
	w.put(">%s</text>\n", escape(t.S))
}

// picture stands in the file itself, so that a page can be saved and sent whole.
func (w *svgWriter) picture(p Picture) {
	data := p.JPEG()
	if len(data) == 0 {
		w.marks(p.Instead().Marks)
		return
	}
	w.put(`<image x="%s" y="%s" width="%s" height="%s"`, num(p.Area.X), num(p.Area.Y), num(p.Area.W), num(p.Area.H))
	w.attr("aria-label", p.Name)
	w.put(` href="data:image/jpeg;base64,%s"/>`+"\n", base64.StdEncoding.EncodeToString(data))
}

func (w *svgWriter) attr(name, value string) {
	if value != "" {
		w.put(` %s="%s"`, name, escape(value))
	}
}

// inkAttr gives the class a style sheet colors, and the color for where there is
// no style sheet. Graphite has none: it is the color of the text around it.
func inkAttr(i Ink) string {
	i = i.orGraphite()
	if i == Graphite {
		return ` class="ink"`
	}
	r, g, b := i.RGB()
	return fmt.Sprintf(` class="%s" color="#%02x%02x%02x"`, i.Class(), r, g, b)
}

// num writes thousandths of a millimeter, without needless zeros.
func num(v float64) string {
	s := strings.TrimRight(strings.TrimRight(strconv.FormatFloat(v, 'f', 3, 64), "0"), ".")
	if s == "-0" || s == "" {
		return "0"
	}
	return s
}

func escape(s string) string {
	return html.EscapeString(Clean(s))
}

// safeHref lets through a place within the site and http(s) addresses only.
func safeHref(href string) (string, bool) {
	u, err := url.Parse(href)
	if err != nil || href == "" || strings.Contains(href, `\`) {
		return "", false
	}
	within := u.Scheme == "" && u.Host == ""
	web := (u.Scheme == "http" || u.Scheme == "https") && u.Host != ""
	return href, within || web
}

// label is what a link is called: the words seen in it, so that who speaks them
// reaches it, then its name.
func (g *Group) label() string {
	return strings.Join(append(g.words(), g.Name), " ")
}

func (g *Group) words() []string {
	var out []string
	for _, m := range g.Marks {
		switch m := m.(type) {
		case Text:
			out = append(out, m.S)
		case *Group:
			out = append(out, m.words()...)
		}
	}
	return out
}

func (g *Group) linked() bool {
	for _, m := range g.Marks {
		sub, ok := m.(*Group)
		if !ok {
			continue
		}
		if _, linked := safeHref(sub.Href); linked || sub.linked() {
			return true
		}
	}
	return false
}
