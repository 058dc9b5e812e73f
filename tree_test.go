package asfound_test

import (
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// The policy tests read the tree themselves. One that asked the go command for
// the import lines would go on passing from the test cache.

// house is the module's name, the first part of every import of our own.
const house = "asfound"

// treeFiles lists every file that is or may be committed, with slashes and
// relative to the root.
func treeFiles(t *testing.T) []string {
	t.Helper()
	var files []string
	err := filepath.WalkDir(".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if entry.IsDir() && slices.Contains([]string{".git", "data", "jobs", "node_modules"}, name) {
			return fs.SkipDir
		}
		if entry.Type().IsRegular() {
			files = append(files, filepath.ToSlash(name))
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return files
}

// goFiles lists the Go files of this module, as the go command would see them
// on every platform at once.
func goFiles(t *testing.T) []string {
	t.Helper()
	files := treeFiles(t)
	var nested []string
	for _, name := range files {
		if path.Base(name) == "go.mod" && name != "go.mod" {
			nested = append(nested, path.Dir(name)+"/")
		}
	}
	return slices.DeleteFunc(files, func(name string) bool {
		return path.Ext(name) != ".go" || hidden(name) ||
			slices.ContainsFunc(nested, func(dir string) bool { return strings.HasPrefix(name, dir) })
	})
}

// hidden tells whether the go command ignores the file.
func hidden(name string) bool {
	return slices.ContainsFunc(strings.Split(name, "/"), func(part string) bool {
		return part == "testdata" || part == "vendor" || part[0] == '.' || part[0] == '_'
	})
}

// importLines are the imports of one folder.
type importLines struct {
	code  []string // of the package
	tests []string // of its test files only
}

// readImports returns the import lines of every folder that holds Go files.
func readImports(t *testing.T) map[string]importLines {
	t.Helper()
	found := map[string]importLines{}
	for _, name := range goFiles(t) {
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.ImportsOnly)
		if err != nil {
			t.Errorf("read imports: %v", err)
			continue
		}
		lines := found[path.Dir(name)]
		for _, spec := range file.Imports {
			value, err := strconv.Unquote(spec.Path.Value)
			if err != nil {
				t.Fatalf("%s: import %s: %v", name, spec.Path.Value, err)
			}
			if strings.HasSuffix(name, "_test.go") {
				lines.tests = append(lines.tests, value)
			} else {
				lines.code = append(lines.code, value)
			}
		}
		found[path.Dir(name)] = lines
	}
	return found
}

// readText returns a file as text; it is empty for a file that is not text.
func readText(t *testing.T, name string) string {
	t.Helper()
	data, err := os.ReadFile(filepath.FromSlash(name))
	if err != nil {
		t.Fatal(err)
	}
	if slices.Contains(data[:min(len(data), 8000)], 0) {
		return ""
	}
	return string(data)
}
