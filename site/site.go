// Package site is the one door to a job: record an observation, and ask for the
// site as found. Behind it the journal keeps, the installation folds, and trace
// works out what follows.
//
// An AsFound belongs to one journal state and is never changed, so that a page,
// a sheet and a test made from it show the same. The package holds no rule of
// its own; start with Site.Record and Site.AsFound.
package site

import (
	"fmt"
	"slices"
	"strings"
	"sync"
	"time"

	"asfound/evidence"
	"asfound/installation"
	"asfound/journal"
	"asfound/observation"
	"asfound/trace"
)

// Journal is what a site needs of a journal.
type Journal interface {
	Append(observation.Observation) (journal.Entry, error)
	Read(after int64, each func(journal.Entry) error) error
	Marks() (map[string]uint64, error)
}

// Site is an open job. It may be used by several goroutines at once.
type Site struct {
	journal Journal
	now     func() time.Time

	mu     sync.Mutex
	fold   *installation.Fold
	tracer *trace.Tracer
	marks  map[string]uint64
	upTo   int64
	walls  []time.Time // when each event was recorded, by position from 1
	last   *AsFound
	before []*AsFound // earlier ones asked for, the latest asked last
}

// AsFound is the site at one journal state.
type AsFound struct {
	*installation.Installation
	Trace    *trace.Trace
	Revision int64     // position in this journal up to which events were read
	State    string    // short text of the journal state, as printed on sheets
	Taken    time.Time // when it was asked for
}

// Open folds what a journal holds. The clock now is that of this device.
func Open(j Journal, now func() time.Time) (*Site, error) {
	s := &Site{journal: j, now: now, fold: installation.NewFold(), tracer: trace.NewTracer(), marks: map[string]uint64{}}
	if err := s.catchUp(); err != nil {
		return nil, err
	}
	return s, nil
}

// Record checks an observation and keeps it. When it returns without an error
// the observation is durable. What cannot be used comes back as an
// observation.Unusable naming the field.
func (s *Site) Record(o observation.Observation) (observation.ID, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if err := o.Check(s.now()); err != nil {
		return observation.ID{}, err
	}
	if err := s.catchUp(); err != nil {
		return observation.ID{}, err
	}
	if err := s.fold.Admit(o); err != nil {
		return observation.ID{}, err
	}
	entry, err := s.journal.Append(o)
	if err != nil {
		return observation.ID{}, fmt.Errorf("record %s: %w", o.Body.Kind(), err)
	}
	return entry.Event.ID, nil // kept; what follows is for the next who asks
}

// AsFound gives the site as all events so far describe it.
func (s *Site) AsFound() (*AsFound, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if err := s.catchUp(); err != nil {
		return nil, err
	}
	if s.last == nil || s.last.Revision != s.upTo {
		s.last = s.asFound(s.fold, s.tracer, s.marks, s.upTo)
	}
	return s.last, nil
}

// AsFoundAt gives the site as it was at an earlier revision of this journal.
func (s *Site) AsFoundAt(revision int64) (*AsFound, error) {
	if a := s.held(revision); a != nil {
		return a, nil
	}
	fold, marks, upTo := installation.NewFold(), map[string]uint64{}, int64(0)
	err := s.journal.Read(0, func(e journal.Entry) error {
		if e.Position <= revision {
			fold.Add(e.Event)
			marks[e.Event.Device] = max(marks[e.Event.Device], e.Event.Seq)
			upTo = e.Position
		}
		return nil
	})
	if err != nil {
		return nil, fmt.Errorf("read journal up to %d: %w", revision, err)
	}
	a := s.asFound(fold, trace.NewTracer(), marks, upTo)
	s.hold(a)
	return a, nil
}

// mostHeld is how many earlier states are kept in memory: those of two days, and
// of two printed sheets.
const mostHeld = 6

func (s *Site) held(revision int64) *AsFound {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.last != nil && s.last.Revision == revision {
		return s.last
	}
	for _, a := range s.before {
		if a.Revision == revision {
			return a
		}
	}
	return nil
}

