package web

import (
	"fmt"
	"path"
	"strconv"
	"strings"
)

type sheetPage struct {
	Sheet Sheet
	State string
	Pages []sheetSide
}

type sheetSide struct {
	Number int
	Href   string
}

func (v *visit) sheet() (Sheet, error) {
	if v.job.Sheets != nil {
		for _, s := range v.job.Sheets.List(v.found) {
			if s.Name == v.args["sheet"] {
				return s, nil
			}
		}
	}
	return Sheet{}, notFound{sayNoSheet}
}

// showSheet shows a sheet as it will print, with its files.
func showSheet(v *visit) error {
	s, err := v.sheet()
	if err != nil {
		return err
	}
	data := sheetPage{Sheet: s, State: v.found.State}
	for i := 1; i <= max(1, s.Pages); i++ {
		data.Pages = append(data.Pages, sheetSide{i, fmt.Sprintf("sheet/%s/page-%d.svg", s.Name, i)})
	}
	return v.render("sheet", s.Title, data)
}

// showSheetFile hands out a sheet: page-1.svg, sheet.pdf or sheet.csv.
func showSheetFile(v *visit) error {
	s, err := v.sheet()
	if err != nil {
		return err
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
