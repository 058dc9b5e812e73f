package web

import (
	"fmt"
	"path"
	"strconv"
	"strings"

	"asfound/journal"
	"asfound/observation"
)

type sheetPage struct {
	Sheet   Sheet
	State   string
	Printed string // the state in the address, when it is another
	Same    bool   // the address bears the state of now
	Told    string // why it cannot be said what has changed
	Taken   string
	Changes []string
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
// is said first.
func showSheet(v *visit) error {
	name, printed, coded := strings.Cut(v.args["sheet"], ".")
	s, ok := v.sheet(name)
	if !ok && coded {
		return notFound{sayGoneSheet}
	}
	if !ok {
		return notFound{sayNoSheet}
	}
	data := sheetPage{Sheet: s, State: v.found.State}
	if coded {
		if err := v.sincePrinted(&data, printed); err != nil {
			return err
		}
	}
	for i := 1; i <= max(1, s.Pages); i++ {
		data.Pages = append(data.Pages, sheetSide{i, fmt.Sprintf("sheet/%s/page-%d.svg", s.Name, i)})
	}
	return v.render("sheet", s.Title, data)
}

// sincePrinted says what has changed on a sheet since it was printed.
func (v *visit) sincePrinted(data *sheetPage, printed string) error {
	state, err := v.wholeState(printed)
	if err != nil {
		return err
	}
	if state == v.found.State {
		data.Same = true
		return nil
	}
	data.Printed = state
	revision, found, err := v.job.Site.Revision(state)
	if err != nil {
		return fmt.Errorf("find state %s: %w", state, err)
	}
	teller, tells := v.job.Sheets.(ChangeTeller)
	switch {
	case !found:
		data.Told = sayOtherJournal
		return nil
	case !tells:
		data.Told = sayNotTold
		return nil
	}
	before, err := v.job.Site.AsFoundAt(revision)
	if err != nil {
		return fmt.Errorf("read the job at state %s: %w", state, err)
	}
	data.Taken = v.lastOf(revision)
	if data.Changes, err = teller.Changed(before, v.found, data.Sheet.Name); err != nil {
		data.Told = sayNotTold
	}
	return nil
}

// wholeState is a journal state as printed in full. Where somebody typed its
// letters alone, it is the latest state with these letters.
func (v *visit) wholeState(typed string) (string, error) {
	switch {
	case strings.Contains(typed, "-"):
		return typed, nil
	case strings.HasPrefix(v.found.State, typed+"-"):
		return v.found.State, nil
	}
	out, marks := typed, map[string]uint64{}
	err := v.job.Entries.Read(0, func(e journal.Entry) error {
		marks[e.Event.Device] = max(marks[e.Event.Device], e.Event.Seq)
		if state := journal.State(marks); strings.HasPrefix(state, typed+"-") {
			out = state
		}
		return nil
	})
	if err != nil {
		return "", fmt.Errorf("look for state %s: %w", typed, err)
	}
	return out, nil
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
