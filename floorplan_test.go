package asfound_test

import (
	"fmt"
	"maps"
	"path"
	"slices"
	"strconv"
	"strings"
)

// floorPlan is floors.txt, read.
type floorPlan struct {
	floor    map[string]int
	apart    []string
	fixtures []string
	only     map[string][]string // door of ours: who may use it
	std      map[string][]string // standard package: who may use it
	modules  map[string][]string // module of others: who may use it
}

// emptyNames say nothing about what a package holds.
var emptyNames = []string{"util", "utils", "common", "helper", "helpers", "manager", "service", "base", "misc"}

// anyTest stands for every test file in a list of who may use something.
const anyTest = "tests"

func parsePlan(text string) (floorPlan, error) {
	plan := floorPlan{floor: map[string]int{}, only: map[string][]string{},
		std: map[string][]string{}, modules: map[string][]string{}}
	for i, line := range strings.Split(text, "\n") {
		line, _, _ = strings.Cut(line, "#")
		words := strings.Fields(line)
		if len(words) == 0 {
			continue
		}
		if err := plan.add(words); err != nil {
			return plan, fmt.Errorf("floors.txt:%d: %w", i+1, err)
		}
	}
	return plan, nil
}

func (p *floorPlan) add(words []string) error {
	if len(words) < 2 {
		return fmt.Errorf("%q says nothing", words[0])
	}
	name, users := words[1], words[2:]
	switch words[0] {
	case "floor":
		return p.addFloor(name, users)
	case "apart":
		p.apart = append(p.apart, words[1:]...)
	case "fixture":
		p.fixtures = append(p.fixtures, words[1:]...)
	case "only":
		p.only[name] = users
	case "import":
		p.std[name] = users
	case "module":
		p.modules[name] = users
	default:
		return fmt.Errorf("%q is no rule", words[0])
	}
	return nil
}

func (p *floorPlan) addFloor(number string, names []string) error {
	height, err := strconv.Atoi(number)
	if err != nil {
		return fmt.Errorf("floor %q is not a number", number)
	}
	for _, name := range names {
		if _, twice := p.floor[name]; twice {
			return fmt.Errorf("%s stands on two floors", name)
		}
		if height < slices.Max(append(slices.Collect(maps.Values(p.floor)), 0)) {
			return fmt.Errorf("floor %d comes after a higher one", height)
		}
		p.floor[name] = height
	}
	return nil
}

// faults returns one sentence for each import or name that breaks the plan. The
// key of the map is the folder, "." for the root.
func (p *floorPlan) faults(tree map[string]importLines) []string {
	var faults []string
	for _, folder := range slices.Sorted(maps.Keys(tree)) {
		faults = append(faults, p.placeFaults(folder)...)
		for _, target := range tree[folder].code {
			if why := p.refuse(folder, target, false); why != "" {
				faults = append(faults, fmt.Sprintf("%s imports %s: %s", folder, target, why))
			}
		}
		for _, target := range tree[folder].tests {
			if why := p.refuse(folder, target, true); why != "" {
				faults = append(faults, fmt.Sprintf("a test in %s imports %s: %s", folder, target, why))
			}
		}
	}
	return append(faults, cycles(tree)...)
}

// placeFaults judges the folder itself: its name and whether it has a floor.
func (p *floorPlan) placeFaults(folder string) []string {
	var faults []string
	for _, part := range strings.Split(folder, "/") {
		if slices.Contains(emptyNames, part) {
			faults = append(faults, fmt.Sprintf("%s: %q says nothing about what is in it", folder, part))
		}
	}
	_, known := p.floor[top(folder)]
	if !known && folder != "." && !slices.Contains(p.apart, top(folder)) {
		faults = append(faults, fmt.Sprintf("%s has no floor: give it one in floors.txt", folder))
	}
	return faults
}

// refuse says why the folder may not import the target; "" when it may.
func (p *floorPlan) refuse(folder, target string, test bool) string {
	if target == house {
		return "the root holds no code"
	}
	if own, ok := strings.CutPrefix(target, house+"/"); ok {
		if why := p.refuseFloor(folder, own, test); why != "" {
			return why
		}
		return forbidden(p.only, own, folder, test)
	}
	if !strings.Contains(strings.Split(target, "/")[0], ".") {
		return forbidden(p.std, target, folder, test)
	}
	if _, known := rule(p.modules, target); !known {
		return "this module is not in floors.txt"
	}
	return forbidden(p.modules, target, folder, test)
}

// refuseFloor judges an import within the house by height alone.
func (p *floorPlan) refuseFloor(folder, target string, test bool) string {
	here, there := top(folder), top(target)
	if slices.Contains(p.apart, here) || slices.Contains(p.apart, there) {
		if here == there {
			return ""
		}
		return "tools and house do not know each other"
	}
	if folder == "." {
		return "the root's tests read the tree, they run none of it"
	}
	if test && (here == there || slices.ContainsFunc(p.fixtures, func(f string) bool { return within(target, f) })) {
		return ""
	}
	if here == there {
		if within(folder, target) {
			return ""
		}
		return "same floor; only a folder below may import its parent"
	}
	height, known := p.floor[there]
	if !known {
		return "that package has no floor"
	}
	if height > p.floor[here] {
		return "upward"
	}
	if height == p.floor[here] && !test {
		return "same floor"
	}
	return ""
}

// forbidden looks the target up among rules of who may use what.
func forbidden(rules map[string][]string, target, folder string, test bool) string {
	users, known := rule(rules, target)
	if !known || test && slices.Contains(users, anyTest) ||
		slices.ContainsFunc(users, func(user string) bool { return within(folder, user) }) {
		return ""
	}
	if len(users) == 0 {
		return "nobody may, see floors.txt"
	}
	return "for " + strings.Join(users, ", ") + " only, see floors.txt"
}

// rule finds the rule for the target: one of its own or the nearest above. A
// standard package that is named binds what lies below it too, except that
// "log" and "math/rand" do not bind "log/slog" and "math/rand/v2".
func rule(rules map[string][]string, target string) ([]string, bool) {
	if target == "log/slog" || target == "math/rand/v2" {
		return nil, false
	}
	for name := target; name != "."; name = path.Dir(name) {
		if users, ok := rules[name]; ok {
			return users, true
		}
	}
	return nil, false
}

// cycles names each package that reaches itself through the house's imports.
func cycles(tree map[string]importLines) []string {
	var faults []string
	for _, start := range slices.Sorted(maps.Keys(tree)) {
		seen := map[string]bool{}
		if reaches(tree, start, start, seen) {
			faults = append(faults, start+" imports itself in a circle")
		}
	}
	return faults
}

func reaches(tree map[string]importLines, from, goal string, seen map[string]bool) bool {
	for _, target := range tree[from].code {
		next, ours := strings.CutPrefix(target, house+"/")
		if !ours || seen[next] {
			continue
		}
		seen[next] = true
		if next == goal || reaches(tree, next, goal, seen) {
			return true
		}
	}
	return false
}

// top is the first folder of a path: the package that a floor names.
func top(folder string) string {
	first, _, _ := strings.Cut(folder, "/")
	return first
}

// within tells whether the folder is the other one or lies below it.
func within(folder, other string) bool {
	return folder == other || strings.HasPrefix(folder, other+"/")
}
