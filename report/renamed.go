package report

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"asfound/observation"
	"asfound/site"
)

// renaming is a thing that was called otherwise when a sheet was made.
type renaming struct{ was, is string }

// Say is told to whoever holds the sheet.
func (r renaming) Say() string { return fmt.Sprintf("%s on this sheet is %s now", r.was, r.is) }

// renamings are the things that bear another name after than before, in the
// order of the property.
func renamings(before, after *site.AsFound) []renaming {
	var out []renaming
	add := func(t observation.Thing) {
		if was, is := before.Name(t), after.Name(t); was != is && after.Story(t) != nil && is != nameless {
			out = append(out, renaming{was, is})
		}
	}
	for _, b := range before.Buildings {
		add(b.Thing)
	}
	for _, r := range before.Rooms {
		add(r.Thing)
	}
	for _, p := range before.Panels {
		add(p.Thing)
	}
	for _, o := range before.Openings {
		add(o.Thing)
	}
	for _, s := range before.Sources {
		add(s.Thing)
	}
	return out
}

// nameless is what a thing is called that is no longer on record.
const nameless = "not recorded"

// calledNow puts the names of now into words from before, all at once, so that two
// things may have exchanged theirs. A name that two things bore is left: which is
// meant cannot be told.
type calledNow map[string]string

func namesNow(before *site.AsFound, renamed []renaming) calledNow {
	bearers := map[string]int{}
	for _, o := range before.Openings {
		bearers[o.Number]++
	}
	for _, p := range before.Panels {
		bearers[p.Name]++
	}
	for _, r := range before.Rooms {
		bearers[r.Name]++
	}
	for _, b := range before.Buildings {
		bearers[b.Name]++
	}
	out := calledNow{}
	for _, r := range renamed {
		if bearers[r.was] < 2 {
			out[r.was] = r.is
		}
	}
	return out
}

// in replaces each old name that stands as a word of its own, the longest first.
func (n calledNow) in(text string) string {
	if len(n) == 0 {
		return text
	}
	old := make([]string, 0, len(n))
	for was := range n {
		old = append(old, was)
	}
	slices.SortFunc(old, func(a, b string) int { return len(b) - len(a) })
	var out strings.Builder
	for at := 0; at < len(text); {
		i := slices.IndexFunc(old, func(was string) bool { return strings.HasPrefix(text[at:], was) && alone(text, at, len(was)) })
		if i >= 0 {
			out.WriteString(n[old[i]])
			at += len(old[i])
			continue
		}
		_, size := utf8.DecodeRuneInString(text[at:])
		out.WriteString(text[at : at+size])
		at += size
	}
	return out.String()
}

// alone reports whether no letter or figure stands beside a part of a text.
func alone(text string, at, size int) bool {
	before, _ := utf8.DecodeLastRuneInString(text[:at])
	after, _ := utf8.DecodeRuneInString(text[at+size:])
	return !isWord(before) && !isWord(after)
}

func isWord(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) }

// names reports whether a name stands somewhere on a sheet.
func (l list) names(name, head string) bool {
	texts := []string{head}
	for _, r := range l.rows {
		texts = append(texts, r.key, r.said)
		texts = append(texts, r.cells...)
	}
	for _, text := range texts {
		for at := 0; name != "" && at < len(text); at++ {
			i := strings.Index(text[at:], name)
			if i < 0 {
				break
			}
			if at += i; alone(text, at, len(name)) {
				return true
			}
		}
	}
	return false
}

// Follow finds the sheet that is about the same as one that was made before,
// under its name of now: sheets are called after what they are about.
func Follow(before, after *site.AsFound, name string) (now Kind, found bool) {
	was, err := lookup(before, name)
	if err != nil {
		return Kind{}, false
	}
	return same(after, was)
}

// same finds the sheet of a sort about a thing.
func same(a *site.AsFound, k Kind) (Kind, bool) {
	for _, other := range Sheets(a) {
		if other.Of == k.Of && other.Sort == k.Sort {
			return other, true
		}
	}
	return Kind{}, false
}
