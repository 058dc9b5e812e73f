// Package web is the pages: what a person sees and fills in on the laptop or,
// by the same code, on a phone that works alone for days.
//
// It has a small Request and Response of its own and knows neither the network
// nor the browser; package cmd turns the one into the other. A page asks site
// for the property as found and prints it; a form records observations and
// nothing else. The package refuses to compute: what follows from the readings,
// how firmly, and what to do next is for site and trace. It also refuses to
// lose what somebody typed: a form that cannot be kept comes back as it was,
// with one sentence at the field.
//
// Start with Pages.Answer, then routes.go for the table of contents. Each page
// has a .go and a .html of one name; parts shared by pages begin with _.
package web

import (
	"io"
	"slices"
	"strings"
	"sync"
	"time"

	"asfound/installation"
	"asfound/journal"
	"asfound/observation"
	"asfound/site"
)

// Site is what the pages need of an open job.
type Site interface {
	Record(observation.Observation) (observation.ID, error)
	AsFound() (*site.AsFound, error)
	AsFoundAt(revision int64) (*site.AsFound, error)
	Between(from, to time.Time) (before, after *site.AsFound, err error)
	Event(observation.ID) (installation.Entry, bool)
	Revision(state string) (revision int64, found bool, err error)
	TakeIn(site.List) (site.Taken, error)
	TakeBack(first observation.ID, who, reason string) (site.Back, error)
}

// Entries reads a job's journal in the order in which this device got it.
type Entries interface {
	Read(after int64, each func(journal.Entry) error) error
}

// Photos opens a photograph kept under its hash.
type Photos interface {
	Blob(hash string) (io.ReadCloser, error)
}

// Sheet is a sheet that can be made of the job as it stands.
type Sheet struct {
	Name  string // as it stands in an address: letters, figures, hyphens
	Title string
	For   string            // who takes it along, and what for
	Pages int               // 0 when not known before it is made
	About observation.Thing // the panel, tour or building it is about; empty for all
	Tour  observation.Thing // whose readings are written on it; empty for other sheets
}

// Sheets makes sheets. Form is "svg", "pdf" or "csv"; page counts from 1 and
// is meant for "svg" alone, which holds one page.
type Sheets interface {
	List(*site.AsFound) []Sheet
	Render(found *site.AsFound, name, form string, page int) ([]byte, error)
}

// ChangeTeller is Sheets that can say in words what has changed on a sheet
// between two states of the site.
type ChangeTeller interface {
	Changed(before, after *site.AsFound, name string) ([]string, error)
}

// SheetFollower is Sheets that know what a sheet that was made before is called
// now.
type SheetFollower interface {
	Follow(before, after *site.AsFound, name string) (now string, found bool)
}

// SheetNamer is Sheets that can be asked for one sheet by its name, also for one
// that List leaves out because there would be too many.
type SheetNamer interface {
	Named(found *site.AsFound, name string) (Sheet, bool)
}

// SheetFinder is Sheets that can find a sheet by the short code under its square
// code. The state is that of the printed sheet, or its letters alone. A code of
// no sheet is an observation.Unusable.
type SheetFinder interface {
	Find(found *site.AsFound, typed string) (name, state string, err error)
}

// Job is a job to show pages of. Photos and Sheets may be nil.
type Job struct {
	Key     string // its part of an address, when there are several jobs
	Name    string // the property, as people call it
	People  []string
	Site    Site
	Entries Entries
	Photos  Photos
	Sheets  Sheets
}

// Pages answers requests for one job, or for several. It may be used by
// several goroutines at once.
type Pages struct {
	jobs []*open
	seen answered
}

// open is a job with what its pages keep between requests.
type open struct {
	Job
	base  string
	book  book
	lists broughtLists
	index index
}

// New makes the pages of these jobs. One job stands at the root; several stand
// each under its key, with a list of them at the root.
func New(jobs ...Job) *Pages {
	p := &Pages{}
	for _, j := range jobs {
		base := "/"
		if len(jobs) > 1 {
			base = "/" + j.Key + "/"
		}
		p.jobs = append(p.jobs, &open{Job: j, base: base})
	}
	return p
}

// job finds the job that an address is in, and the rest of the address.
func (p *Pages) job(path string) (*open, string) {
	for _, j := range p.jobs {
		if rest, ok := strings.CutPrefix(path, j.base); ok {
			return j, rest
		}
		if path+"/" == j.base {
			return j, ""
		}
	}
	return nil, ""
}

// book is a journal's events as read so far, in order of arrival.
type book struct {
	mu     sync.Mutex
	events []observation.Event
	people []string // who recorded something, in the order of their first entry
	upTo   int64
}

// all returns every event; the caller does not change the slice.
func (b *book) all(from Entries) ([]observation.Event, error) {
	b.mu.Lock()
	defer b.mu.Unlock()
	err := from.Read(b.upTo, func(e journal.Entry) error {
		b.events = append(b.events, e.Event)
		if !slices.Contains(b.people, e.Event.Who) {
			b.people = append(b.people, e.Event.Who)
		}
		b.upTo = e.Position
		return nil
	})
	return b.events, err
}

// who lists everybody who recorded something.
func (b *book) who(from Entries) ([]string, error) {
	_, err := b.all(from)
	b.mu.Lock()
	defer b.mu.Unlock()
	return slices.Clone(b.people), err
}
