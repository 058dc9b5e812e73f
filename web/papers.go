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
		name, state, err := finder.Find(v.found, code)
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
