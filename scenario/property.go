package scenario

import (
	"cmp"
	"fmt"
	"io"
	"slices"
	"sync"
	"time"

	"asfound/evidence"
	"asfound/pellam"
	"asfound/trace"
)

// PropertyOptions say what the benchmark of the demo property plays.
type PropertyOptions struct {
	Seeds int    // of people's mistakes; 0 is 10
	From  uint64 // the first of them
	Now   func() time.Time
}

// Property plays the whole of the demo property by its people, with their
// mistakes, once for each seed. It writes a row for each, beside what the two
// practices come to with the same mistakes, and what came out of each fault.
func Property(w io.Writer, o PropertyOptions) error {
	o.Seeds = cmp.Or(o.Seeds, 10)
	fmt.Fprintf(w, "Pellam Point, played to the end, %d seeds. Ways, instruments and mistakes are assumed.\n\n", o.Seeds)
	propertyHead(w)
	jobs := o.playAll(func(j propertyJob) { j.row(w, fmt.Sprint(j.seed), 1) })
	all := propertyJob{score: Score{Standing: map[evidence.Standing]int{}}}
	for _, j := range jobs {
		if j.err != nil {
			return j.err
		}
		all.add(j)
	}
	all.row(w, "all", len(jobs))
	fmt.Fprint(w, "Hours, of all people together, and seconds in the last row are a job's; the rest is counted over all.\n",
		"The practices name circuits and no more: they survey nothing, and number nothing. Without a name is what they take for dead though something reaches it.\n")
	fmt.Fprintf(w, "Boxes with two circuits put on one of them: %d one at a time, %d by a competent pair.\n\n", all.practices[OneAtATime].Joined, all.practices[CompetentPair].Joined)
	faultRows(w, jobs)
	return nil
}

// playAll plays all seeds and says of each, in their order, that it is done.
func (o PropertyOptions) playAll(done func(propertyJob)) []propertyJob {
	jobs := make([]propertyJob, o.Seeds)
	var lock sync.Mutex
	over, said := make([]bool, o.Seeds), 0
	each(o.Seeds, func(i int) {
		j := o.play(o.From + uint64(i))
		lock.Lock()
		defer lock.Unlock()
		jobs[i], over[i] = j, true
		for ; said < o.Seeds && over[said]; said++ {
			if jobs[said].err == nil {
				done(jobs[said])
			}
		}
	})
	return jobs
}

// propertyJob is what one seed came to.
type propertyJob struct {
	seed      uint64
	err       error
	score     Score
	reach     reach
	spent     Spent
	readings  int
	took      time.Duration
	practices [2]Practiced
	told      map[string]Tell
	faults    []pellam.Fault
}

// reach is how far people got: openings that a panel is named for, openings of
// which every cable was read and nothing reaches, and openings that nobody found.
type reach struct{ reached, unspliced, covered int }

func (o PropertyOptions) play(seed uint64) propertyJob {
	began := o.Now()
	world, err := NewPellamPoint()
	if err != nil {
		return propertyJob{err: err}
	}
	people := People{Visits: world.Visits(time.UTC, 0), Rates: Mistaken(), Costs: AssumedCosts(), Seed: seed}
	p, err := Play(world, people, EndOfJob)
	if err != nil {
		return propertyJob{err: err}
	}
	j := propertyJob{seed: seed, score: p.Score(), reach: p.reach(), spent: p.Spent, readings: p.Readings, took: o.Now().Sub(began),
		told: p.Told(), faults: world.Found.Faults}
	for _, which := range []Practice{OneAtATime, CompetentPair} {
		j.practices[which] = world.Practice(which, Mistaken(), seed)
	}
	return j
}

func (p *Played) reach() reach {
	var r reach
	found := map[int]bool{}
	for thing, box := range p.Box {
		lines := p.AsFound.Trace.At(thing)
		found[box] = true
		fed := func(l *trace.Line) bool {
			return firm(l) && (l.Source.Kind == trace.FromSpace || l.Source.Kind == trace.FromEnd)
		}
		dead := func(l *trace.Line) bool { return l.Silent || l.Source.Kind == trace.Nothing }
		switch {
		case slices.ContainsFunc(lines, fed):
			r.reached++
		case len(lines) > 0 && !slices.ContainsFunc(lines, func(l *trace.Line) bool { return !dead(l) }):
			r.unspliced++
		}
	}
	r.covered = len(p.View.Boxes) - len(found)
	return r
}

// propertyWidths are the widths of the columns.
var propertyWidths = []int{6, 9, 8, 9, 9, 8, 11, 7, 10, 9, 8, 8, 6, 8, 9, 7, 10, 9, 10, 7, 9, 10, 7, 9}

