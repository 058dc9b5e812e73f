// Command verify runs every check and every test of the house, one line for
// each step, and closes with one line that counts what passed and what failed.
//
// It installs what the tests need when that is missing and it may (as root, on
// Debian); otherwise it says what to install. Nothing is skipped: what cannot
// be checked has failed. It uses the standard library alone, so that it starts
// at once, even when the house does not compile. It changes nothing in the
// checkout.
//
// Start reading at steps, the table of contents.
package main

import (
	"context"
	"flag"
	"fmt"
	"os"
	"os/signal"
	"syscall"
	"time"
)

func main() {
	fuzz := flag.Bool("fuzz", false, "after the tests, run every fuzz target for two seconds")
	flag.Parse()
	if flag.NArg() > 0 {
		fmt.Fprintln(os.Stderr, "verify takes no arguments; see verify -help")
		os.Exit(2)
	}
	if _, err := os.Stat("floors.txt"); err != nil {
		fmt.Fprintln(os.Stderr, "run verify from the root of the checkout: go run ./tools/verify")
		os.Exit(2)
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	tally := run(ctx, steps(*fuzz))
	fmt.Println(tally.closingLine())
	if !tally.good() {
		stop()
		os.Exit(1)
	}
}

// steps is what is checked, in order: first what the rest needs, then what is
// quick, then the tests.
func steps(fuzz bool) []step {
	list := []step{
		{"install what the tests need", installDebian},
		{"fetch the accessibility rules", fetchAxe},
		{"gofmt", checkFormat},
		{"go vet", goCommand("vet", "./...")},
		{"go vet, phone", vetPhone},
		{"staticcheck", goCommand("tool", "-modfile=tools/lint/go.mod", "staticcheck", "./...")},
		{"floors, words and comments", goCommand("test", "-count=1", ".")},
		{"phone build", buildPhone},
		{"phone packages", checkPhonePackages},
		{"tests", runTests},
		{"tests with the race detector", runRaceTests},
	}
	if fuzz {
		list = append(list, step{"fuzz targets", runFuzz})
	}
	return list
}

// run takes every step, also those after a failure, so that one run shows all
// there is to mend. It prints a line for each.
func run(ctx context.Context, list []step) tally {
	var sum tally
	for _, s := range list {
		if ctx.Err() != nil {
			fmt.Println("stopped before:", s.name)
			sum.failed++
			continue
		}
		began := time.Now()
		result := s.do(ctx)
		verdict := "ok"
		if !result.good() {
			verdict = "FAILED"
		}
		fmt.Printf("%-30s %6.1f s  %s%s\n", s.name, time.Since(began).Seconds(), verdict, result.remark())
		if !result.good() {
			fmt.Println(indent(result.output))
		}
		sum = sum.add(result)
	}
	return sum
}
