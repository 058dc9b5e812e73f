package main

import (
	"errors"
	"fmt"
	"net/url"
	"os"
	"path/filepath"
	"time"

	"asfound/journal/sqlite"
	"asfound/scenario"
)

type demoCommand struct {
	listening
	Folder string `arg:"" optional:"" help:"Where to keep the job, to go on with it another day; left out, a temporary folder."`
	Seed   uint64 `default:"3" help:"Another number makes up other mistakes of its people."`
}

// Help is an example.
func (demoCommand) Help() string {
	return "Nobody lives at Pellam Point: property, people and readings are made up.\n\n" +
		"Example: asfound demo --no-open"
}

// demoName is the made-up property.
const demoName = "Pellam Point"

// Run plays the job half way and opens it where readings clash.
func (c demoCommand) Run(p *program) (err error) {
	folder, done, err := c.place(p)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, done()) }()
	path := filepath.Join(folder, demoName+jobEnding)
	if _, err := os.Stat(path); err != nil {
		if err := c.play(p, path); err != nil {
			return err
		}
	}
	j, err := openJob(path, p.now)
	if err != nil {
		return err
	}
	jobs := &shelf{}
	jobs.put(j)
	defer func() { err = errors.Join(err, jobs.close()) }()
	page, err := clashPage(j)
	if err != nil {
		return err
	}
	return c.serve(p, jobs, scenario.Crew(), page)
}

// place is the folder of the job, and what to do with it in the end.
func (c demoCommand) place(p *program) (folder string, done func() error, err error) {
	if c.Folder != "" {
		if err := os.MkdirAll(c.Folder, 0o755); err != nil {
			return "", nil, fmt.Errorf("make folder of the demo: %w", err)
		}
		return c.Folder, func() error { return nil }, nil
	}
	folder, err = os.MkdirTemp("", "asfound-demo-")
	if err != nil {
		return "", nil, fmt.Errorf("make folder of the demo: %w", err)
	}
	p.say("The job is kept in %s until you stop. To keep it longer name a folder: asfound demo FOLDER.", folder)
	return folder, func() error { return os.RemoveAll(folder) }, nil
}

// play makes the job up. A name that is not the job's own until it is whole
// keeps one that was stopped half way from being opened.
func (c demoCommand) play(p *program, path string) error {
	p.say("Making up a property and the people who trace it ...")
	part := path + ".part"
	store, err := sqlite.Open(part, p.now)
	if err != nil {
		return err
	}
	_, err = scenario.Demo(store, demoDay(p.now()), c.Seed)
	if err := errors.Join(err, store.Close()); err != nil {
		return fmt.Errorf("make up the demo: %w", err)
	}
	return os.Rename(part, path)
}

// clashPage is the page of the first clash, or the first page where nothing
// clashes any more.
func clashPage(j *job) (string, error) {
	found, err := j.AsFound()
	if err != nil {
		return "", err
	}
	if len(found.Trace.Clashes) == 0 {
		return "/", nil
	}
	return "/clash?key=" + url.QueryEscape(found.Trace.Clashes[0].Key), nil
}

// demoDay is yesterday: the day of the latest visit.
func demoDay(now time.Time) time.Time { return now.AddDate(0, 0, -1) }
