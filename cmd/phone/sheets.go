package main

import (
	"fmt"

	"asfound/observation"
	"asfound/paper"
	"asfound/report"
	"asfound/site"
	"asfound/web"
)

// sheets shows sheets on the screen. A phone has no printer, so that the writer
// of PDF stays out of it.
type sheets struct{}

// List lists the sheets.
func (sheets) List(found *site.AsFound) []web.Sheet {
	var out []web.Sheet
	for _, k := range report.Sheets(found) {
		out = append(out, web.Sheet{Name: k.Name, Title: k.Title, For: "For looking at"})
	}
	return out
}

// Render makes one page of a sheet as svg, or its rows as csv.
func (sheets) Render(found *site.AsFound, name, form string, page int) ([]byte, error) {
	if form == "csv" {
		return report.CSV(found, name)
	}
	if form != "svg" {
		return nil, observation.Unusable{Field: "format", Typed: form, Say: "On a phone a sheet comes as svg or csv. Print it from the laptop."}
	}
	sheet, err := report.Make(found, name)
	if err != nil {
		return nil, err
	}
	if page < 1 || page > len(sheet.Pages) {
		return nil, observation.Unusable{Field: "page", Say: fmt.Sprintf("This sheet has pages 1 to %d.", len(sheet.Pages))}
	}
	return paper.SVG(sheet.Pages[page-1], paper.SVGOptions{Standalone: true}), nil
}
