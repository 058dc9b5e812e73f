package main

import (
	"archive/zip"
	"errors"
	"fmt"
	"io/fs"
	"os"

	"asfound/journal/bundle"
	"asfound/journal/sqlite"
)

type importCommand struct {
	Job  string `arg:"" help:"The job file; a new one is made when there is none."`
	From string `arg:"" help:"The folder or .zip that an export wrote."`
}

// Help is an example.
func (importCommand) Help() string {
	return "Example: asfound import 'Pellam Point.job' pellam-point.zip"
}

// Run merges the files into the job. It ends with 1 when something was left out.
func (c importCommand) Run(p *program) (err error) {
	from, done, err := openBundle(c.From)
	if err != nil {
		return err
	}
	defer done()
	if _, err := fs.Stat(from, "events.jsonl"); err != nil {
		return misuse{fmt.Sprintf("There is no events.jsonl in %s. Choose the folder or zip file that an export wrote.", c.From)}
	}
	store, err := sqlite.Open(c.Job, p.now)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, store.Close()) }()
	got, err := bundle.Import(store, from)
	p.tell(got)
	if err == nil && len(got.Say) > 0 {
		return errFound
	}
	return err
}

// openBundle opens a folder or a zip file.
func openBundle(path string) (files fs.FS, done func() error, err error) {
	if isZip(path) {
		r, err := zip.OpenReader(path)
		if err != nil {
			return nil, nil, misuse{fmt.Sprintf("The file %s cannot be read as a zip: choose one that an export wrote.", path)}
		}
		return r, r.Close, nil
	}
	if _, err := os.Stat(path); err != nil {
		return nil, nil, misuse{fmt.Sprintf("There is no folder %s.", path)}
	}
	return os.DirFS(path), func() error { return nil }, nil
}

// tell says what an import brought: the counts for machines, the rest in words.
func (p *program) tell(got bundle.Imported) {
	fmt.Fprintf(p.out, "new\t%d\nheld\t%d\nphotographs\t%d\naside\t%d\nleft out\t%d\n",
		got.Added, got.Held, got.Photos, len(got.Forks), len(got.Say))
	for _, say := range got.Say {
		p.say("%s", say)
	}
	for _, f := range got.Forks {
		p.say("A second event bears the number %s. It is kept aside and not counted: two devices recorded under one name.", f.ID)
	}
	if n := len(got.Ahead); n > 0 {
		p.say("%d events come from a clock more than 10 minutes ahead. They count; set that clock.", n)
	}
	if got.Renewed != "" {
		p.say("Another device recorded under this one's name; from now on this one records as %s.", got.Renewed)
	}
}
