package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"asfound/report"
)

type paperCommand struct {
	Job    string `arg:"" help:"The job file."`
	Sheet  string `arg:"" optional:"" help:"The sheet; left out, the sheets are listed."`
	Format string `help:"pdf, svg or csv; left out, as the file of --out ends, else pdf."`
	Out    string `short:"o" help:"The file to write; left out, standard output."`
	Page   int    `default:"1" help:"The page to write as svg, which holds one."`
}

// Help is an example.
func (paperCommand) Help() string {
	return "Example: asfound paper 'Pellam Point.job' directory-a1 --out a1.pdf"
}

// Run makes the sheet.
func (c paperCommand) Run(p *program) error {
	j, err := openJob(c.Job, p.now)
	if err != nil {
		return err
	}
	defer j.store.Close()
	found, err := j.AsFound()
	if err != nil {
		return err
	}
	if c.Sheet == "" {
		for _, k := range report.Sheets(found) {
			fmt.Fprintf(p.out, "%s\t%s\n", k.Name, k.Title)
		}
		return nil
	}
	data, err := sheetsOf(j).Render(found, c.Sheet, c.format(), c.Page)
	if err != nil {
		return err
	}
	return c.write(p, data)
}

// format is the form asked for.
func (c paperCommand) format() string {
	ending := strings.ToLower(strings.TrimPrefix(filepath.Ext(c.Out), "."))
	switch {
	case c.Format != "":
		return strings.ToLower(c.Format)
	case ending != "":
		return ending
	}
	return "pdf"
}

func (c paperCommand) write(p *program, data []byte) error {
	if c.Out == "" || c.Out == "-" {
		if file, ok := p.out.(*os.File); ok && c.format() == "pdf" && isScreen(file) {
			return misuse{fmt.Sprintf("A PDF cannot be shown here. Name a file: --out %s.pdf", c.Sheet)}
		}
		_, err := p.out.Write(data)
		return err
	}
	if err := os.WriteFile(c.Out, data, 0o644); err != nil {
		return fmt.Errorf("write sheet: %w", err)
	}
	p.say("Wrote %s.", c.Out)
	return nil
}

// isScreen reports whether a file is a terminal or the like.
func isScreen(file *os.File) bool {
	info, err := file.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}
