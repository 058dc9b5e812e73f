package main

import (
	"bytes"
	"fmt"
	"sync"

	"asfound/observation"
	"asfound/paper"
	"asfound/paper/pdf"
	"asfound/report"
	"asfound/site"
	"asfound/web"
)

// sheets makes the sheets of package report in the forms that pages and people
// ask for. It keeps those of the latest journal state, since a page asks for
// each side of a sheet by itself.
type sheets struct {
	beside report.Beside

	mu   sync.Mutex
	of   *site.AsFound
	made map[string]*paper.Sheet
}

// sheetsOf makes the sheets of a job, with its photographs and its history.
func sheetsOf(j *job) *sheets {
	return &sheets{beside: report.Beside{Photos: j.small, History: j.Site}}
}

// takenAlong says who takes a sheet along, and what for.
var takenAlong = map[report.Sort]string{
	report.Directory: "For the door of the panel",
	report.Isolation: "For whoever takes the isolation readings at the panel",
	report.Resistors: "For whoever puts the resistors on",
	report.ReadBack:  "For whoever reads the resistors back, blind",
	report.Walk:      "For whoever walks the tour",
	report.Tapes:     "For whoever writes the tapes",

	report.Door:        "For the door of the panel, beside the directory",
	report.Locks:       "For two people who lock out and test",
	report.Directories: "For printing all of them at once",
	report.OneLine:     "For whoever looks for what feeds a panel",
	report.Helper:      "The next hour, for whoever goes on without a phone",
	report.Count:       "For whoever orders material",
	report.Differences: "For the builder",
	report.Plan:        "For whoever walks the building",
	report.Survey:      "For whoever walks through and writes down what is there",
	report.DaySheet:    "One page for the builder",
	report.TakeOver:    "What was found before the work began, with room for two to sign",
}

// List lists the sheets that can be made. One for which something is still to be
// recorded stands without a number of pages.
func (s *sheets) List(found *site.AsFound) []web.Sheet {
	var out []web.Sheet
	for _, k := range report.Sheets(found) {
		item := web.Sheet{Name: k.Name, Title: k.Title, For: takenAlong[k.Sort], About: k.Of}
		if k.Sort == report.Walk {
			item.Tour = k.Of
		}
		if k.Sort != report.DaySheet && k.Sort != report.TakeOver { // those read the job as it was: only when asked for
			item.Pages = s.pages(found, k.Name)
		}
		out = append(out, item)
	}
	return out
}

// Named gives a sheet by its name, also one that List leaves out.
func (s *sheets) Named(found *site.AsFound, name string) (web.Sheet, bool) {
	k, ok := report.Named(found, name)
	if !ok {
		return web.Sheet{}, false
	}
	return web.Sheet{Name: k.Name, Title: k.Title, For: takenAlong[k.Sort], Pages: s.pages(found, name)}, true
}

// pages is how many pages a sheet has; 0 while it cannot be made.
func (s *sheets) pages(found *site.AsFound, name string) int {
	made, err := s.sheet(found, name)
	if err != nil {
		return 0
	}
	return len(made.Pages)
}

// Render makes a sheet: all of it as pdf or csv, one page of it as svg.
func (s *sheets) Render(found *site.AsFound, name, form string, page int) ([]byte, error) {
	if form == "csv" {
		return s.beside.CSV(found, name)
	}
	sheet, err := s.sheet(found, name)
	if err != nil {
		return nil, err
	}
	switch form {
	case "svg":
		if page < 1 || page > len(sheet.Pages) {
			return nil, observation.Unusable{Field: "page",
				Say: fmt.Sprintf("This sheet has pages 1 to %d.", len(sheet.Pages))}
		}
		return paper.SVG(sheet.Pages[page-1], paper.SVGOptions{Standalone: true}), nil
	case "pdf":
		develop(sheet)
		var out bytes.Buffer
		err := pdf.Write(&out, sheet, pdf.Options{Date: found.Taken, Subject: "Journal state " + found.State})
		return out.Bytes(), err
	}
	return nil, observation.Unusable{Field: "format", Typed: form, Say: "A sheet comes as pdf, svg or csv."}
}

// sheet makes a sheet once for a journal state.
func (s *sheets) sheet(found *site.AsFound, name string) (*paper.Sheet, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.of != found {
		s.of, s.made = found, map[string]*paper.Sheet{}
	}
	if made, ok := s.made[name]; ok {
		return made, nil
	}
	made, err := s.beside.Make(found, name)
	if err == nil {
		s.made[name] = made
	}
	return made, err
}

// Changed says in words what on a sheet has changed between two states.
func (s *sheets) Changed(before, after *site.AsFound, name string) ([]string, error) {
	return s.beside.Changed(before, after, name)
}

// Follow finds what a sheet that was made before is called now.
func (s *sheets) Follow(before, after *site.AsFound, name string) (now string, found bool) {
	k, found := report.Follow(before, after, name)
	return k.Name, found
}

// Find finds a sheet by the short code printed under its square code.
func (s *sheets) Find(found *site.AsFound, typed string) (name, state string, err error) {
	k, state, err := report.Find(found, typed)
	return k.Name, state, err
}
