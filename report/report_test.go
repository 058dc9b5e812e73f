package report_test

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"asfound/paper"
	"asfound/paper/pdf"
	"asfound/report"
	"asfound/site"
)

var (
	update = flag.Bool("update", false, "write golden files")
	pages  = flag.String("pages", "", "folder to write every sheet to as PDF, to be looked at")
)

// textOf is a sheet as text: one line for each text of a page, in the order
// drawn, with the pencil lines left out.
func textOf(s *paper.Sheet) string {
	var out strings.Builder
	for i, p := range s.Pages {
		fmt.Fprintf(&out, "== page %d\n", i+1)
		eachText(p.Marks, func(t paper.Text) { out.WriteString(t.S + "\n") })
	}
	return out.String()
}

func eachText(marks []paper.Mark, do func(paper.Text)) {
	for _, m := range marks {
		switch m := m.(type) {
		case paper.Text:
			do(m)
		case *paper.Group:
			eachText(m.Marks, do)
		}
	}
}

func golden(t *testing.T, name, got string) {
	t.Helper()
	file := filepath.Join("testdata", name)
	if *update {
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), got); diff != "" {
		t.Errorf("%s changed (-want +got):\n%s", file, diff)
	}
}

func made(t *testing.T, a *site.AsFound, name string) *paper.Sheet {
	t.Helper()
	s, err := report.Make(a, name)
	if err != nil {
		t.Fatal(err)
	}
	if *pages != "" {
		f, err := os.Create(filepath.Join(*pages, name+".pdf"))
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		if err := pdf.Write(f, s, pdf.Options{Date: a.Taken}); err != nil {
			t.Fatal(err)
		}
	}
	return s
}

func TestSheetsGolden(t *testing.T) {
	a := sample(t)
	for _, k := range report.Sheets(a) {
		t.Run(k.Name, func(t *testing.T) {
			golden(t, k.Name+".txt", textOf(made(t, a, k.Name)))
			got, err := report.CSV(a, k.Name)
			if err != nil {
				t.Fatal(err)
			}
			golden(t, k.Name+".csv", strings.ReplaceAll(string(got), "\r\n", "\n"))
		})
	}
}
