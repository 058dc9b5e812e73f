package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

// need is something the tests use that Go does not bring.
type need struct {
	debian string   // the package that has it
	found  []string // programs or, with a slash, files: one of them is enough
	why    string
}

var needs = []need{
	{"chromium", browsers, "browser tests"},
	{"gcc", []string{"gcc", "clang"}, "race detector"},
	{"libc6-dev", []string{"/usr/include/stdlib.h", "/Library/Developer"}, "race detector"},
	{"poppler-utils", []string{"pdftotext"}, "reading the sheets' text back from PDF"},
}

// browsers are where the browser that the tests drive may be; a name after $
// is a variable that says so itself.
var browsers = []string{"$ASFOUND_CHROMIUM", "chromium", "chromium-browser"}

// installDebian installs what is missing, if it may; else it says what is.
func installDebian(ctx context.Context) outcome {
	missing := missingNeeds(present)
	if len(missing) == 0 {
		return outcome{note: "all there"}
	}
	_, err := exec.LookPath("apt-get")
	if err != nil || os.Geteuid() != 0 {
		return failed(describe(missing), errors.New("install these and run again, or run once as root on Debian"))
	}
	env := []string{"DEBIAN_FRONTEND=noninteractive"}
	if _, all, err := command(ctx, env, "apt-get", "update", "-q"); err != nil {
		return failed(all, err)
	}
	args := []string{"install", "-y", "-q", "--no-install-recommends"}
	for _, n := range missing {
		args = append(args, n.debian)
	}
	if _, all, err := command(ctx, env, "apt-get", args...); err != nil {
		return failed(all, err)
	}
	if still := missingNeeds(present); len(still) > 0 {
		return failed(describe(still), errors.New("installed, yet not found"))
	}
	return outcome{note: "installed " + strings.Join(args[4:], " ")}
}

// missingNeeds returns the needs of which nothing is present.
func missingNeeds(present func(string) bool) []need {
	var missing []need
	for _, n := range needs {
		if !anyOf(n.found, present) {
			missing = append(missing, n)
		}
	}
	return missing
}

func anyOf(names []string, present func(string) bool) bool {
	for _, name := range names {
		if present(name) {
			return true
		}
	}
	return false
}

// present looks for a program on the path, a file or a variable.
func present(name string) bool {
	if variable, ok := strings.CutPrefix(name, "$"); ok {
		return os.Getenv(variable) != ""
	}
	if strings.HasPrefix(name, "/") {
		_, err := os.Stat(name)
		return err == nil
	}
	_, err := exec.LookPath(name)
	return err == nil
}

func describe(missing []need) string {
	var lines []string
	for _, n := range missing {
		lines = append(lines, fmt.Sprintf("missing: %s (%s)", n.debian, n.why))
	}
	return strings.Join(lines, "\n")
}

// axeVersion is pinned: another version may know other rules.
const axeVersion = "4.14.1"

// fetchAxe puts the accessibility rules into the user's cache, where npm is
// there. Without npm the pages still undergo the house's own checks.
func fetchAxe(ctx context.Context) outcome {
	if _, err := os.Stat(axePath()); err == nil {
		return outcome{note: "axe-core " + axeVersion}
	}
	if _, err := exec.LookPath("npm"); err != nil {
		return outcome{note: "no npm: the house's own accessibility checks only"}
	}
	_, all, err := command(ctx, nil, "npm", "install", "--prefix", cacheFolder(),
		"--no-audit", "--no-fund", "--ignore-scripts", "axe-core@"+axeVersion)
	if err != nil {
		return failed(all, err)
	}
	if _, err := os.Stat(axePath()); err != nil {
		return failed(all, err)
	}
	return outcome{note: "fetched axe-core " + axeVersion}
}

// cacheFolder is outside the checkout, and one for each version.
func cacheFolder() string {
	cache, err := os.UserCacheDir()
	if err != nil {
		cache = os.TempDir()
	}
	return filepath.Join(cache, "asfound-verify", "axe-"+axeVersion)
}

func axePath() string {
	return filepath.Join(cacheFolder(), "node_modules", "axe-core", "axe.min.js")
}

// browserEnv tells browser tests where the browser and the accessibility rules
// are. A test that finds ASFOUND_CHROMIUM empty must fail.
func browserEnv() []string {
	var env []string
	if os.Getenv("ASFOUND_CHROMIUM") == "" {
		for _, name := range browsers[1:] {
			if found, err := exec.LookPath(name); err == nil {
				env = append(env, "ASFOUND_CHROMIUM="+found)
				break
			}
		}
	}
	if _, err := os.Stat(axePath()); err == nil {
		env = append(env, "ASFOUND_AXE="+axePath())
	}
	return env
}
