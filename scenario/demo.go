package scenario

import (
	"fmt"
	"time"

	"asfound/evidence"
	"asfound/journal"
)

// Demo fills an empty journal with the demo job: Pellam Point, five buildings
// and 312 openings, two people half way through the dead tour, where readings
// clash. It holds the property's first two visits, moved so that the second was
// on the day of last, and keep their distance. Seeds of the people's mistakes are
// tried from seed upward until a clash stands, so that the same call makes the
// same job.
//
// The people record on a device of their own; its lines are merged into store.
func Demo(store journal.Store, last time.Time, seed uint64) (*Played, error) {
	const most = 20 // seeds to try
	w, err := NewPellamPoint()
	if err != nil {
		return nil, err
	}
	const played = 2 // visits
	shift := days(w.Work.Visits[played-1].Date, last)
	for s := seed; s < seed+most; s++ {
		people := People{Visits: w.Visits(last.Location(), shift)[:played], Rates: Mistaken(), Costs: AssumedCosts(), Seed: s}
		p, err := Play(w, people, HalfTour)
		if err != nil {
			return nil, err
		}
		if p.clashes() {
			return p, p.into(store)
		}
	}
	return nil, fmt.Errorf("make demo job: no clash in %d made-up jobs from seed %d", most, seed)
}

// days counts the days from one date to another, each where its clock runs.
func days(from, to time.Time) int {
	date := func(t time.Time) time.Time { return time.Date(t.Year(), t.Month(), t.Day(), 0, 0, 0, 0, time.UTC) }
	return int(date(to).Sub(date(from)).Hours() / 24)
}

// clashes reports whether a few lines clash and none that is settled is wrong.
func (p *Played) clashes() bool {
	n := p.AsFound.Trace.Standing()[evidence.Clash]
	return len(p.AsFound.Trace.Clashes) > 0 && n <= mostClashing && len(p.Score().WrongSettled) == 0
}

// mostClashing is how many lines may clash in the demo: more would hide the one
// that it opens with.
const mostClashing = 6

// into merges the journal of a played job into another.
func (p *Played) into(store journal.Store) error {
	var lines [][]byte
	err := p.Journal.Read(0, func(e journal.Entry) error {
		lines = append(lines, e.Raw)
		return nil
	})
	if err != nil {
		return fmt.Errorf("read made-up job: %w", err)
	}
	merged, err := store.Merge(lines)
	if err != nil {
		return fmt.Errorf("merge made-up job: %w", err)
	}
	if len(merged.Refused)+len(merged.Waiting)+len(merged.Forks) > 0 {
		return fmt.Errorf("merge made-up job: %d lines were not taken; is the journal empty?", len(merged.Refused)+len(merged.Waiting)+len(merged.Forks))
	}
	return nil
}
