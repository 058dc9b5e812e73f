package main

import "asfound/scenario"

type benchCommand struct {
	Trace    benchTraceCommand    `cmd:"" help:"Trace made-up jobs; count labels that are wrong, and hours."`
	Property benchPropertyCommand `cmd:"" help:"Play the demo property; count what is found, what is wrong, and hours."`
	Fold     benchFoldCommand     `cmd:"" help:"Read a long journal from disk; record one more reading."`
	Pages    benchPagesCommand    `cmd:"" help:"Follow the links of the demo job; time every sort of page, and the next step."`
	Load     benchLoadCommand     `cmd:"" help:"Let many people look at the demo job and record in it at once."`
}

type benchTraceCommand struct {
	Jobs     int       `default:"200" help:"Made-up jobs for each rate."`
	Misreads []float64 `default:"0,1,2" help:"Percent of the readings at openings that are wrong."`
	Mistakes bool      `help:"Run each rate once more with people's other mistakes besides."`
	First    uint64    `help:"Seed of the first job."`
}

// Help is an example.
func (benchTraceCommand) Help() string {
	return "Example: asfound bench trace --jobs 20 --misreads 0,1 --mistakes"
}

// Run plays the jobs and prints the table.
func (c benchTraceCommand) Run(p *program) error {
	if c.Jobs < 1 {
		return misuse{"Give the number of jobs as 1 or more."}
	}
	o := scenario.Options{Jobs: c.Jobs, Mistakes: c.Mistakes, First: c.First}
	for _, percent := range c.Misreads {
		if !(percent >= 0 && percent <= 100) {
			return misuse{"Give misreads in percent, from 0 to 100: --misreads 0,1,2."}
		}
		o.Misreads = append(o.Misreads, percent/100)
	}
	return scenario.Trace(p.out, o)
}
