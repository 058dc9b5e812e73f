package asfound_test

import (
	"slices"
	"strings"
	"testing"
)

// A package's own code imports from floors below it. A test file may also
// import its own floor and the fixtures that floors.txt names, because a test
// may need a made-up job that is told far above.

func readPlan(t *testing.T) floorPlan {
	t.Helper()
	plan, err := parsePlan(readText(t, "floors.txt"))
	if err != nil {
		t.Fatal(err)
	}
	return plan
}

func TestImportsGoDown(t *testing.T) {
	plan, tree := readPlan(t), readImports(t)
	if len(tree["tools/verify"].code) == 0 {
		t.Fatal("read no import lines of tools/verify: the tree is not being read")
	}
	for _, fault := range plan.faults(tree) {
		t.Error(fault)
	}
}

// ours turns folders into import paths.
func ours(folders ...string) []string {
	paths := slices.Clone(folders)
	for i := range paths {
		paths[i] = house + "/" + paths[i]
	}
	return paths
}

// code is a tree of one folder with these imports; test is one whose tests have them.
func code(folder string, imports ...string) map[string]importLines {
	return map[string]importLines{folder: {code: imports}}
}

func test(folder string, imports ...string) map[string]importLines {
	return map[string]importLines{folder: {tests: imports}}
}

var plantedImports = []struct {
	name string
	tree map[string]importLines
	want string // part of the only fault; empty when the import is allowed
}{
	{"down", code("site", ours("trace", "journal", "quantity")...), ""},
	{"up", code("trace", ours("site")...), "trace imports asfound/site: upward"},
	{"up from a folder below", code("journal/sqlite", ours("site")...), "upward"},
	{"same floor", code("evidence", ours("pattern")...), "same floor"},
	{"same floor in a test", test("evidence", ours("pattern")...), ""},
	{"up in a test", test("evidence", ours("journal")...), "a test in evidence imports asfound/journal: upward"},
	{"made-up job in a test", test("trace", ours("scenario")...), ""},
	{"made-up job in the program", code("trace", ours("scenario")...), "upward"},
	{"made-up job in the command", code("cmd/asfound", ours("scenario")...), ""},
	{"store imports its parent", code("journal/sqlite", ours("journal")...), ""},
	{"parent imports its store", code("journal", ours("journal/sqlite")...), "only a folder below"},
	{"one store imports another", code("journal/sqlite", ours("journal/indexeddb")...), "only a folder below"},
	{"page opens the store", code("web", ours("journal/sqlite")...), "for cmd, tests only"},
	{"command opens the store", code("cmd/asfound", ours("journal/sqlite")...), ""},
	{"report writes PDF itself", code("report", ours("paper/pdf")...), "for cmd, tests only"},
	{"test writes PDF", test("report", ours("paper/pdf")...), ""},
	{"store suite in a test", test("journal/sqlite", ours("journal/journaltest")...), ""},
	{"store suite in the program", code("cmd/asfound", ours("journal/journaltest")...), "for tests only"},
	{"tool imports the house", code("tools/verify", ours("site")...), "do not know each other"},
	{"house imports a tool", code("cmd/asfound", ours("tools/verify")...), "do not know each other"},
	{"root imported", code("site", house), "the root holds no code"},
	{"root test runs the house", test(".", ours("site")...), "they run none of it"},
	{"package without a floor", code("attic"), "attic has no floor"},
	{"import of a package without a floor", code("site", ours("attic")...), "that package has no floor"},
	{"empty name", code("site/util"), `"util" says nothing`},
	{"page speaks HTTP", code("web", "net/http"), "for cmd, tools, tests only"},
	{"page speaks HTTP by a folder below", code("web", "net/http/httptest"), "for cmd, tools, tests only"},
	{"command speaks HTTP", code("cmd/asfound", "net/http"), ""},
	{"reasoning speaks SQL", code("site", "database/sql"), "only, see floors.txt"},
	{"store speaks SQL", code("journal/sqlite", "database/sql/driver"), ""},
	{"old random numbers", test("trace", "math/rand"), "nobody may"},
	{"random numbers", code("scenario", "math/rand/v2"), ""},
	{"leveled log", code("cmd/asfound", "log/slog"), ""},
	{"chosen module", code("paper/pdf", "codeberg.org/go-pdf/fpdf"), ""},
	{"chosen module elsewhere", code("site", "codeberg.org/go-pdf/fpdf"), "for paper/pdf, tests only"},
	{"unknown module", code("site", "example.org/handy"), "not in floors.txt"},
	{"test tool in the program", code("site", "pgregory.net/rapid"), "only, see floors.txt"},
}

func TestPlantedImportIsCaught(t *testing.T) {
	plan := readPlan(t)
	for _, c := range plantedImports {
		t.Run(c.name, func(t *testing.T) {
			faults := plan.faults(c.tree)
			if c.want == "" && len(faults) > 0 {
				t.Errorf("refused: %q", faults)
			}
			if c.want != "" && (len(faults) != 1 || !strings.Contains(faults[0], c.want)) {
				t.Errorf("faults %q, want one with %q", faults, c.want)
			}
		})
	}
}

func TestCircleIsCaught(t *testing.T) {
	tree := map[string]importLines{
		"trace":    {code: []string{house + "/evidence"}},
		"evidence": {code: []string{house + "/quantity"}},
		"quantity": {code: []string{"fmt", house + "/evidence"}},
	}
	want := []string{"evidence imports itself in a circle", "quantity imports itself in a circle"}
	if got := cycles(tree); !slices.Equal(got, want) {
		t.Errorf("cycles %q, want %q", got, want)
	}
}

func TestBrokenPlanIsRefused(t *testing.T) {
	cases := []struct{ name, text, want string }{
		{"one package on two floors", "floor 0 cite\nfloor 1 cite", "floors.txt:2: cite stands on two floors"},
		{"floors out of order", "floor 2 site\nfloor 1 cite", "comes after a higher one"},
		{"floor without a number", "floor low cite", "not a number"},
		{"unknown rule", "ceiling 3", "is no rule"},
		{"rule without a name", "only", "says nothing"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			if _, err := parsePlan(c.text); err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("error %v, want %q", err, c.want)
			}
		})
	}
}
