package main

import (
	"bytes"
	"compress/gzip"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// phoneEnv makes the go command build for a browser.
var phoneEnv = []string{"GOOS=js", "GOARCH=wasm", "CGO_ENABLED=0"}

// The budget of the phone's program, in bytes: what a phone fetches once over a
// site's radio and compiles at each cold start. Pages with a template engine and
// nothing behind them take 6.9 MB, 1.8 MB compressed (measured with Go 1.26);
// docs/phone.md tells what the rest is.
const (
	phoneRaw        = 14_000_000
	phoneCompressed = 3_500_000
)

// phoneDenied are packages that the phone must not carry, however they come in:
// the first two cost 2 MB and more, the third means that SQL came along.
var phoneDenied = []string{"net/http", "crypto/tls", "database/sql"}

// vetPhone vets what is built for the phone alone; go vet has seen the rest.
func vetPhone(ctx context.Context) outcome {
	if _, all, err := command(ctx, phoneEnv, "go", "vet", "./cmd/phone"); err != nil {
		return failed(all, err)
	}
	return outcome{}
}

// buildPhone builds the phone's program and weighs it.
func buildPhone(ctx context.Context) outcome {
	folder, err := os.MkdirTemp("", "asfound-verify-")
	if err != nil {
		return failed("", err)
	}
	defer os.RemoveAll(folder)
	file := filepath.Join(folder, "phone.wasm")
	_, all, err := command(ctx, phoneEnv, "go", "build", "-trimpath", "-ldflags", "-s -w", "-o", file, "./cmd/phone")
	if err != nil {
		return failed(all, err)
	}
	program, err := os.ReadFile(file)
	if err != nil {
		return failed("", err)
	}
	small, err := compressedSize(program)
	if err != nil {
		return failed("", err)
	}
	if err := overBudget(len(program), small); err != nil {
		return failed("", err)
	}
	return outcome{note: weight(len(program), small)}
}

// compressedSize is the size as served: gzip at its best level.
func compressedSize(program []byte) (int, error) {
	var out bytes.Buffer
	writer, err := gzip.NewWriterLevel(&out, gzip.BestCompression)
	if err != nil {
		return 0, err
	}
	if _, err := writer.Write(program); err != nil {
		return 0, err
	}
	if err := writer.Close(); err != nil {
		return 0, err
	}
	return out.Len(), nil
}

// overBudget returns nil for a program within its budget.
func overBudget(raw, compressed int) error {
	if raw > phoneRaw || compressed > phoneCompressed {
		return fmt.Errorf("the phone's program is too big: %s; budget %s",
			weight(raw, compressed), weight(phoneRaw, phoneCompressed))
	}
	return nil
}

func weight(raw, compressed int) string {
	return fmt.Sprintf("%.2f MB, %.2f MB compressed", float64(raw)/1e6, float64(compressed)/1e6)
}

// checkPhonePackages refuses what phoneDenied names.
func checkPhonePackages(ctx context.Context) outcome {
	deps, err := goList(ctx, phoneEnv, "-deps", "./cmd/phone")
	if err != nil {
		return failed("", err)
	}
	if bad := denied(deps); len(bad) > 0 {
		return failed("", fmt.Errorf("the phone must not carry %s", strings.Join(bad, ", ")))
	}
	return outcome{note: fmt.Sprintf("%d packages", len(deps))}
}

// denied returns the packages in the list that are denied or lie below one.
func denied(deps []string) []string {
	var bad []string
	for _, name := range deps {
		if slices.ContainsFunc(phoneDenied, func(d string) bool { return name == d || strings.HasPrefix(name, d+"/") }) {
			bad = append(bad, name)
		}
	}
	return bad
}
