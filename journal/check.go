package journal

import (
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"asfound/observation"
)

// Report is what Check found, in plain sentences.
type Report struct {
	Events  int64
	Devices int
	Photos  int      // photographs that events name
	Faults  []string // bytes are not what they were, or are gone
	Missing []string // photographs that other devices still hold
	Notes   []string // nothing lost, but to be known: forks, extra photographs, clocks
}

// Whole reports whether every byte is as it was recorded.
func (r Report) Whole() bool { return len(r.Faults) == 0 }

// String is the report as text, one sentence a line.
func (r Report) String() string {
	lines := []string{fmt.Sprintf("%s from %s, %s.", counted(r.Events, "observation"),
		counted(int64(r.Devices), "phone or laptop"), counted(int64(r.Photos), "photograph"))}
	if r.Whole() {
		lines = append(lines, "Every chain of observations is whole.")
	}
	lines = slices.Concat(lines, r.Faults, r.Missing, r.Notes)
	return strings.Join(lines, "\n") + "\n"
}

func counted(n int64, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %s", n, strings.ReplaceAll(what, " or ", "s or ")+"s")
}

// Check reads the whole journal and says whether every event has its place, its
// hash and its link to the one before, and every photograph its bytes. The error
// is for a store that cannot be read at all.
func Check(s Store) (Report, error) {
	c := checking{store: s, tails: map[string]observation.Event{}, hashes: map[string]Hash{}, photos: map[string]observation.ID{}}
	if own, ok := s.(interface{ CheckFile() ([]string, error) }); ok {
		faults, err := own.CheckFile()
		if err != nil {
			return Report{}, err
		}
		c.Faults = append(c.Faults, faults...)
	}
	err := s.Read(0, func(e Entry) error {
		c.entry(e)
		return nil
	})
	if err != nil {
		return c.Report, err
	}
	c.Devices, c.Photos = len(c.tails), len(c.photos)
	return c.Report, errors.Join(c.marks(), c.forks(), c.blobs())
}

type checking struct {
	Report
	store  Store
	tails  map[string]observation.Event
	hashes map[string]Hash
	photos map[string]observation.ID // hash → the event that names it
}

func (c *checking) fault(format string, args ...any) {
	c.Faults = append(c.Faults, fmt.Sprintf(format, args...))
}

func (c *checking) note(format string, args ...any) {
	c.Notes = append(c.Notes, fmt.Sprintf(format, args...))
}

func (c *checking) entry(e Entry) {
	c.Events++
	if e.Position != c.Events {
		c.fault("Observation %d stands where number %d belongs: one is gone.", e.Position, c.Events)
		c.Events = e.Position
	}
	event, say := Decode(e.Raw)
	if say != "" {
		c.fault("Observation %d cannot be read: it was changed.", e.Position)
		return
	}
	if HashOf(e.Raw) != e.Hash {
		c.fault("Observation %s is not what was recorded: its hash is another.", event.ID)
	}
	c.chain(event)
	c.tails[event.Device], c.hashes[event.Device] = event, HashOf(e.Raw)
	if event.Body == nil {
		c.note("Observation %s, kind %s, needs a newer program. It is kept.", event.ID, event.Kind)
	}
	if photo, ok := event.Body.(observation.Photo); ok {
		c.photos[photo.Hash] = event.ID
	}
}

// chain compares an event with the one of its device before.
func (c *checking) chain(event observation.Event) {
	before := c.tails[event.Device]
	tail := Tail{Seq: before.Seq, Hash: c.hashes[event.Device]}
	switch {
	case event.Seq != before.Seq+1:
		c.fault("Observation %s follows number %d of its phone: one is gone or out of order.", event.ID, before.Seq)
	case event.Prev != prevOf(tail):
		c.fault("Observation %s does not follow the one before it: one of the two was changed.", event.ID)
	case event.HLC <= before.HLC:
		c.note("The clock of observation %s is not later than that of the one before it.", event.ID)
	}
}

func (c *checking) marks() error {
	marks, err := c.store.Marks()
	if err != nil {
		return err
	}
	for dev, event := range c.tails {
		if marks[dev] != event.Seq {
			c.fault("Phone %s is marked as held to number %d, but its last observation is %d.", dev, marks[dev], event.Seq)
		}
	}
	return nil
}

func (c *checking) forks() error {
	forks, err := c.store.Forks()
	if err != nil {
		return err
	}
	for _, f := range forks {
		if HashOf(f.Raw) != f.Hash {
			c.fault("The line kept aside as %s is not what was received: its hash is another.", f.ID)
		}
		c.note("A second observation bears the number %s. It is kept aside and not counted: two phones recorded under one name.", f.ID)
	}
	return nil
}

func (c *checking) blobs() error {
	held, err := c.store.Blobs()
	if err != nil {
		return err
	}
	for _, hash := range held {
		if err := c.blob(hash); err != nil {
			return err
		}
	}
	for hash, id := range c.photos {
		if _, here := slices.BinarySearch(held, hash); !here {
			c.Missing = append(c.Missing, fmt.Sprintf("The photograph of observation %s is not here yet: it is on phone %s.", id, id.Device))
		}
	}
	slices.Sort(c.Missing)
	return nil
}

func (c *checking) blob(hash string) error {
	r, err := c.store.Blob(hash)
	if err != nil {
		return err
	}
	defer r.Close()
	sum := sha256.New()
	if _, err := io.Copy(sum, r); err != nil {
		return err
	}
	id, named := c.photos[hash]
	whole := Hash(sum.Sum(nil)).String() == hash
	switch {
	case named && !whole:
		c.fault("The photograph of observation %s is not the one that was taken: its bytes were changed.", id)
	case !named && !whole:
		c.fault("The photograph %s, which no observation names, is not what was kept: its bytes were changed.", hash)
	case !named:
		c.note("No observation names the photograph %s. It is kept.", hash)
	}
	return nil
}
