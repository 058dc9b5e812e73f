package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"strings"
	"time"
)

// command runs a program in the root of the checkout and returns what it
// printed: standard output by itself, and with the error output behind it. Each
// env entry is NAME=value, added to the present ones.
func command(ctx context.Context, env []string, name string, args ...string) (stdout, all string, err error) {
	cmd := exec.CommandContext(ctx, name, args...)
	cmd.Env = append(os.Environ(), env...)
	var out, errs bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &errs
	cmd.Cancel = func() error { return cmd.Process.Signal(os.Interrupt) }
	cmd.WaitDelay = 10 * time.Second
	err = cmd.Run()
	return out.String(), out.String() + errs.String(), err
}

// goCommand is a step that passes when the go command does.
func goCommand(args ...string) func(context.Context) outcome {
	return func(ctx context.Context) outcome {
		if _, all, err := command(ctx, nil, "go", args...); err != nil {
			return failed(all, err)
		}
		return outcome{}
	}
}

// goList returns the import paths that go list prints.
func goList(ctx context.Context, env []string, args ...string) ([]string, error) {
	out, all, err := command(ctx, env, "go", append([]string{"list"}, args...)...)
	if err != nil {
		return nil, fmt.Errorf("%s\ngo list: %w", strings.TrimSpace(all), err)
	}
	return strings.Fields(out), nil
}

var errUnformatted = errors.New("run gofmt -w on these files")

// checkFormat refuses Go files that gofmt would change.
func checkFormat(ctx context.Context) outcome {
	out, all, err := command(ctx, nil, "gofmt", "-l", ".")
	if err != nil {
		return failed(all, err)
	}
	if out != "" {
		return failed(out, errUnformatted)
	}
	return outcome{}
}
