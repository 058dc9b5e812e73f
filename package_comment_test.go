package asfound_test

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"path"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"
)

// Every package says what it is, what it refuses to do and where to start
// reading. A test can ask only that somebody wrote as much as that needs.
const leastComment = 80

func TestEveryPackageHasAComment(t *testing.T) {
	comments := map[string]map[string]string{} // folder, file, comment
	names := map[string]string{}
	for _, name := range goFiles(t) {
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.ParseComments|parser.PackageClauseOnly)
		if err != nil {
			t.Errorf("read package clause: %v", err)
			continue
		}
		keepComment(comments, names, name, file)
	}
	if len(names) < 2 {
		t.Fatalf("found %d packages: the tree is not being read", len(names))
	}
	for folder, files := range comments {
		for _, fault := range commentFaults(folder, names[folder], files) {
			t.Error(fault)
		}
	}
}

// keepComment notes the file's package and comment; a test file counts only
// where a folder holds nothing else.
func keepComment(comments map[string]map[string]string, names map[string]string, name string, file *ast.File) {
	folder := path.Dir(name)
	if comments[folder] == nil {
		comments[folder] = map[string]string{}
	}
	test := strings.HasSuffix(name, "_test.go")
	if !test || names[folder] == "" {
		names[folder] = strings.TrimSuffix(file.Name.Name, "_test")
	}
	if text := file.Doc.Text(); text != "" && !(test && strings.HasSuffix(file.Name.Name, "_test")) {
		comments[folder][path.Base(name)] = text
	}
}

var sentenceEnd = regexp.MustCompile(`[.:!?](\s|$)`)

// commentFaults judges the package comments of one folder.
func commentFaults(folder, name string, files map[string]string) []string {
	if len(files) != 1 {
		return []string{fmt.Sprintf("%s: %d package comments, want one", folder, len(files))}
	}
	var faults []string
	for file, text := range files {
		places := []string{"doc.go", name + ".go", path.Base(folder) + ".go", "doc_test.go"}
		if !slices.Contains(places, file) {
			faults = append(faults, fmt.Sprintf("%s: the package comment stands in %s, want doc.go or %s.go", folder, file, name))
		}
		if !startsWell(text, name) {
			faults = append(faults, fmt.Sprintf("%s: the package comment starts %q", folder, firstWords(text)))
		}
		if len(text) < leastComment || len(sentenceEnd.FindAllString(text, 2)) < 2 {
			faults = append(faults, fmt.Sprintf("%s: the package comment is too short to say what it is and refuses to do", folder))
		}
	}
	return faults
}

// startsWell follows the custom of the language: "Package name ..." for a
// package, a capital letter for a command.
func startsWell(text, name string) bool {
	if name == "main" {
		first, _ := utf8.DecodeRuneInString(text)
		return unicode.IsUpper(first)
	}
	return strings.HasPrefix(text, "Package "+name+" ")
}

func firstWords(text string) string {
	words := strings.Fields(text)
	return strings.Join(words[:min(len(words), 4)], " ")
}

func TestPoorCommentIsCaught(t *testing.T) {
	good := "Package table holds published tables. It does no arithmetic: for that see the callers, and start with Lookup."
	cases := []struct {
		name, pkg string
		files     map[string]string
		want      int
	}{
		{"good", "table", map[string]string{"table.go": good}, 0},
		{"good command", "main", map[string]string{"main.go": "Command " + good}, 0},
		{"none", "table", map[string]string{}, 1},
		{"two", "table", map[string]string{"table.go": good, "doc.go": good}, 1},
		{"wrong file", "table", map[string]string{"ampacity.go": good}, 1},
		{"wrong start", "table", map[string]string{"table.go": "Here " + good}, 1},
		{"wrong package", "table", map[string]string{"table.go": strings.Replace(good, "table", "tables", 1)}, 1},
		{"short", "table", map[string]string{"table.go": "Package table holds tables. Yes."}, 1},
		{"one sentence", "table", map[string]string{"table.go": "Package table holds every published table that the sheets of this program ever look a number up in"}, 1},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			if got := commentFaults(c.pkg, c.pkg, c.files); len(got) != c.want {
				t.Errorf("faults %q, want %d", got, c.want)
			}
		})
	}
}
