package paper

// Sheet is a titled run of pages. One from NewSheet has a head and foot on every
// page and is filled from top to bottom by its methods; one with pages drawn
// by the caller needs only Title, Key and Pages.
type Sheet struct {
	Title string
	Key   string // the short code typed to find the sheet again
	Pages []*Page

	frame Frame
	code  *Group // the QR code, drawn once
	feet  []*Group
	y     float64 // top of what is free on the last page
}

// Frame is what stands around the content of every page of a sheet. Every text
// is the caller's.
type Frame struct {
	Size    Size // the zero value is Letter
	Title   string
	Place   string
	Date    string
	People  []string
	Caution []string // in plain words, in a box with a heavy border
	State   string   // the state of the records the sheet was made from
	Find    string   // content of the QR code; none if empty
	Key     string   // short code printed beneath it
	Words   Words
}

// Words are the few words the package itself prints; another language gives
// others. Empty ones are English.
type Words struct {
	Page    string // with the page and the number of pages: "Page %d of %d"
	Caution string // head of the caution box
}

const (
	margin   = 15.0 // millimeters
	footRoom = 27.0 // from the lower edge of the page, margin included
	codeSize = 18.0 // at 41 modules with margin, 0.44 mm each
)

// NewSheet returns a sheet with its first page begun. It fails if Find is too
// long for a QR code.
func NewSheet(f Frame) (*Sheet, error) {
	if f.Size == (Size{}) {
		f.Size = Letter
	}
	f.Words = f.Words.orEnglish()
	s := &Sheet{Title: f.Title, Key: f.Key, frame: f}
	if f.Find != "" {
		s.code = &Group{Name: f.Find}
		if err := s.code.QR(f.Size.Width-margin-codeSize, f.Size.Height-footRoom+0.5, codeSize, f.Find); err != nil {
			return nil, err
		}
	}
	s.Break()
	return s, nil
}

func (w Words) orEnglish() Words {
	if w.Page == "" {
		w.Page = "Page %d of %d"
	}
	if w.Caution == "" {
		w.Caution = "Caution"
	}
	return w
}

// Break begins a new page.
func (s *Sheet) Break() {
	p := NewPage(s.frame.Size, s.Title)
	s.Pages = append(s.Pages, p)
	s.y = margin
	if len(s.Pages) == 1 {
		s.head(p)
	} else {
		s.runningHead(p)
	}
	s.foot(p)
}

// Page returns the page being filled.
func (s *Sheet) Page() *Page { return s.Pages[len(s.Pages)-1] }

// Free returns what is left of the page being filled.
func (s *Sheet) Free() Area {
	size := s.frame.Size
	return Area{margin, s.y, size.Width - 2*margin, max(0, size.Height-footRoom-3-s.y)}
}

// fresh returns the room on a page after the first.
func (s *Sheet) fresh() Area {
	size := s.frame.Size
	y := margin + runningHeadRoom
	return Area{margin, y, size.Width - 2*margin, size.Height - footRoom - 3 - y}
}

// Room takes the given height, in millimeters, of the page, or of a new one if
// not so much is left, for the caller to draw on.
func (s *Sheet) Room(height float64) (*Page, Area) {
	if height > s.Free().H && s.y > s.fresh().Y {
		s.Break()
	}
	a := s.Free()
	a.H = height
	s.y += height
	return s.Page(), a
}

// Space leaves room, in millimeters.
func (s *Sheet) Space(height float64) { s.y += height }

// Heading writes a heading, kept with at least 20 mm of what follows.
func (s *Sheet) Heading(text string) {
	st := Style{Size: 13, Face: Bold}
	lines := st.Wrap(text, s.Free().W)
	height := 4 + float64(len(lines))*st.Leading() + 1
	if height+20 > s.Free().H && s.y > s.fresh().Y {
		s.Break()
	}
	p, a := s.Room(height)
	p.Wrapped(a.X, a.Y+4+0.8*st.MM(), a.W, text, st)
}

// Paragraph writes wrapped text, over as many pages as it takes.
func (s *Sheet) Paragraph(text string) {
	st := Style{Size: 10.5}
	for _, line := range st.Wrap(text, s.Free().W) {
		p, a := s.Room(st.Leading())
		p.Text(a.X, a.Y+0.8*st.MM(), line, st)
	}
	s.Space(2)
}

// Table writes a table, over as many pages as it takes.
func (s *Sheet) Table(t *Table) {
	page := 0
	for _, piece := range t.layout(s.Free(), s.fresh()) {
		for ; page < piece.page; page++ {
			s.Break()
		}
		piece.draw(&s.Page().Group)
		s.y = piece.area.Y + piece.area.H
	}
	s.Space(4)
}
