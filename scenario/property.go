package scenario

import (
	"cmp"
	"fmt"
	"io"
	"slices"
	"text/tabwriter"
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
	jobs := make([]propertyJob, o.Seeds)
	each(o.Seeds, func(i int) { jobs[i] = o.play(o.From + uint64(i)) })
	for _, j := range jobs {
		if j.err != nil {
			return j.err
		}
	}
	fmt.Fprintf(w, "Pellam Point, played to the end, %d seeds. Ways, instruments and mistakes are assumed.\n\n", o.Seeds)
	propertyRows(w, jobs)
	fmt.Fprintln(w)
	faultRows(w, jobs)
	return nil
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

// propertyRows writes a row for each seed, and one for all.
func propertyRows(out io.Writer, jobs []propertyJob) {
	w := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	fmt.Fprintln(w, "seed\topenings\tnot\tcovered\tsettled\tlikely\tundecided\tclash\tuntested\twrong\twrong\tsurvey\ttour\tchecks\tconfirm\tall\treadings\tseconds\tone at a time\t\t\tcompetent pair")
	fmt.Fprintln(w, "\treached\tspliced\t\t\t\t\t\t\tsettled\tlikely\tperson-h\t\t\t\t\t\t\tperson-h\twrong\tno name\tperson-h\twrong\tno name")
	row := func(name string, j propertyJob, n int) {
		s, k := j.score, j.spent
		h := func(d time.Duration) string { return fmt.Sprintf("%.1f", d.Hours()/float64(n)) }
		fmt.Fprintf(w, "%s\t%d\t%d\t%d\t%d\t%d\t%d\t%d\t%d\t%d\t%d\t%s\t%s\t%s\t%s\t%s\t%d\t%.0f", name, j.reach.reached, j.reach.unspliced, j.reach.covered,
			s.Standing[evidence.Settled], s.Standing[evidence.Likely], s.Standing[evidence.Undecided], s.Standing[evidence.Clash], s.Standing[evidence.Untested],
			len(s.WrongSettled), len(s.WrongLikely), h(k.Survey), h(k.Tour), h(k.Checks), h(k.Confirm), h(k.All()), j.readings, j.took.Seconds()/float64(n))
		for _, x := range j.practices {
			fmt.Fprintf(w, "\t%.1f\t%d\t%d", x.Hours()/float64(n), x.Wrong, x.NoName)
		}
		fmt.Fprintln(w)
	}
	all := propertyJob{score: Score{Standing: map[evidence.Standing]int{}}}
	for _, j := range jobs {
		row(fmt.Sprint(j.seed), j, 1)
		all.add(j)
	}
	row("all", all, len(jobs))
	w.Flush()
	fmt.Fprintln(out, "Hours and seconds in the last row are a job's, the rest is counted over all.")
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
	}
}

// faultRows writes what came out of each fault, in how many of the jobs, or what
// would show it.
func faultRows(out io.Writer, jobs []propertyJob) {
	w := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	fmt.Fprintln(w, "fault\tclass\twhere\ttold\ton record\tin a note\tplace only\tuntold\tby\twould show it")
	told := 0
	var lead, apprentice, material float64
	for _, f := range jobs[0].faults {
		count, by := map[Tells]int{}, ""
		for _, j := range jobs {
			t := j.told[f.ID]
			count[t.Tells]++
			by = cmp.Or(by, t.By)
		}
		fmt.Fprintf(w, "%s\t%s\t%s\t%d\t%d\t%d\t%d\t%d\t%s\t%s\n", f.ID, f.Class, f.Where, count[Told], count[OnRecord], count[InNote], count[PlaceOnly],
			count[Untold], by, f.Needs)
		if count[Told] == len(jobs) {
			told++
			lead, apprentice, material = lead+f.LeadHours, apprentice+f.ApprenticeHours, material+f.Material
		}
	}
	w.Flush()
	fmt.Fprintf(out, "\nTold in every job: %d of %d faults; to put those right takes %.1f lead hours, %.1f apprentice hours and $%.0f of material.\n",
		told, len(jobs[0].faults), lead, apprentice, material)
}
