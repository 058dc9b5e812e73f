package pellam

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"asfound/quantity"
)

// Work is how people work at Pellam Point: who comes on which days, with what,
// how fast, how they go wrong, and what they wrote down. All of it is assumed.
type Work struct {
	People      []Person
	Instruments []Instrument
	Mistakes    Mistakes
	Movement    Movement
	Visits      []Visit
	Notes       []Note
}

// Person is one of the crew.
type Person struct {
	Name        string
	Part        string  // lead, journeyman or apprentice: the lead does the panels
	Mistakes    float64 // times the rates of Mistakes
	NewVisits   int     // so many visits he is new
	NewMistakes float64 // then
}

// Instrument is something to measure with, and its error: two standard
// deviations.
type Instrument struct {
	Name     string
	Relative float64
	Ohm      quantity.Ohms
	Most     quantity.Ohms // shows open above
	Hits     float64       // of a tone: share of right cables that answer
	Strays   float64       // of a tone: share of bundled neighbors that answer as loud
}

// Mistakes are how often people go wrong: a chance, once per what the table
// says. InRoom and Exchanged are where a wrong opening falls; else it is any.
type Mistakes struct {
	Opening, Letters, InRoom, Exchanged    float64
	Figures, Unit, Space, Columns, Skipped float64
	Date, Twice, Back, Look, Feed, Breaker float64
}

// Movement is how fast people get about and at a box.
type Movement struct {
	Indoors, OnSnow               float64 // ft/s
	Longer                        float64 // the way indoors, times the straight line
	Up, Down                      time.Duration
	StepladderOver, ExtensionOver quantity.Feet
	Stepladder, Extension         time.Duration // to set it up
	Box                           time.Duration // to open a bare one
	PlateOff, PlateOn             time.Duration
	OnSite                        time.Duration // hours of a visit
}

// Visit is a day on site.
type Visit struct {
	ID   string
	Date time.Time
	Crew []string // names
	Work string   // planned
}

// Note is what somebody wrote down, as it was written. It may be wrong.
type Note struct {
	ID, Visit, Who string
	Where          string // a room, a panel, a feeder or a source
	Opening        string // that it is about, as its writer thought; or empty
	Fault          string // that it bears on; or empty
	Withdraws      string // an earlier note, and then Text is the reason
	Text           string
}

// Working reads the tables of the work.
func Working() (*Work, error) {
	w := &Work{}
	for _, t := range []struct {
		name string
		take func(*row)
	}{
		{"people", w.person}, {"instruments", w.instrument}, {"visits", w.visit}, {"notes", w.note},
	} {
		if err := rows(t.name, t.take); err != nil {
			return nil, err
		}
	}
	if err := w.mistakes(); err != nil {
		return nil, err
	}
	return w, w.movement()
}

// Person returns the one with a name, in full or by the first word of it, or
// nil.
func (w *Work) Person(name string) *Person {
	return find(w.People, func(p *Person) bool { return p.Name == name || strings.HasPrefix(p.Name, name+" ") })
}

// Instrument returns the one with a name, or nil.
func (w *Work) Instrument(name string) *Instrument {
	return find(w.Instruments, func(i *Instrument) bool { return i.Name == name })
}

// NotesOf lists the notes of a visit in the order written.
func (w *Work) NotesOf(visit string) []Note {
	return slices.DeleteFunc(slices.Clone(w.Notes), func(n Note) bool { return n.Visit != visit })
}

// Rate is how many mistakes a person makes on a visit, times the rates: more
// while he is new. Before counts his visits so far.
func (p *Person) Rate(before int) float64 {
	if before < p.NewVisits {
		return p.NewMistakes
	}
	return p.Mistakes
}

func (w *Work) person(r *row) {
	w.People = append(w.People, Person{Name: r.text("person"), Part: r.text("part"), Mistakes: r.number("mistakes"),
		NewVisits: int(r.number("new_visits")), NewMistakes: r.number("new_mistakes")})
}

func (w *Work) instrument(r *row) {
	w.Instruments = append(w.Instruments, Instrument{Name: r.text("instrument"), Relative: r.number("relative"),
		Ohm: quantity.Ohms(r.number("absolute_ohm")), Most: quantity.Ohms(r.number("most_ohm")), Hits: r.number("hits"), Strays: r.number("strays")})
}

func (w *Work) visit(r *row) {
	date, err := time.Parse(time.DateOnly, r.text("date"))
	if err != nil {
		r.err = err
	}
	v := Visit{ID: r.text("visit"), Date: date, Work: r.text("work")}
	for _, word := range strings.Fields(r.text("crew")) {
		v.Crew = append(v.Crew, w.named(r, word))
	}
	w.Visits = append(w.Visits, v)
}

func (w *Work) note(r *row) {
	w.Notes = append(w.Notes, Note{ID: r.text("note"), Visit: r.text("visit"), Who: w.named(r, r.text("who")), Where: r.text("where"),
		Opening: r.text("opening"), Fault: r.text("fault"), Withdraws: r.text("withdraws"), Text: r.text("text")})
}

// named is the full name of somebody called by his first.
func (w *Work) named(r *row, first string) string {
	p := w.Person(first)
	if p == nil {
		r.err = fmt.Errorf("nobody is called %s", first)
		return ""
	}
	return p.Name
}

func (w *Work) mistakes() error {
	m := &w.Mistakes
	return named("mistakes", "mistake", "rate", map[string]*float64{
		"wrong opening": &m.Opening, "letters of the wrong number": &m.Letters, "in the same room": &m.InRoom, "two digits exchanged": &m.Exchanged,
		"figures exchanged": &m.Figures, "wrong unit": &m.Unit, "wrong space": &m.Space, "columns exchanged": &m.Columns, "step skipped": &m.Skipped,
		"wrong date": &m.Date, "numbered twice": &m.Twice, "read-back repeats": &m.Back, "room not looked round": &m.Look,
		"another feed joined": &m.Feed, "wrong breaker": &m.Breaker})
}

func (w *Work) movement() error {
	m := &w.Movement
	var up, down, step, stepOver, extension, extensionOver, box, off, on, hours float64
	err := named("movement", "what", "value", map[string]*float64{
		"indoors": &m.Indoors, "on snow": &m.OnSnow, "longer than straight": &m.Longer, "up a floor": &up, "down a floor": &down,
		"stepladder over": &stepOver, "stepladder": &step, "extension ladder over": &extensionOver, "extension ladder": &extension,
		"bare box": &box, "plate off": &off, "plate on": &on, "on site": &hours})
	seconds := func(s float64) time.Duration { return time.Duration(s * float64(time.Second)) }
	m.Up, m.Down, m.Stepladder, m.Extension = seconds(up), seconds(down), seconds(step), seconds(extension)
	m.Box, m.PlateOff, m.PlateOn, m.OnSite = seconds(box), seconds(off), seconds(on), seconds(3600*hours)
	m.StepladderOver, m.ExtensionOver = quantity.Feet(stepOver), quantity.Feet(extensionOver)
	return err
}

// named reads a table of names and numbers into the places given for them. A
// name that is missing or unknown is an error.
func named(table, name, value string, into map[string]*float64) error {
	seen := map[string]bool{}
	err := rows(table, func(r *row) {
		what := r.text(name)
		to, known := into[what]
		if !known || seen[what] {
			r.err = fmt.Errorf("%q is not known, or stands twice", what)
			return
		}
		seen[what] = true
		*to = r.number(value)
	})
	if err == nil && len(seen) < len(into) {
		return fmt.Errorf("read table %s: %d of %d are there", table, len(seen), len(into))
	}
	return err
}
