package main

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// plant writes source files below a new folder.
func plant(t *testing.T, files map[string]string) string {
	t.Helper()
	root := t.TempDir()
	for name, text := range files {
		file := filepath.Join(root, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return root
}

func TestConcurrentFolders(t *testing.T) {
	const empty = "package p\n"
	root := plant(t, map[string]string{
		"lock/lock.go":          "package lock\nimport \"sync\"\nvar mu sync.Mutex\n",
		"lock/lock_test.go":     empty,
		"start/start.go":        "package start\nfunc f() { for { func() { go f() }() } }\n",
		"start/more.go":         "package start\nfunc g() { go f() }\n",
		"start/x_test.go":       empty,
		"plain/plain.go":        "package plain\n// go f() is only said\nfunc f() {}\n",
		"plain/plain_test.go":   "package plain\nfunc g() { go f() }\n",
		"untested/lock.go":      "package untested\nimport \"sync\"\n",
		"cmd/phone/main.go":     "package main\nfunc main() { go main() }\n",
		"cmd/phone/x_test.go":   empty,
		"lock/testdata/bad.go":  "this is no Go",
		".cache/start/start.go": "neither is this",
	})
	got, err := concurrentFolders(root)
	if err != nil {
		t.Fatal(err)
	}
	slices.Sort(got)
	if want := []string{"./lock", "./start"}; !slices.Equal(got, want) {
		t.Errorf("folders %q, want %q", got, want)
	}
}

func TestFuzzTargets(t *testing.T) {
	root := plant(t, map[string]string{
		"journal/line.go":      "package journal\nfunc FuzzyLine() {}\n",
		"journal/line_test.go": "package journal\nfunc FuzzLine(f *testing.F) {}\nfunc TestLine(t *testing.T) {}\nfunc (x T) FuzzNot() {}\n",
	})
	got, err := fuzzTargets(root)
	if err != nil {
		t.Fatal(err)
	}
	if want := []fuzzTarget{{"./journal", "FuzzLine"}}; !slices.Equal(got, want) {
		t.Errorf("targets %q, want %q", got, want)
	}
}

func TestBrokenSourceIsSaid(t *testing.T) {
	root := plant(t, map[string]string{"journal/line.go": "package journal\nfunc {"})
	_, err := fuzzTargets(root)
	if err == nil || !strings.Contains(err.Error(), "line.go:2") {
		t.Errorf("error %v, want the file and line", err)
	}
}
