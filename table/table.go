// Package table holds published tables as they were printed, with where each
// came from, and looks values up in them.
//
// It does no arithmetic: nothing is interpolated, converted or corrected for
// temperature here. A size that a table does not print is not found, it is never
// zero. It holds numbers only, none of the documents' prose, and a table that
// does not state its source in full cannot be read.
//
// Start reading at [Sheet], then [CopperAt20C].
package table

import (
	"bufio"
	"bytes"
	"embed"
	"encoding/csv"
	"fmt"
	"io/fs"
	"slices"
	"strings"
	"sync"

	"asfound/cite"
)

// Sheet is one published table: its source, stated in full, and its cells.
type Sheet struct {
	Name        string // file name without ending, "copper-75c"
	Title       string
	Document    string // as published, with its number
	Edition     string
	Table       string // section and table in the document
	Units       string
	Transcribed string // who or what the cells were taken from
	Checked     string // against what
	LeftOut     string // what the document prints and this does not
	Columns     []string
	Rows        [][]string
}

// Place names the table in its document.
func (s Sheet) Place() cite.Place {
	return cite.Place{Title: s.Document, Edition: s.Edition, Section: s.Table}
}

//go:embed *.csv
var files embed.FS

// Sheets returns every table in the order of their names.
func Sheets() []Sheet { return slices.Clone(sheets()) }

// sheets panics on a table it cannot read: they are part of the program.
var sheets = sync.OnceValue(func() []Sheet {
	names, err := fs.Glob(files, "*.csv")
	if err != nil {
		panic(err)
	}
	var all []Sheet
	for _, name := range names {
		data, err := files.ReadFile(name)
		if err != nil {
			panic(err)
		}
		sheet, err := read(strings.TrimSuffix(name, ".csv"), data)
		if err != nil {
			panic(err)
		}
		all = append(all, sheet)
	}
	return all
})

// read takes a sheet from its text: header lines "# key: value", then CSV with a
// line of column names.
func read(name string, data []byte) (Sheet, error) {
	sheet := Sheet{Name: name}
	keys := map[string]*string{
		"title": &sheet.Title, "document": &sheet.Document, "edition": &sheet.Edition, "table": &sheet.Table, "units": &sheet.Units,
		"transcribed": &sheet.Transcribed, "checked": &sheet.Checked, "left out": &sheet.LeftOut,
	}
	for lines := bufio.NewScanner(bytes.NewReader(data)); lines.Scan(); {
		line, header := strings.CutPrefix(lines.Text(), "#")
		if !header {
			break
		}
		key, value, _ := strings.Cut(line, ":")
		field, known := keys[strings.TrimSpace(key)]
		if !known || *field != "" {
			return Sheet{}, fmt.Errorf("table %s: header line %q is unknown or stands twice", name, lines.Text())
		}
		*field = strings.TrimSpace(value)
	}
	for key, field := range keys {
		if *field == "" {
			return Sheet{}, fmt.Errorf("table %s: header lacks %q", name, key)
		}
	}
	cells := csv.NewReader(bytes.NewReader(data))
	cells.Comment = '#'
	rows, err := cells.ReadAll()
	if err != nil {
		return Sheet{}, fmt.Errorf("table %s: %w", name, err)
	}
	if len(rows) < 2 {
		return Sheet{}, fmt.Errorf("table %s: no rows", name)
	}
	sheet.Columns, sheet.Rows = rows[0], rows[1:]
	return sheet, nil
}

// named returns the sheet of that name, which must exist.
func named(name string) Sheet {
	for _, sheet := range sheets() {
		if sheet.Name == name {
			return sheet
		}
	}
	panic("no table " + name)
}