func propertyLine(w io.Writer, cells ...string) {
	line, begins := "", 0
	for i, c := range cells {
		if c != "" {
			line = fmt.Sprintf("%-*s%s", begins, line, c)
		}
		begins += propertyWidths[i]
	}
	fmt.Fprintln(w, line)
}

func propertyHead(w io.Writer) {
	propertyLine(w, "", "openings", "", "", "lines", "", "", "", "", "wrong", "", "hours", "", "", "", "", "readings", "seconds", "one at a time", "", "", "competent pair", "", "")
	propertyLine(w, "seed", "reached", "no", "covered", "settled", "likely", "undecided", "clash", "untested", "settled", "likely", "survey", "tour", "checks", "confirm", "all", "", "",
		"hours", "wrong", "no name", "hours", "wrong", "no name")
	propertyLine(w, "", "", "splice")
}

// row writes what a job came to, or n of them; hours are those of all people
// together.
func (j propertyJob) row(w io.Writer, name string, n int) {
	h := func(d time.Duration) string { return fmt.Sprintf("%.1f", d.Hours()/float64(n)) }
	cells := []string{name}
	for _, count := range []int{j.reach.reached, j.reach.unspliced, j.reach.covered, j.score.Standing[evidence.Settled], j.score.Standing[evidence.Likely],
		j.score.Standing[evidence.Undecided], j.score.Standing[evidence.Clash], j.score.Standing[evidence.Untested], len(j.score.WrongSettled), len(j.score.WrongLikely)} {
		cells = append(cells, fmt.Sprint(count))
	}
	for _, d := range []time.Duration{j.spent.Survey, j.spent.Tour, j.spent.Checks, j.spent.Confirm, j.spent.All()} {
		cells = append(cells, h(d))
	}
	cells = append(cells, fmt.Sprint(j.readings), fmt.Sprintf("%.0f", j.took.Seconds()/float64(n)))
	for _, p := range j.practices {
		cells = append(cells, fmt.Sprintf("%.1f", p.Hours()/float64(n)), fmt.Sprint(p.Wrong), fmt.Sprint(p.NoName))
	}
	propertyLine(w, cells...)
}

// add counts another job in.
func (j *propertyJob) add(x propertyJob) {
	j.reach.reached += x.reach.reached
	j.reach.unspliced += x.reach.unspliced
	j.reach.covered += x.reach.covered
	for k, n := range x.score.Standing {
		j.score.Standing[k] += n
	}
	j.score.WrongSettled = append(j.score.WrongSettled, x.score.WrongSettled...)
	j.score.WrongLikely = append(j.score.WrongLikely, x.score.WrongLikely...)
	j.spent = Spent{j.spent.Survey + x.spent.Survey, j.spent.Tour + x.spent.Tour, j.spent.Checks + x.spent.Checks, j.spent.Confirm + x.spent.Confirm}
	j.readings += x.readings
	j.took += x.took
	for i, p := range x.practices {
		q := &j.practices[i]
		q.People = p.People
		q.Elapsed += p.Elapsed
		q.Wrong += p.Wrong
		q.NoName += p.NoName
		q.Joined += p.Joined
	}
}

// faultRows writes what came out of each fault, in how many of the jobs, or what
// would show it.
func faultRows(out io.Writer, jobs []propertyJob) {
	told := 0
	var lead, apprentice, material float64
	for _, f := range jobs[0].faults {
		count, by := map[Tells]int{}, ""
		for _, j := range jobs {
			t := j.told[f.ID]
			count[t.Tells]++
			by = cmp.Or(by, t.By)
		}
		fmt.Fprintf(out, "%s  %s. %s: %s NFPA 70: %s. Finish opened: %s.\n     ", f.ID, f.Class, f.Where, f.What, f.Section, f.Finish)
		for _, t := range []Tells{Told, OnRecord, InNote, PlaceOnly, Untold} {
			if count[t] > 0 {
				fmt.Fprintf(out, "%s in %d of %d. ", t, count[t], len(jobs))
			}
		}
		for _, x := range [][2]string{{"By: ", by}, {"Would show it: ", f.Needs}} {
			if x[1] != "" {
				fmt.Fprint(out, x[0], x[1], ". ")
			}
		}
		fmt.Fprintln(out)
		if count[Told] == len(jobs) {
			told++
			lead, apprentice, material = lead+f.LeadHours, apprentice+f.ApprenticeHours, material+f.Material
		}
	}
	fmt.Fprintf(out, "\nTold in every job: %d of %d faults; to put those right takes %.1f lead hours, %.1f apprentice hours and $%.0f of material.\n",
		told, len(jobs[0].faults), lead, apprentice, material)
}