func (s *Site) hold(a *AsFound) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.before = append(s.before, a)
	if len(s.before) > mostHeld {
		s.before = slices.Delete(s.before, 0, 1)
	}
}

// Between gives the site before the first entry that was recorded at or after
// from, and after the last recorded before to. Entries of other devices count
// when they reached this one, so that after may hold more than was recorded by
// then.
func (s *Site) Between(from, to time.Time) (before, after *AsFound, err error) {
	first, last, err := s.recorded(from, to)
	if err != nil {
		return nil, nil, err
	}
	if before, err = s.AsFoundAt(first); err == nil {
		after, err = s.AsFoundAt(last)
	}
	return before, after, err
}

// recorded finds the revisions before and after what was recorded from one time
// to another.
func (s *Site) recorded(from, to time.Time) (first, last int64, err error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if err := s.catchUp(); err != nil {
		return 0, 0, err
	}
	first = int64(len(s.walls))
	for i, wall := range s.walls {
		if !wall.Before(from) {
			first = min(first, int64(i))
		}
		if wall.Before(to) {
			last = int64(i + 1)
		}
	}
	return first, max(first, last), nil
}

func (s *Site) asFound(fold *installation.Fold, tracer *trace.Tracer, marks map[string]uint64, upTo int64) *AsFound {
	in := fold.Installation()
	return &AsFound{Installation: in, Trace: tracer.Trace(in), Revision: upTo, State: journal.State(marks), Taken: s.now()}
}

// catchUp reads what the journal holds beyond what is folded.
func (s *Site) catchUp() error {
	err := s.journal.Read(s.upTo, func(e journal.Entry) error {
		s.fold.Add(e.Event)
		s.marks[e.Event.Device] = max(s.marks[e.Event.Device], e.Event.Seq)
		s.upTo = e.Position
		s.walls = append(s.walls, e.Event.Wall)
		return nil
	})
	if err != nil {
		return fmt.Errorf("read journal: %w", err)
	}
	return nil
}

// Event returns an event of the journal with what became of it.
func (s *Site) Event(id observation.ID) (installation.Entry, bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.fold.Event(id)
}

// Fell is a line that stands less firmly than before.
type Fell struct {
	Before, After *trace.Line // After is nil when nothing is left of it
}

// Fallen lists the lines that stand less firmly in after than in before, or
// have another answer.
func Fallen(before, after *AsFound) []Fell {
	var out []Fell
	for _, old := range before.Trace.Lines {
		now := after.Trace.Line(old.End)
		if now == nil {
			out = append(out, Fell{Before: old})
		} else if firmness(now) < firmness(old) || now.Verdict.Best.Key != old.Verdict.Best.Key {
			out = append(out, Fell{old, now})
		}
	}
	return out
}

// firmness orders standings, a clash below all but untested.
func firmness(l *trace.Line) int {
	return slices.Index([]evidence.Standing{evidence.Untested, evidence.Clash, evidence.Undecided, evidence.Likely, evidence.Settled}, l.Verdict.Standing)
}

// Revision finds the revision of this journal at which its state was as printed
// on a sheet; it may be asked for with AsFoundAt. Of a state's letters alone it
// is the latest revision whose state has them. A state of another journal, or one
// reached in another order, is not found.
func (s *Site) Revision(state string) (revision int64, found bool, err error) {
	marks := map[string]uint64{}
	letters := !strings.Contains(state, "-")
	err = s.journal.Read(0, func(e journal.Entry) error {
		marks[e.Event.Device] = max(marks[e.Event.Device], e.Event.Seq)
		if found && !letters {
			return nil
		}
		now := journal.State(marks)
		if now == state || letters && state != "" && strings.HasPrefix(now, state+"-") {
			revision, found = e.Position, true
		}
		return nil
	})
	if err != nil {
		return 0, false, fmt.Errorf("look for state %s: %w", state, err)
	}
	return revision, found, nil
}
