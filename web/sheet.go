package web

import (
	"fmt"
	"path"
	"strconv"
	"strings"

	"asfound/journal"
	"asfound/observation"
	"asfound/site"
)

type sheetPage struct {
	Sheet   Sheet
	State   string
	Printed string // the state in the address, when it is another
	Same    bool   // the address bears the state of now
	Told    string // why it cannot be said what has changed
	Taken   string
	Changes []string
	Late    string // where the readings on the copy are entered, when it is of a tour
	Pages   []sheetSide
}

type sheetSide struct {
	Number int
	Href   string
}

func (v *visit) sheet(name string) (Sheet, bool) {
	if namer, ok := v.job.Sheets.(SheetNamer); ok {
		return namer.Named(v.found, name)
	}
	if v.job.Sheets != nil {
		for _, s := range v.job.Sheets.List(v.found) {
			if s.Name == name {
				return s, true
			}
		}
	}
	return Sheet{}, false
}

// showSheet shows a sheet as it will print, with its files. The address on a
// printed one bears the state it was made from too; what has changed since then
// is said first. A sheet is called after what it is about: where that has another
// name now, its page of now is shown.
func showSheet(v *visit) error {
	name, typed, coded := strings.Cut(v.args["sheet"], ".")
	var copied *printed
	if coded {
		var err error
		if copied, err = v.printed(typed); err != nil {
			return err
		}
		if now := v.follow(copied, name); now != name {
			return v.goTo("sheet/" + now + "." + typed)
		}
	}
	s, ok := v.sheet(name)
	if !ok && coded {
		return notFound{sayGoneSheet}
	}
	if !ok {
		return notFound{sayNoSheet}
	}
	data := sheetPage{Sheet: s, State: v.found.State}
	if coded {
		v.sincePrinted(&data, copied, typed)
	}
	for i := 1; i <= max(1, s.Pages); i++ {
		data.Pages = append(data.Pages, sheetSide{i, fmt.Sprintf("sheet/%s/page-%d.svg", s.Name, i)})
	}
	return v.render("sheet", s.Title, data)
}

// printed is the site at the state that a copy in somebody's hand was made from.
type printed struct {
	*site.AsFound
	revision int64
}

// printed finds the state that stands on a copy, in full or its letters alone;
// nil when this journal never was in it.
func (v *visit) printed(state string) (*printed, error) {
	if state == v.found.State || strings.HasPrefix(v.found.State, state+"-") {
		return &printed{v.found, v.found.Revision}, nil
	}
	revision, found, err := v.job.Site.Revision(state)
	if err != nil || !found {
		return nil, err
	}
	before, err := v.job.Site.AsFoundAt(revision)
	if err != nil {
		return nil, fmt.Errorf("read the job at state %s: %w", state, err)
	}
	return &printed{before, revision}, nil
}

// follow is what a sheet of before is called now.
func (v *visit) follow(copied *printed, name string) string {
	follower, follows := v.job.Sheets.(SheetFollower)
	if copied == nil || !follows {
		return name
	}
	if now, found := follower.Follow(copied.AsFound, v.found, name); found {
		return now
	}
	return name
}

// sincePrinted says what has changed on a sheet since a copy of it was printed.
func (v *visit) sincePrinted(data *sheetPage, copied *printed, typed string) {
	if copied != nil && copied.State == v.found.State {
		data.Same = true
		return
	}
	data.Printed = typed
	teller, tells := v.job.Sheets.(ChangeTeller)
	switch {
	case copied == nil:
		data.Told = sayOtherJournal
		return
	case !tells:
		data.Printed, data.Told = copied.State, sayNotTold
		return
	}
	var err error
	data.Printed, data.Taken = copied.State, v.lastOf(copied.revision)
	if data.Changes, err = teller.Changed(copied.AsFound, v.found, data.Sheet.Name); err != nil {
		data.Told = sayNotTold
	}
	if data.Sheet.Tour != "" {
		data.Late = "late/" + string(data.Sheet.Tour) + "?sheet=" + copied.State
	}
}

// lastOf is when the last entry up to a revision was recorded.
func (v *visit) lastOf(revision int64) string {
	var last observation.Event
	err := v.job.Entries.Read(revision-1, func(e journal.Entry) error {
		if e.Position == revision {
			last = e.Event
		}
		return nil
	})
	if err != nil || last.Wall.IsZero() {
		return ""
	}
	return dayAndTime(last.Wall, v.ask.Now)
}

// showSheetFile hands out a sheet: page-1.svg, sheet.pdf or sheet.csv.
func showSheetFile(v *visit) error {
	s, ok := v.sheet(v.args["sheet"])
	if !ok {
		return notFound{sayNoSheet}
	}
	file := v.args["file"]
	form := strings.TrimPrefix(path.Ext(file), ".")
	kind, known := map[string]string{"svg": "image/svg+xml", "pdf": "application/pdf", "csv": "text/csv; charset=utf-8"}[form]
	page, _ := strconv.Atoi(strings.TrimSuffix(strings.TrimPrefix(file, "page-"), "."+form))
	if !known {
		return notFound{sayNoSheet}
	}
	body, err := v.job.Sheets.Render(v.found, s.Name, form, max(1, page))
	if err != nil {
		return fmt.Errorf("make sheet %s as %s: %w", s.Name, form, err)
	}
	v.out.Status, v.out.Type, v.out.Body = statusOK, kind, body
	return nil
}
