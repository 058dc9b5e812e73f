package main

import (
	"errors"
	"fmt"
	"maps"
	"math/rand/v2"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"sync"
	"time"

	"asfound/installation"
	"asfound/journal"
	"asfound/observation"
	"asfound/scenario"
	"asfound/site"
)

type benchLoadCommand struct {
	Readers   int           `default:"50" help:"Browsers that look at pages."`
	Recorders int           `default:"5" help:"Browsers that enter readings."`
	For       time.Duration `default:"1m" help:"How long."`
	Rest      time.Duration `default:"1s" help:"How long each looks at a page before the next."`
	Seed      uint64        `default:"3" help:"Another number makes up other mistakes."`
}

// Help is an example.
func (benchLoadCommand) Help() string { return "Example: asfound bench load --for 20s" }

// Run lets many people work on the demo job at once, and prints how long they
// waited, what failed, and whether every reading that was acknowledged is kept.
func (c benchLoadCommand) Run(p *program) (err error) {
	folder, err := os.MkdirTemp("", "asfound-bench-")
	if err != nil {
		return fmt.Errorf("make folder: %w", err)
	}
	defer func() { err = errors.Join(err, os.RemoveAll(folder)) }()
	j, err := grownDemo(p, filepath.Join(folder, demoName+jobEnding), c.Seed, 0)
	if err != nil {
		return err
	}
	b, err := openBooth(p, j)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, b.close()) }()
	found, err := j.AsFound()
	if err != nil {
		return err
	}
	p.say("%d look at pages and %d enter readings for %s ...", c.Readers, c.Recorders, c.For)
	var looked, kept tally
	c.crowd(b, found, &looked, &kept)
	looked.print(p, "look")
	kept.print(p, "keep")
	held, err := ohmsSince(j, found.Revision)
	if err != nil {
		return err
	}
	fmt.Fprintf(p.out, "kept\t%d acknowledged\t%d in the journal\n", len(kept.took), held)
	if failed := len(looked.failed) + len(kept.failed); failed > 0 || held < len(kept.took) {
		return fmt.Errorf("%d requests failed; %d readings of %d are kept", failed, held, len(kept.took))
	}
	return nil
}

// crowd lets everybody work until the time is over.
func (c benchLoadCommand) crowd(b *booth, found *site.AsFound, looked, kept *tally) {
	until := time.Now().Add(c.For)
	paths := somePages(found)
	var people sync.WaitGroup
	for i := range c.Readers {
		people.Go(func() {
			luck := rand.New(rand.NewPCG(c.Seed, uint64(i)))
			for time.Now().Before(until) {
				time.Sleep(time.Duration(luck.Float64() * 2 * float64(c.Rest)))
				_, took, err := b.ask(paths[luck.IntN(len(paths))])
				looked.add(took, err)
			}
		})
	}
	for i := range c.Recorders {
		people.Go(func() {
			luck := rand.New(rand.NewPCG(c.Seed, uint64(1000+i)))
			who := scenario.Crew()[i%len(scenario.Crew())]
			for time.Now().Before(until) {
				time.Sleep(time.Duration(luck.Float64() * 2 * float64(c.Rest)))
				took, err := readAgain(b, found, who, luck)
				kept.add(took, err)
			}
		})
	}
	people.Wait()
}

// somePages are the pages that people look at most.
func somePages(found *site.AsFound) []string {
	out := []string{"/", "/property", "/panels", "/trace", "/journal", "/papers"}
	for _, x := range found.Buildings {
		out = append(out, "/building/"+string(x.Thing))
	}
	for _, x := range found.Rooms {
		out = append(out, "/room/"+string(x.Thing))
	}
	for _, x := range found.Panels {
		out = append(out, "/panel/"+string(x.Thing))
	}
	for _, x := range found.Openings {
		out = append(out, "/opening/"+string(x.Thing))
	}
	return out
}

var hidden = regexp.MustCompile(`name="(stop|reading)" value="([^"]*)"`)

// readAgain opens the page of an opening as a new visit and enters what was read
// there before, as a person would.
func readAgain(b *booth, found *site.AsFound, who string, luck *rand.Rand) (time.Duration, error) {
	tour := found.Tours[len(found.Tours)-1]
	var read []*installation.Opening
	for _, o := range found.Openings {
		if o.ReadUnder(tour.ID) {
			read = append(read, o)
		}
	}
	o := read[luck.IntN(len(read))]
	path := "/tour/" + tour.ID.String() + "/" + string(o.Thing)
	page, looked, err := b.ask(path + "?again=yes")
	if err != nil {
		return looked, err
	}
	form := url.Values{"who": {who}}
	for _, m := range hidden.FindAllStringSubmatch(page, -1) {
		form.Set(m[1], m[2])
	}
	ohm := o.Stops[0].Ohms[0].Body.(observation.Ohm).Ohm
	if ohm.Open {
		form.Set("answer", "open")
	} else {
		form.Set("ohm", fmt.Sprintf("%.0f", float64(ohm.Ohm)))
	}
	took, err := b.post(path, who, form)
	return looked + took, err
}

// ohmsSince counts the readings in a job's journal after a revision.
func ohmsSince(j *job, revision int64) (int, error) {
	n := 0
	err := j.store.Read(revision, func(e journal.Entry) error {
		if _, ok := e.Event.Body.(observation.Ohm); ok {
			n++
		}
		return nil
	})
	return n, err
}

// tally is what became of many requests.
type tally struct {
	mu     sync.Mutex
	took   []time.Duration
	failed map[string]int
}

func (t *tally) add(took time.Duration, err error) {
	t.mu.Lock()
	defer t.mu.Unlock()
	if err == nil {
		t.took = append(t.took, took)
		return
	}
	if t.failed == nil {
		t.failed = map[string]int{}
	}
	t.failed[err.Error()]++
}

func (t *tally) print(p *program, what string) {
	slices.Sort(t.took)
	at := func(share float64) time.Duration {
		if len(t.took) == 0 {
			return 0
		}
		return rounded(t.took[int(share*float64(len(t.took)-1))])
	}
	fmt.Fprintf(p.out, "%s\t%d\tmedian %s\t95 %% within %s\tlongest %s\tfailed %d\n", what, len(t.took), at(0.5), at(0.95), at(1), len(t.failed))
	for _, say := range slices.Sorted(maps.Keys(t.failed)) {
		fmt.Fprintf(p.out, "failed\t%d\t%s\n", t.failed[say], say)
	}
}
