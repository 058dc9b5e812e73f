package paper

import (
	"fmt"
	"slices"
	"strings"
)

// runningHeadRoom is the height of the head on pages after the first.
const runningHeadRoom = 10.0

// head draws the first page's head: place, title in large letters, date and
// people, then the caution.
func (s *Sheet) head(p *Page) {
	f, width := s.frame, s.frame.Size.Width-2*margin
	y := margin + 3.0
	if f.Place != "" {
		y = p.Wrapped(margin, y, width, f.Place, Style{Size: 11, Ink: Faint}) + 2.6
	}
	title := Style{Size: 22, Face: Bold}
	y = p.Wrapped(margin, y+2, width, f.Title, title) - title.Leading() + 6.5
	if line := dateAndPeople(f); line != "" {
		small := Style{Size: 10.5}
		y = p.Wrapped(margin, y, width, line, small) - small.Leading() + 5.5
	}
	y -= 3
	p.Line(margin, y, margin+width, y, Firm)
	s.y = y + 4
	if len(f.Caution) > 0 {
		s.Caution(f.Caution...)
	}
}

func dateAndPeople(f Frame) string {
	parts := make([]string, 0, 2)
	if f.Date != "" {
		parts = append(parts, f.Date)
	}
	if len(f.People) > 0 {
		parts = append(parts, strings.Join(f.People, " · "))
	}
	return strings.Join(parts, " · ")
}

func (s *Sheet) runningHead(p *Page) {
	f, width := s.frame, s.frame.Size.Width-2*margin
	y := margin + 3.0
	title := Style{Size: 10, Face: Bold}
	used := p.Fitted(margin, y, width*0.6, f.Title, title)
	p.Fitted(margin+width, y, width-used-6, f.Place, Style{Size: 10, Ink: Faint, Anchor: End})
	p.Line(margin, y+2.4, margin+width, y+2.4, Thin)
	s.y = margin + runningHeadRoom
}

// Caution draws a box with a heavy border. It is broken over pages only when
// taller than one, and then each part has the whole border and the head.
func (s *Sheet) Caution(sentences ...string) {
	body := Style{Size: 11.5}
	var lines []string
	for _, text := range sentences {
		lines = append(lines, body.Wrap(text, s.Free().W-2*cautionPad)...)
	}
	most := max(1, int((s.fresh().H-cautionHeight(0))/body.Leading()))
	for part := range slices.Chunk(lines, most) {
		s.cautionBox(part, body)
	}
}

const cautionPad = 4.0 // millimeters

var cautionHead = Style{Size: 13, Face: Bold}

func cautionHeight(lines float64) float64 {
	return 2*cautionPad + cautionHead.Leading() + lines - 1
}

func (s *Sheet) cautionBox(lines []string, body Style) {
	p, a := s.Room(cautionHeight(float64(len(lines)) * body.Leading()))
	p.Rect(a.Inset(Heavy.Width/2), Heavy, NoInk)
	y := a.Y + cautionPad + 0.85*cautionHead.MM()
	p.Text(a.X+cautionPad, y, s.frame.Words.Caution, cautionHead)
	y += cautionHead.Leading()
	for _, line := range lines {
		p.Text(a.X+cautionPad, y, line, body)
		y += body.Leading()
	}
	s.Space(5)
}

// foot draws the page's foot, and writes the page numbers of all pages anew,
// since there is now one more.
func (s *Sheet) foot(p *Page) {
	s.feet = append(s.feet, p.Named(""))
	for i, g := range s.feet {
		g.Marks = nil
		s.drawFoot(g, i+1)
	}
}

func (s *Sheet) drawFoot(g *Group, page int) {
	f := s.frame
	top, right := f.Size.Height-footRoom, f.Size.Width-margin
	g.Line(margin, top, right, top, Hair)
	width := right - margin
	if s.code != nil {
		width -= codeSize + 6
		g.Add(s.code)
	}
	number := Style{Size: 12, Face: Bold, Anchor: End}
	used := g.Text(margin+width, top+5.5, fmt.Sprintf(f.Words.Page, page, len(s.Pages)), number)
	g.Fitted(margin, top+5.5, width-used-5, f.Title, Style{Size: 9, Face: Bold})
	y := top + 10
	small := Style{Size: 8.5}
	for _, line := range footLines(small, f, width) {
		g.Text(margin, y, line, small)
		y += small.Leading()
	}
	if s.Key != "" {
		g.Text(right, f.Size.Height-footRoom+codeSize+3.2, s.Key, Style{Size: 10, Face: Mono, Anchor: End})
	}
}

// footLines gives date and state no more than three lines; the last is cut.
func footLines(st Style, f Frame, width float64) []string {
	const most = 3
	var lines []string
	if f.Date != "" {
		lines = st.Wrap(f.Date, width)
	}
	if f.State != "" {
		lines = append(lines, st.Wrap(f.State, width)...)
	}
	if len(lines) > most {
		last := strings.Join(lines[most-1:], " ")
		lines = append(lines[:most-1], st.Fit(last, width))
	}
	return lines
}
