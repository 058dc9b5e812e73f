package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"asfound/journal/sqlite"
	"asfound/observation"
	"asfound/site"
	"asfound/web"
)

// jobEnding is how the names of job files end.
const jobEnding = ".job"

// job is an open job: a file, its journal and the site folded from it.
type job struct {
	*site.Site
	name  string // the property, as the file is named
	path  string
	store *sqlite.Store
	small *prints // its photographs, for paper
}

// openStore opens the journal of a job that is there; one that is not is not
// made by mistyping its name.
func openStore(path string, now func() time.Time) (*sqlite.Store, error) {
	_, err := os.Stat(path)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, misuse{fmt.Sprintf("There is no job %s. Name one that is there, or make one: asfound serve FOLDER --new NAME.", path)}
	}
	if err != nil {
		return nil, fmt.Errorf("open job: %w", err)
	}
	return sqlite.Open(path, now)
}

// openJob opens a job and folds it.
func openJob(path string, now func() time.Time) (*job, error) {
	store, err := openStore(path, now)
	if err != nil {
		return nil, err
	}
	s, err := site.Open(store, now)
	if err != nil {
		return nil, errors.Join(err, store.Close())
	}
	return &job{Site: s, name: jobName(path), path: path, store: store, small: &prints{store: store}}, nil
}

// jobName is the name of the property that a file is named for.
func jobName(path string) string { return strings.TrimSuffix(filepath.Base(path), filepath.Ext(path)) }

// Record records an observation. A photograph that the server refused comes here
// with the refusal in place of its type, and goes back to its form.
func (j *job) Record(o observation.Observation) (observation.ID, error) {
	if photo, ok := o.Body.(observation.Photo); ok {
		if say, refused := refusals[photo.Type]; refused {
			return observation.ID{}, observation.Unusable{Field: "photo", Say: say}
		}
	}
	return j.Site.Record(o)
}

// shelf is the open jobs, each under its key.
type shelf struct {
	jobs []*job
	keys []string
}

// put adds a job under a key that no other has.
func (s *shelf) put(j *job) {
	key := plainKey(j.name)
	for n := 2; slices.Contains(s.keys, key); n++ {
		key = fmt.Sprintf("%s-%d", plainKey(j.name), n)
	}
	s.jobs, s.keys = append(s.jobs, j), append(s.keys, key)
}

// plainKey keeps letters and figures, so that a name can stand in an address.
func plainKey(name string) string {
	words := strings.FieldsFunc(strings.ToLower(name), func(r rune) bool {
		return (r < 'a' || r > 'z') && (r < '0' || r > '9')
	})
	if len(words) == 0 {
		return "job"
	}
	return strings.Join(words, "-")
}

// at is the job that an address belongs to; nil on the list of jobs.
func (s *shelf) at(path string) *job {
	if len(s.jobs) == 1 {
		return s.jobs[0]
	}
	first, _, _ := strings.Cut(strings.TrimPrefix(path, "/"), "/")
	for i, key := range s.keys {
		if key == first {
			return s.jobs[i]
		}
	}
	return nil
}

// pages makes the pages of the jobs; people are offered as names beside those
// on record.
func (s *shelf) pages(people []string) *web.Pages {
	var out []web.Job
	for i, j := range s.jobs {
		out = append(out, web.Job{Key: s.keys[i], Name: j.name, People: people,
			Site: j, Entries: j.store, Photos: j.store, Sheets: sheetsOf(j)})
	}
	return web.New(out...)
}

// close closes every journal.
func (s *shelf) close() error {
	var errs []error
	for _, j := range s.jobs {
		errs = append(errs, j.store.Close())
	}
	return errors.Join(errs...)
}
