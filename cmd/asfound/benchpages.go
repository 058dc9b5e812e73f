package main

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"maps"
	"net"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"time"

	"asfound/installation"
	"asfound/journal/sqlite"
	"asfound/observation"
	"asfound/scenario"
)

type benchPagesCommand struct {
	Observations int    `default:"10000" help:"Observations of the demo job: every reading is taken again until there are so many."`
	Seed         uint64 `default:"3" help:"Another number makes up other mistakes."`
	Most         int    `default:"25" help:"Pages of one sort to ask for."`
}

// What pages are to take of the server's time.
const (
	pageTarget = 20 * time.Millisecond
	nextTarget = 50 * time.Millisecond
)

// Help is an example.
func (benchPagesCommand) Help() string { return "Example: asfound bench pages" }

// Run plays the demo job, grows it, follows every link and prints how long the
// server took over each sort of page, and over the next step after a reading.
func (c benchPagesCommand) Run(p *program) (err error) {
	folder, err := os.MkdirTemp("", "asfound-bench-")
	if err != nil {
		return fmt.Errorf("make folder: %w", err)
	}
	defer func() { err = errors.Join(err, os.RemoveAll(folder)) }()
	j, err := grownDemo(p, filepath.Join(folder, demoName+jobEnding), c.Seed, c.Observations)
	if err != nil {
		return err
	}
	b, err := openBooth(p, j)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, b.close()) }()
	walk := follower{booth: b, most: c.Most}
	if err := walk.follow(); err != nil {
		return err
	}
	walk.print(p)
	return c.next(p, j, b)
}

// next measures the page of the next step, each time after one more reading.
func (c benchPagesCommand) next(p *program, j *job, b *booth) error {
	var took []time.Duration
	for i := range timesRecorded {
		found, err := j.AsFound()
		if err != nil {
			return err
		}
		if err := recordOne(j, found, i); err != nil {
			return err
		}
		_, d, err := b.ask("/")
		if err != nil {
			return err
		}
		took = append(took, d)
	}
	found, err := j.AsFound()
	if err != nil {
		return err
	}
	slices.Sort(took)
	fmt.Fprintf(p.out, "next\t%d observations\tmedian of %d\t%s\tlongest %s\ttarget %s\n",
		found.Events, len(took), rounded(took[len(took)/2]), rounded(took[len(took)-1]), nextTarget)
	return nil
}

// grownDemo is the demo job on disk, with each reading of it taken again by
// somebody else until it has n observations.
func grownDemo(p *program, path string, seed uint64, n int) (*job, error) {
	p.say("Making up the demo job ...")
	store, err := sqlite.Open(path, p.now)
	if err != nil {
		return nil, err
	}
	_, err = scenario.Demo(store, demoDay(p.now()), seed)
	if err := errors.Join(err, store.Close()); err != nil {
		return nil, err
	}
	j, err := openJob(path, p.now)
	if err != nil {
		return nil, err
	}
	if err := grow(j, n); err != nil {
		return nil, errors.Join(err, j.store.Close())
	}
	return j, nil
}

// grow takes every reading of a job again until it has n observations.
func grow(j *job, n int) error {
	found, err := j.AsFound()
	if err != nil {
		return err
	}
	for round, have := 0, found.Events; have < n; round++ {
		before := have
		for _, o := range found.Openings {
			for _, again := range secondVisit(o, round) {
				if have == n {
					return nil
				}
				if _, err := j.Record(again); err != nil {
					return err
				}
				have++
			}
		}
		if have == before {
			return errors.New("the demo job has no reading to take again")
		}
	}
	return nil
}

// secondVisit is what was read at an opening, read again by somebody else.
func secondVisit(o *installation.Opening, round int) []observation.Observation {
	var out []observation.Observation
	for i, s := range o.Stops {
		for _, e := range slices.Concat(s.Letters, s.Ohms) {
			again := e.Observation
			again.Who, again.Stop, again.Seen = "Dell Amoah", fmt.Sprintf("again-%s-%d-%d", o.Thing, i, round), nil
			out = append(out, again)
		}
	}
	return out
}

// follower asks for every page that links lead to.
type follower struct {
	booth *booth
	most  int                        // pages of one sort
	took  map[string][]time.Duration // by sort of page
}

var links = regexp.MustCompile(`href="([^"#]+)"`)

