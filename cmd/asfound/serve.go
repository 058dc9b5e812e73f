package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"asfound/journal/sqlite"
)

type serveCommand struct {
	listening
	Folder string   `arg:"" default:"." help:"The folder of the jobs: every file ending in .job."`
	New    string   `help:"Make a new job of this name first: the property, as people call it."`
	People []string `help:"Names to offer beside those on record, with commas between."`
}

// Help is an example.
func (serveCommand) Help() string {
	return "Example: asfound serve ~/jobs --new 'Pellam Point' --people 'Marit Sandvei,Tomas Veil'"
}

// Run opens the jobs of the folder and shows them until somebody stops it.
func (c serveCommand) Run(p *program) (err error) {
	if c.New != "" {
		if err := makeJob(p, c.Folder, c.New); err != nil {
			return err
		}
	}
	jobs, err := openShelf(p, c.Folder)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, jobs.close()) }()
	return c.serve(p, jobs, c.People, "/")
}

// openShelf opens every job of a folder, by name.
func openShelf(p *program, folder string) (*shelf, error) {
	entries, err := os.ReadDir(folder)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, misuse{fmt.Sprintf("There is no folder %s.", folder)}
	}
	if err != nil {
		return nil, fmt.Errorf("open folder of jobs: %w", err)
	}
	jobs := &shelf{}
	for _, e := range entries {
		if filepath.Ext(e.Name()) != jobEnding || e.IsDir() {
			continue
		}
		j, err := openJob(filepath.Join(folder, e.Name()), p.now)
		if err != nil {
			p.say("%s is left out: %v.", e.Name(), err)
			continue
		}
		jobs.put(j)
	}
	if len(jobs.jobs) == 0 {
		return nil, misuse{fmt.Sprintf("There is no job in %s. Make one: asfound serve %s --new NAME.", folder, folder)}
	}
	return jobs, nil
}

// makeJob makes an empty job, and its folder when there is none.
func makeJob(p *program, folder, name string) error {
	name = strings.TrimSpace(name)
	if name == "" || name != filepath.Base(name) || strings.HasPrefix(name, ".") || slices.Contains(reserved, strings.ToLower(name)) {
		return misuse{"Name the job for its property, without / or \\: --new 'Pellam Point'."}
	}
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return fmt.Errorf("make folder of jobs: %w", err)
	}
	path := filepath.Join(folder, name+jobEnding)
	if _, err := os.Stat(path); err == nil {
		return misuse{fmt.Sprintf("There is a job %s already. Leave out --new to open it.", path)}
	}
	store, err := sqlite.Open(path, p.now)
	if err != nil {
		return err
	}
	p.say("Made %s.", path)
	return store.Close()
}

// reserved are names that mean a device on some systems, whatever their ending.
var reserved = []string{"con", "prn", "aux", "nul", "com1", "com2", "com3", "com4", "lpt1", "lpt2", "lpt3"}
