package scenario

import (
	"cmp"
	"fmt"
	"io"
	"runtime"
	"slices"
	"sync"
	"time"

	"asfound/evidence"
)

// Options say what the benchmark runs.
type Options struct {
	Jobs     int       // made-up jobs for each rate; 0 is 200
	Misreads []float64 // chances that an ohm reading at an opening is wrong; none is 0, 1 and 2 %
	Mistakes bool      // run each rate once more with people's mistakes besides
	First    uint64    // seed of the first job
}

// Trace runs the tracing benchmark (dead tour, two readings, one person, made-up
// jobs, assumed costs) and writes its table, with the targets it must meet.
func Trace(w io.Writer, o Options) error {
	o.Jobs = cmp.Or(o.Jobs, 200)
	if len(o.Misreads) == 0 {
		o.Misreads = []float64{0, 0.01, 0.02}
	}
	fmt.Fprintf(w, "Tracing, dead tour, two readings, one person, %d jobs a row.\nCosts are assumed; checks (letters, marks, read-backs) and confirmations (second visits) stand apart.\n\n", o.Jobs)
	fmt.Fprintln(w, "misread  mistakes  hours [5-95 %]      checks  confirm  readings  wrong     wrong    unre-    lines    joined  foreign  dead")
	fmt.Fprintln(w, "                                       min     min      /opening  labels    settled  solved   settled  found   found    found")
	var plain []summary
	for _, mistakes := range []bool{false, true} {
		if mistakes && !o.Mistakes {
			break
		}
		for _, misread := range o.Misreads {
			s, err := o.row(misread, mistakes)
			if err != nil {
				return err
			}
			s.print(w)
			if !mistakes {
				plain = append(plain, s)
			}
		}
	}
	fmt.Fprintln(w)
	for _, s := range plain {
		s.targets(w)
	}
	return nil
}

// row plays all jobs of one rate, as many at once as there are processors.
func (o Options) row(misread float64, mistakes bool) (summary, error) {
	results := make([]result, o.Jobs)
	each(o.Jobs, func(i int) { results[i] = benchJob(o.First+uint64(i), misread, mistakes) })
	s := summary{misread: misread, mistakes: mistakes, settled: map[evidence.Standing]int{}}
	for _, r := range results {
		if r.err != nil {
			return s, r.err
		}
		s.add(r)
	}
	return s, nil
}

// each does n things, as many at once as there are processors.
func each(n int, do func(i int)) {
	jobs := make(chan int)
	var team sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		team.Go(func() {
			for i := range jobs {
				do(i)
			}
		})
	}
	for i := range n {
		jobs <- i
	}
	close(jobs)
	team.Wait()
}

// result is one job's score and what it took.
type result struct {
	score    Score
	spent    Spent
	readings int
	err      error
}

// benchStart is some morning: the benchmark's times mean nothing but their
// differences.
var benchStart = time.Date(2027, 1, 19, 8, 0, 0, 0, time.UTC)

func benchJob(seed uint64, misread float64, mistakes bool) result {
	people := People{Visits: TwoDays(benchStart, Person{Name: "one person", Share: 1}), Costs: AssumedCosts(), Seed: seed, Misread: misread}
	if mistakes {
		people.Rates = Mistaken()
	}
	p, err := Play(Generate(seed, FourPanels), people, EndOfJob)
	if err != nil {
		return result{err: err}
	}
	return result{score: p.Score(), spent: p.Spent, readings: p.Readings}
}

// summary adds up the jobs of a row.
type summary struct {
	misread               float64
	mistakes              bool
	hours                 []float64
	checks, confirm       []float64 // minutes
	perOpening            []float64
	openings, lines       int
	wrong, wrongSettled   int
	unresolved            int
	settled               map[evidence.Standing]int
	joined, foreign, dead Share
}

