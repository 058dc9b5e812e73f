package main

import (
	"context"
	"fmt"
	"strings"
)

// step is one check.
type step struct {
	name string
	do   func(context.Context) outcome
}

// outcome is what a step found. A step that runs no tests counts as one check,
// passed when err is nil.
type outcome struct {
	err    error
	output string // shown when the step failed
	note   string // shown on the step's line
	tests  tally  // the tests it ran, if it counts them
}

// failed makes the outcome of a step that could not do its work or found fault.
func failed(output string, err error) outcome {
	return outcome{output: strings.TrimSpace(output + "\n" + err.Error()), err: err}
}

func (o outcome) good() bool { return o.err == nil && o.tests.failed == 0 }

// remark is what stands at the end of the step's line.
func (o outcome) remark() string {
	if o.tests != (tally{}) {
		return fmt.Sprintf(" (%d passed, %d failed)", o.tests.passed, o.tests.failed)
	}
	if o.note != "" {
		return " (" + o.note + ")"
	}
	return ""
}

// tally counts checks.
type tally struct{ passed, failed int }

// add counts the tests of a step that ran tests, else the step itself. A step
// that failed beyond its tests counts as one failure more.
func (t tally) add(o outcome) tally {
	t.passed += o.tests.passed
	t.failed += o.tests.failed
	if o.err != nil {
		t.failed++
	} else if o.tests == (tally{}) {
		t.passed++
	}
	return t
}

// good wants something to have passed: a run that checked nothing has failed.
func (t tally) good() bool { return t.failed == 0 && t.passed > 0 }

// closingLine is read by machines too; keep its form.
func (t tally) closingLine() string {
	return fmt.Sprintf("verify: %d passed, %d failed", t.passed, t.failed)
}

func indent(text string) string {
	return "    " + strings.ReplaceAll(strings.TrimSpace(text), "\n", "\n    ")
}
