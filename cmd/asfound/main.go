// Command asfound is the program on the laptop: it opens jobs, shows their pages
// to a browser, makes sheets, and carries a job out to plain files and back.
//
// It only wires: what readings mean is for package trace, what a page says for
// package web, what a sheet holds for package report. It asks for no login and
// sends nothing anywhere; whoever reaches its address may read and record.
//
// Machine output goes to standard output, words for people to standard error.
// It ends with 0 when all went well, 1 when something did not, and 2 when it
// was called wrongly. Start with commands, the table of contents; each command
// has a file of its own.
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"syscall"
	"time"

	"github.com/alecthomas/kong"

	"asfound/observation"
)

// commands is the table of contents.
type commands struct {
	Demo   demoCommand   `cmd:"" help:"Show a made-up job, half traced, where two readings clash."`
	Serve  serveCommand  `cmd:"" help:"Show the jobs in a folder, and record in them."`
	Paper  paperCommand  `cmd:"" help:"Make a sheet of a job: PDF, SVG or CSV."`
	Export exportCommand `cmd:"" help:"Write a whole job as plain files: a folder or a zip."`
	Import importCommand `cmd:"" help:"Bring plain files into a job. Twice changes nothing."`
	Take   takeCommand   `cmd:"" help:"Take in a list of openings, panels or circuits. Twice changes nothing."`
	Check  checkCommand  `cmd:"" help:"Check that no byte of a job has changed since it was recorded."`
	Bench  benchCommand  `cmd:"" help:"Measure: how often a label is wrong, how fast a job is read."`
}

// program is what a command works with.
type program struct {
	ctx   context.Context // done when somebody stops the program
	out   io.Writer       // for machines
	words io.Writer       // for people
	now   func() time.Time
}

// say prints one line for people.
func (p *program) say(format string, args ...any) { fmt.Fprintf(p.words, format+"\n", args...) }

// misuse says that the program was called wrongly.
type misuse struct{ say string }

func (m misuse) Error() string { return m.say }

// found says that a check found something wrong, which has been said already.
var errFound = errors.New("something is wrong with the job")

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// run runs one command and returns the exit code.
func run(args []string, out, words io.Writer) int {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	p := &program{ctx: ctx, out: out, words: words, now: time.Now}
	parser, err := kong.New(&commands{}, kong.Name("asfound"), kong.Writers(out, words), kong.Bind(p),
		kong.Description("Keeps every reading two people take in a half-finished property, works out what they establish together, and says which to take next."),
		kong.ConfigureHelp(kong.HelpOptions{Compact: true}))
	if err != nil {
		fmt.Fprintln(words, err)
		return 2
	}
	chosen, err := parser.Parse(args)
	if err != nil {
		fmt.Fprintf(words, "%v. See asfound --help.\n", err)
		return 2
	}
	return p.exitCode(chosen.Run())
}

// exitCode says what went wrong and gives it its number.
func (p *program) exitCode(err error) int {
	var wrongly misuse
	var unusable observation.Unusable
	switch {
	case err == nil:
		return 0
	case errors.Is(err, errFound):
		return 1
	case errors.As(err, &wrongly):
		p.say("%s", wrongly.say)
		return 2
	case errors.As(err, &unusable):
		p.say("%s", unusable.Say)
		return 2
	}
	p.say("%v", err)
	return 1
}
