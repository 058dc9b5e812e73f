package web

import "strings"

type papersPage struct {
	Form   *form
	Sheets []Sheet
	State  string
	Finds  bool
}

// showPapers lists the sheets that can be made of the job as it stands, and
// finds the one whose short code was typed.
func showPapers(v *visit) error {
	f := v.form()
	finder, finds := v.job.Sheets.(SheetFinder)
	data := papersPage{Form: f, State: v.found.State, Finds: finds}
	if code := strings.TrimSpace(v.query("code")); code != "" && finds {
		f.set("code", code)
		name, state, err := v.findSheet(finder, code)
		if err == nil {
			return v.goTo("sheet/" + name + "." + state)
		}
		f.take(err, map[string]string{"sheet": "code"})
		if f.Failed != "" {
			return err
		}
	}
	if v.job.Sheets != nil {
		data.Sheets = v.job.Sheets.List(v.found)
	}
	return v.renderForm("papers", titlePapers, f, data)
}

// findSheet finds the sheet with a code: among those that were made at the state
// that the code names, since a sheet is called after what it is about and that
// may have another name now; else among those of now.
func (v *visit) findSheet(finder SheetFinder, code string) (name, state string, err error) {
	_, letters, _ := strings.Cut(strings.ToLower(strings.Join(strings.Fields(code), "")), "-")
	letters, _, _ = strings.Cut(letters, "-")
	copied, err := v.printed(letters)
	if err != nil {
		return "", "", err
	}
	if copied != nil && letters != "" {
		if name, state, err = finder.Find(copied.AsFound, code); err == nil {
			return name, state, nil
		}
	}
	return finder.Find(v.found, code)
}
