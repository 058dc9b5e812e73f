package main

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"time"

	"asfound/installation"
	"asfound/journal"
	"asfound/journal/sqlite"
	"asfound/observation"
	"asfound/quantity"
	"asfound/scenario"
	"asfound/site"
)

type benchFoldCommand struct {
	Long  int `default:"100000" help:"Observations to read from disk."`
	Short int `default:"10000" help:"Observations of the job in which one more is recorded."`
}

// What the two are to take on a laptop.
const (
	foldTarget   = time.Second
	recordTarget = 50 * time.Millisecond
)

// leastCopied is more than the observations of the job that is copied.
const leastCopied = 2500

// Help is an example.
func (benchFoldCommand) Help() string { return "Example: asfound bench fold" }

// Run measures both.
func (c benchFoldCommand) Run(p *program) (err error) {
	if c.Long < leastCopied || c.Short < leastCopied {
		return misuse{fmt.Sprintf("Give the numbers of observations as %d or more: fewer are no job with a tour.", leastCopied)}
	}
	folder, err := os.MkdirTemp("", "asfound-bench-")
	if err != nil {
		return fmt.Errorf("make folder: %w", err)
	}
	defer func() { err = errors.Join(err, os.RemoveAll(folder)) }()
	p.say("Making up a job of about 2,000 observations and copying it ...")
	lines, err := playedLines()
	if err != nil {
		return err
	}
	if err := c.long(p, filepath.Join(folder, "long.job"), lines); err != nil {
		return err
	}
	return c.short(p, filepath.Join(folder, "short.job"), lines)
}

// long measures how fast a long journal is read and folded.
func (c benchFoldCommand) long(p *program, path string, lines [][]byte) error {
	if err := fill(p, path, lines, c.Long); err != nil {
		return err
	}
	began := time.Now()
	store, err := sqlite.Open(path, p.now)
	if err != nil {
		return err
	}
	fold := installation.NewFold()
	err = store.Read(0, func(e journal.Entry) error {
		fold.Add(e.Event)
		return nil
	})
	in := fold.Installation()
	took := time.Since(began)
	fmt.Fprintf(p.out, "fold\t%d observations\t%d openings\t%s\ttarget %s\n", c.Long, len(in.Openings), rounded(took), foldTarget)
	return errors.Join(err, store.Close())
}

// short measures how long it takes to record one reading and to have the site as
// found with it: first what is folded, then with all that follows from it.
func (c benchFoldCommand) short(p *program, path string, lines [][]byte) (err error) {
	if err := fill(p, path, lines, c.Short); err != nil {
		return err
	}
	j, err := openJob(path, p.now)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, j.store.Close()) }()
	began := time.Now()
	found, err := j.AsFound()
	if err != nil {
		return err
	}
	fmt.Fprintf(p.out, "trace\t%d observations\t%d openings\t%s\tat the first page\n", c.Short, len(found.Openings), rounded(time.Since(began)))
	var took []time.Duration
	for i := range timesRecorded {
		began = time.Now()
		if err := recordOne(j, found, i); err != nil {
			return err
		}
		took = append(took, time.Since(began))
	}
	slices.Sort(took)
	fmt.Fprintf(p.out, "record\t%d observations\tmedian of %d\t%s\ttarget %s\tlongest %s\n",
		c.Short, len(took), rounded(took[len(took)/2]), recordTarget, rounded(took[len(took)-1]))
	return nil
}

// timesRecorded is how often recording is measured.
const timesRecorded = 21

func rounded(d time.Duration) time.Duration { return d.Round(100 * time.Microsecond) }

// recordOne records a reading at one of the openings of the latest tour, and
// works out what follows.
func recordOne(j *job, found *site.AsFound, i int) error {
	tour := found.Tours[len(found.Tours)-1]
	openings := slices.DeleteFunc(slices.Clone(found.Openings), func(o *installation.Opening) bool {
		return len(o.Cables) == 0 || found.BuildingOf(o.Thing).Thing != found.Panel(tour.Panels[0]).Building
	})
	if len(openings) == 0 {
		return errors.New("no opening to read at")
	}
	o := openings[i%len(openings)]
	at := func(w observation.Wire) observation.Point {
		return observation.Point{At: o.Thing, Cable: o.Cables[0].Tag, Wire: w}
	}
	_, err := j.Record(observation.Observation{Who: "bench", Stop: fmt.Sprint("bench-", i), Under: []observation.ID{tour.ID},
		Body: observation.Ohm{A: at(observation.Hot), B: at(observation.EGC), Reprobed: observation.Yes, Ohm: quantity.Resistance{Open: true}}})
	if err != nil {
		return err
	}
	_, err = j.AsFound()
	return err
}

// playedLines is the journal of a made-up job of four buildings.
func playedLines() ([][]byte, error) {
	start := time.Date(2026, 10, 5, 8, 0, 0, 0, time.UTC)
	people := scenario.People{Visits: scenario.TwoDays(start, scenario.Person{Name: "one", Share: 1}, scenario.Person{Name: "other", Share: 1}),
		Rates: scenario.Mistaken(), Costs: scenario.AssumedCosts(), Seed: 1}
	played, err := scenario.Play(scenario.Generate(1, scenario.FourPanels), people, scenario.HalfTour)
	if err != nil {
		return nil, err
	}
	var lines [][]byte
	err = played.Journal.Read(0, func(e journal.Entry) error {
		lines = append(lines, e.Raw)
		return nil
	})
	return lines, err
}

// fill makes a job of n observations: the lines as recorded by as many devices
// as it takes, each on a property of its own.
func fill(p *program, path string, lines [][]byte, n int) (err error) {
	store, err := sqlite.Open(path, p.now)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, store.Close()) }()
	for copied := 0; n > 0; copied++ {
		part, err := another(lines[:min(n, len(lines))], copied)
		if err != nil {
			return err
		}
		n -= len(part)
		merged, err := store.Merge(part)
		if err != nil {
			return err
		}
		if merged.Added != len(part) {
			return fmt.Errorf("fill job: %d of %d observations were kept", merged.Added, len(part))
		}
	}
	return nil
}

// another is the same journal as if another device had recorded it: its name in
// the place of the first one's, and the chain made anew.
func another(lines [][]byte, n int) ([][]byte, error) {
	var out [][]byte
	var prev string
	for _, line := range lines {
		first, err := observation.Decode(line)
		if err != nil {
			return nil, err
		}
		device := fmt.Sprintf("%0*d", len(first.ID.Device), n)
		e, err := observation.Decode(bytes.ReplaceAll(line, []byte(first.ID.Device), []byte(device)))
		if err != nil {
			return nil, err
		}
		e.Prev = prev
		raw, err := e.Encode()
		if err != nil {
			return nil, err
		}
		prev = journal.HashOf(raw).String()
		out = append(out, raw)
	}
	return out, nil
}