func (s *summary) add(r result) {
	s.hours = append(s.hours, r.spent.Tour.Hours())
	s.checks = append(s.checks, r.spent.Checks.Minutes())
	s.confirm = append(s.confirm, r.spent.Confirm.Minutes())
	s.perOpening = append(s.perOpening, float64(r.readings)/float64(r.score.Openings))
	s.openings += r.score.Openings
	s.lines += r.score.Lines
	s.wrongSettled += len(r.score.WrongSettled)
	s.wrong += len(r.score.WrongSettled) + len(r.score.WrongLikely)
	s.unresolved += r.score.Unresolved
	for k, n := range r.score.Standing {
		s.settled[k] += n
	}
	for _, x := range []struct{ to, of *Share }{{&s.joined, &r.score.Joins}, {&s.foreign, &r.score.Foreign}, {&s.dead, &r.score.Dead}} {
		x.to.Found += x.of.Found
		x.to.Of += x.of.Of
	}
}

func (s summary) print(w io.Writer) {
	mistakes := "no"
	if s.mistakes {
		mistakes = "yes"
	}
	fmt.Fprintf(w, "%-8s %-9s %.2f [%.2f-%.2f]    %-7.1f %-8.1f %-9.2f %-9s %-8s %-8s %-8s %-7s %-8s %s\n", percent(s.misread, 0), mistakes,
		quantile(s.hours, 0.5), quantile(s.hours, 0.05), quantile(s.hours, 0.95), quantile(s.checks, 0.5), quantile(s.confirm, 0.5),
		quantile(s.perOpening, 0.5), percent(s.of(s.wrong), 3), fmt.Sprintf("%d/%d", s.wrongSettled, s.settled[evidence.Settled]),
		percent(s.of(s.unresolved), 3), percent(float64(s.settled[evidence.Settled])/float64(max(1, s.lines)), 2),
		s.joined.percent(), s.foreign.percent(), s.dead.percent())
}

// of is a count as a share of all openings.
func (s summary) of(n int) float64 { return float64(n) / float64(max(1, s.openings)) }

func (s Share) percent() string {
	if s.Of == 0 {
		return "none"
	}
	return percent(float64(s.Found)/float64(s.Of), 1)
}

func percent(share float64, digits int) string { return fmt.Sprintf("%.*f %%", digits, 100*share) }

// quantile is the value below which a share of the values lie.
func quantile(values []float64, share float64) float64 {
	if len(values) == 0 {
		return 0
	}
	sorted := slices.Sorted(slices.Values(values))
	at := share * float64(len(sorted)-1)
	low := int(at)
	high := min(low+1, len(sorted)-1)
	return sorted[low] + (at-float64(low))*(sorted[high]-sorted[low])
}

// What the dead tour with two readings must reach, and hopes to.
const (
	mustHours, hopeHours = 4.5, 4.0
	mostWrongSettled     = 1e-4
)

// targets of wrong labels, by rate of misreads.
var mustWrong = map[float64]float64{0: 0.0002, 0.01: 0.0002, 0.02: 0.0005}

func (s summary) targets(w io.Writer) {
	at := "At " + percent(s.misread, 0) + " misreads: "
	say := func(met bool, format string, args ...any) {
		word := "not met"
		if met {
			word = "met"
		}
		fmt.Fprintf(w, "%s%s: %s\n", at, fmt.Sprintf(format, args...), word)
	}
	hours := quantile(s.hours, 0.5)
	say(hours <= mustHours, "%.2f h, must be at most %.1f (hoped for %.1f)", hours, mustHours, hopeHours)
	if most, known := mustWrong[s.misread]; known {
		say(s.of(s.wrong) <= most, "wrong labels %s, must be at most %s", percent(s.of(s.wrong), 3), percent(most, 2))
	}
	say(float64(s.wrongSettled) <= mostWrongSettled*float64(s.settled[evidence.Settled]), "%d wrong lines settled, must be at most 1 in 10,000", s.wrongSettled)
	for _, x := range []struct {
		what  string
		share Share
	}{{"joined circuits", s.joined}, {"feeds from another building", s.foreign}, {"dead openings", s.dead}} {
		say(x.share.Found == x.share.Of, "%d of %d %s found, must be all", x.share.Found, x.share.Of, x.what)
	}
}
