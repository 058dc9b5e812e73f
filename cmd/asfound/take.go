package main

import (
	"encoding/csv"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"strconv"
	"strings"

	"asfound/site"
)

type takeCommand struct {
	Job    string `arg:"" help:"The job file."`
	Kind   string `arg:"" help:"What the list holds: openings, panels, circuits or drawn."`
	File   string `arg:"" help:"The list, a table as CSV; - is standard input."`
	Who    string `help:"Who brings the list."`
	Look   bool   `help:"Only say what would be kept."`
	Format string `default:"csv" help:"csv or json: how each line is told on standard output."`
	Bad    string `help:"A file to write the bad lines to, to be mended and brought again."`
}

// Help is an example.
func (takeCommand) Help() string {
	return "Each line of the list is told on standard output: kept, already there, or bad, with the column, what stands there and what to do. " +
		"The good ones are kept. Ends with 1 when a line is bad. Columns: docs/lists.md.\n\n" +
		"Example: asfound take 'Pellam Point.job' openings openings.csv --who 'Marit Sandvei' --look"
}

// Run takes the list in.
func (c takeCommand) Run(p *program) (err error) {
	switch {
	case c.Format != "csv" && c.Format != "json":
		return misuse{"Lines are told as csv or json."}
	case !c.Look && strings.TrimSpace(c.Who) == "":
		return misuse{"Say who brings the list: --who NAME. To see first what it would keep: --look."}
	}
	from, done, err := openList(c.File)
	if err != nil {
		return err
	}
	defer done()
	j, err := openJob(c.Job, p.now)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, j.store.Close()) }()
	who := c.Who
	if c.Look && who == "" {
		who = "somebody"
	}
	got, err := j.TakeIn(site.List{Kind: site.ListKind(c.Kind), File: c.File, From: from, Who: who, Look: c.Look})
	if err != nil {
		return err
	}
	if err := errors.Join(c.tell(p, got), c.writeBad(p, got)); err != nil {
		return err
	}
	if got.Count(site.Bad) > 0 {
		return errFound
	}
	return nil
}

// openList opens a list, or standard input.
func openList(path string) (from io.Reader, done func() error, err error) {
	if path == "-" {
		return os.Stdin, func() error { return nil }, nil
	}
	file, err := os.Open(path)
	if err != nil {
		return nil, nil, misuse{fmt.Sprintf("There is no file %s that can be read.", path)}
	}
	return file, file.Close, nil
}

// toldLine is a line as machines read it.
type toldLine struct {
	Line   int         `json:"line"`
	Became site.Became `json:"became"`
	Column string      `json:"column,omitempty"`
	Stood  string      `json:"stood,omitempty"`
	Say    string      `json:"say,omitempty"`
}

// tell writes each line for machines, and the counts in words.
func (c takeCommand) tell(p *program, got site.Taken) error {
	if err := writeLines(p.out, c.Format, got.Lines); err != nil {
		return fmt.Errorf("tell lines: %w", err)
	}
	verb := "Kept"
	if c.Look {
		verb = "Would keep"
	}
	p.say("%s %d, already there %d, bad %d. Read as %s, a %s between cells.", verb, got.Count(site.Kept), got.Count(site.Same), got.Count(site.Bad), got.Encoding, got.Separator)
	for _, name := range got.New {
		p.say("New on record: %s.", name)
	}
	for _, name := range got.Unknown {
		p.say("Not used: the column %s.", name)
	}
	return nil
}

func writeLines(w io.Writer, format string, lines []site.Line) error {
	if format == "json" {
		out := json.NewEncoder(w)
		for _, l := range lines {
			if err := out.Encode(toldLine{l.Number, l.Became, l.Column, l.Stood, l.Say}); err != nil {
				return err
			}
		}
		return nil
	}
	rows := [][]string{{"line", "became", "column", "stood", "say"}}
	for _, l := range lines {
		rows = append(rows, []string{strconv.Itoa(l.Number), string(l.Became), l.Column, l.Stood, l.Say})
	}
	return csv.NewWriter(w).WriteAll(rows)
}

// writeBad writes the bad lines as a list of their own.
func (c takeCommand) writeBad(p *program, got site.Taken) error {
	if c.Bad == "" || got.Count(site.Bad) == 0 {
		return nil
	}
	file, err := os.OpenFile(c.Bad, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if errors.Is(err, os.ErrExist) {
		return misuse{fmt.Sprintf("There is a file %s already. Name a new one.", c.Bad)}
	}
	if err != nil {
		return fmt.Errorf("write bad lines: %w", err)
	}
	p.say("The bad lines stand in %s: mend them and take them in from there.", c.Bad)
	return errors.Join(got.Mend(file), file.Close())
}
