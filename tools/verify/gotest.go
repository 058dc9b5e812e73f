package main

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"
)

// runTests runs every test, fuzz seeds included.
func runTests(ctx context.Context) outcome {
	return goTest(ctx, "./...")
}

// runRaceTests runs the tests of the packages that start goroutines or hold
// locks once more under the race detector, and only those: elsewhere there is
// nothing to race with, and the detector makes the long searches several times
// slower (SQLite alone: 92 s to compile against 43 s, 3.5 s to run against
// 2.0 s, on two cores). The tests have been counted already, so this counts as
// one check.
func runRaceTests(ctx context.Context) outcome {
	folders, err := concurrentFolders(".")
	if err != nil {
		return failed("", err)
	}
	// The tests of a command start the program as it is built for people, which
	// the detector would not see into.
	folders = slices.DeleteFunc(folders, func(f string) bool { return strings.HasPrefix(f, "./cmd/") })
	result := goTest(ctx, append([]string{"-race"}, folders...)...)
	if result.tests.failed > 0 && result.err == nil {
		result.err = errors.New("tests failed under the race detector")
	}
	result.note = strings.Join(folders, " ")
	result.tests = tally{}
	return result
}

// goTest runs tests and counts them. Vet has been a step of its own.
func goTest(ctx context.Context, args ...string) outcome {
	env := browserEnv()
	if slices.Contains(args, "-race") {
		env = append(env, "CGO_ENABLED=1")
	}
	out, all, err := command(ctx, env, "go", append([]string{"test", "-json", "-vet=off"}, args...)...)
	results, readErr := readTests(strings.NewReader(out))
	if readErr != nil {
		return failed(all, readErr)
	}
	result := outcome{tests: results.count(), output: results.complaints()}
	switch {
	case err != nil && result.tests.failed == 0:
		return failed(strings.TrimPrefix(all, out), err)
	case result.tests == (tally{}):
		return failed(all, errors.New("no test ran"))
	}
	return result
}

// testEvent is a line of go test -json; see "go doc test2json".
type testEvent struct {
	Action     string
	Package    string
	ImportPath string // in place of Package while building
	Test       string
	Output     string
}

// testID names a test; Test is empty for the package itself.
type testID struct{ Package, Test string }

// testResults is what became of each test, and what was printed by the way.
type testResults struct {
	ended  map[testID]string // pass, fail or skip
	output map[testID]*bytes.Buffer
}

// readTests reads the output of go test -json. Lines that are not JSON come
// from the go command itself and are kept as output of no package.
func readTests(r io.Reader) (testResults, error) {
	results := testResults{map[testID]string{}, map[testID]*bytes.Buffer{}}
	lines := bufio.NewReader(r)
	for {
		line, err := lines.ReadBytes('\n')
		if len(bytes.TrimSpace(line)) > 0 {
			results.take(line)
		}
		if err == io.EOF {
			return results, nil
		}
		if err != nil {
			return results, fmt.Errorf("read test output: %w", err)
		}
	}
}

func (r testResults) take(line []byte) {
	var event testEvent
	if err := json.Unmarshal(line, &event); err != nil {
		event = testEvent{Action: "output", Output: string(line)}
	}
	id := testID{event.Package, event.Test}
	if event.ImportPath != "" {
		// The test binary of a package is "p [p.test]"; it failed as p.
		id.Package, _, _ = strings.Cut(event.ImportPath, " ")
	}
	switch event.Action {
	case "pass", "fail", "skip":
		r.ended[id] = event.Action
	case "build-fail":
		r.ended[id] = "fail"
	case "output", "build-output":
		if r.output[id] == nil {
			r.output[id] = &bytes.Buffer{}
		}
		r.output[id].WriteString(event.Output)
	}
}

// count counts tests without subtests of their own, so that a table of ten
// cases is ten. A skipped test has checked nothing and counts as failed. A
// package or a test with subtests counts only when it failed by itself.
func (r testResults) count() tally {
	var sum tally
	bad := r.bad()
	groups, _ := r.groups()
	for id := range r.ended {
		switch {
		case bad[id]:
			sum.failed++
		case id.Test != "" && !groups[id]:
			sum.passed++
		}
	}
	return sum
}

// bad returns what to count and show as failed.
func (r testResults) bad() map[testID]bool {
	bad := map[testID]bool{}
	groups, failing := r.groups()
	for id, action := range r.ended {
		if id.Test == "" || groups[id] {
			bad[id] = action == "fail" && !failing[id]
		} else {
			bad[id] = action != "pass"
		}
	}
	return bad
}

// groups returns the packages and tests that have tests below them, and those
// of them below which something failed.
func (r testResults) groups() (groups, failing map[testID]bool) {
	groups, failing = map[testID]bool{}, map[testID]bool{}
	for id, action := range r.ended {
		for _, above := range id.above() {
			groups[above] = true
			failing[above] = failing[above] || action == "fail"
		}
	}
	return groups, failing
}

// above lists the tests and the package that the test is part of.
func (id testID) above() []testID {
	var list []testID
	for id.Test != "" {
		id.Test = id.Test[:max(strings.LastIndexByte(id.Test, '/'), 0)]
		list = append(list, id)
	}
	return list
}

// complaints is the output of what failed or was skipped, in order of name.
func (r testResults) complaints() string {
	var text strings.Builder
	ids := slices.SortedFunc(maps.Keys(r.ended), func(a, b testID) int {
		return strings.Compare(a.Package+" "+a.Test, b.Package+" "+b.Test)
	})
	bad := r.bad()
	for _, id := range ids {
		if !bad[id] {
			continue
		}
		fmt.Fprintf(&text, "%s %s: %s\n", id.Package, id.Test, r.ended[id])
		if said := r.output[id]; said != nil {
			text.Write(said.Bytes())
		}
	}
	return text.String()
}