// follow begins at the next step; each page is asked for twice, and the second
// time counts, as somebody's who goes back and forth on a warm server.
func (f *follower) follow() error {
	f.took = map[string][]time.Duration{}
	queue, met := []string{"/"}, map[string]bool{"/": true}
	for len(queue) > 0 {
		path, sort := queue[0], sortOf(queue[0])
		queue = queue[1:]
		if len(f.took[sort]) == f.most {
			continue
		}
		body, _, err := f.booth.ask(path)
		if err != nil {
			return err
		}
		_, again, err := f.booth.ask(path)
		if err != nil {
			return err
		}
		f.took[sort] = append(f.took[sort], again)
		for _, m := range links.FindAllStringSubmatch(body, -1) {
			next := "/" + strings.TrimLeft(strings.ReplaceAll(m[1], "&amp;", "&"), "./")
			if !met[next] && isPage(next) {
				met[next] = true
				queue = append(queue, next)
			}
		}
	}
	return nil
}

// isPage leaves out what is no page: scripts, pictures and files of sheets.
func isPage(path string) bool {
	return !strings.Contains(path, "://") && !strings.HasPrefix(path, "/assets/") && !strings.HasPrefix(path, "/photo/") &&
		!(strings.HasPrefix(path, "/sheet/") && strings.Count(path, "/") > 2)
}

// sortOf is the first part of an address.
func sortOf(path string) string {
	sort, _, _ := strings.Cut(strings.TrimPrefix(path, "/"), "/")
	sort, _, _ = strings.Cut(sort, "?")
	return cmp.Or(sort, "next")
}

func (f *follower) print(p *program) {
	var all []time.Duration
	for _, sort := range slices.Sorted(maps.Keys(f.took)) {
		took := f.took[sort]
		slices.Sort(took)
		all = append(all, took...)
		fmt.Fprintf(p.out, "page\t%s\t%d\tmedian %s\tlongest %s\n", sort, len(took), rounded(took[len(took)/2]), rounded(took[len(took)-1]))
	}
	slices.Sort(all)
	fmt.Fprintf(p.out, "pages\t%d\tmedian %s\tlongest %s\ttarget %s\n", len(all), rounded(all[len(all)/2]), rounded(all[len(all)-1]), pageTarget)
}

// booth is the real server on a job, on a port of its own, and a browser.
type booth struct {
	jobs   *shelf
	server *http.Server
	client *http.Client
	root   string
}

func openBooth(p *program, j *job) (*booth, error) {
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		return nil, fmt.Errorf("listen: %w", err)
	}
	b := &booth{jobs: &shelf{}, root: "http://" + listener.Addr().String()}
	b.jobs.put(j)
	b.server = &http.Server{Handler: newAdapter(b.jobs, scenario.Crew(), p.now), ReadHeaderTimeout: headTime}
	b.client = &http.Client{Transport: &http.Transport{MaxIdleConnsPerHost: 100},
		CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }}
	go b.server.Serve(listener) //nolint:errcheck // ends with close
	return b, nil
}

func (b *booth) close() error { return errors.Join(stop(b.server), b.jobs.close()) }

// ask asks for a page as Marit, and says how long it took to come.
func (b *booth) ask(path string) (body string, took time.Duration, err error) {
	r, err := http.NewRequest(http.MethodGet, b.root+path, nil)
	if err != nil {
		return "", 0, err
	}
	return b.send(r, scenario.Crew()[0])
}

// post sends a form as somebody.
func (b *booth) post(path, who string, form url.Values) (took time.Duration, err error) {
	r, err := http.NewRequest(http.MethodPost, b.root+path, strings.NewReader(form.Encode()))
	if err != nil {
		return 0, err
	}
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	_, took, err = b.send(r, who)
	return took, err
}

func (b *booth) send(r *http.Request, who string) (body string, took time.Duration, err error) {
	r.AddCookie(&http.Cookie{Name: whoCookie, Value: url.QueryEscape(who)})
	began := time.Now()
	got, err := b.client.Do(r)
	if err != nil {
		return "", 0, err
	}
	raw, err := io.ReadAll(got.Body)
	took = time.Since(began)
	if err := errors.Join(err, got.Body.Close()); err != nil {
		return "", took, err
	}
	if got.StatusCode >= http.StatusBadRequest {
		return "", took, fmt.Errorf("%s %s: answered with %d", r.Method, r.URL.Path, got.StatusCode)
	}
	return string(raw), took, nil
}
