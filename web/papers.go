package web

type papersPage struct {
	Sheets []Sheet
	State  string
}

// showPapers lists the sheets that can be made of the job as it stands.
func showPapers(v *visit) error {
	data := papersPage{State: v.found.State}
	if v.job.Sheets != nil {
		data.Sheets = v.job.Sheets.List(v.found)
	}
	return v.render("papers", titlePapers, data)
}
