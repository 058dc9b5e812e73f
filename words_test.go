package asfound_test

import (
	"path"
	"regexp"
	"strings"
	"testing"
)

// One word per thing: docs/words.md is the list, and these tests hold the tree
// to it. See texts_test.go for what counts as said.

// wordList is docs/words.md itself: it may spell what it refuses.
const wordList = "docs/words.md"

// refused is a phrase that may not be said.
type refused struct {
	say     string // the word instead
	phrase  *regexp.Regexp
	unless  []*regexp.Regexp // longer phrases that may hold it
	grave   bool             // a claim, not a second name
	comment bool             // refused in comments too
}

var quoted = regexp.MustCompile("`([^`]+)`")

// parseWords reads the tables. Those under "Never said" start with the phrase
// and say in a column of their own whether comments count.
func parseWords(text string) []refused {
	var list []refused
	grave := false
	for _, line := range strings.Split(text, "\n") {
		if strings.HasPrefix(line, "## ") {
			grave = line == "## Never said"
		}
		cells := strings.Split(line, "|")
		if len(cells) != 6 {
			continue
		}
		word, phrases := cells[1], cells[3]
		if grave {
			word, phrases = cells[2], cells[1]
		}
		unless := cells[4]
		if grave {
			unless = cells[3]
		}
		for _, phrase := range quoted.FindAllStringSubmatch(phrases, -1) {
			list = append(list, refused{say: strings.TrimSpace(word), phrase: phraseOf(phrase[1]),
				unless: phrasesOf(unless), grave: grave,
				comment: grave && strings.TrimSpace(cells[4]) == "everywhere"})
		}
	}
	return list
}

func phrasesOf(cell string) []*regexp.Regexp {
	var list []*regexp.Regexp
	for _, phrase := range quoted.FindAllStringSubmatch(cell, -1) {
		list = append(list, phraseOf(phrase[1]))
	}
	return list
}

// phraseOf matches the phrase in plain text, in the singular or plural.
func phraseOf(phrase string) *regexp.Regexp {
	return regexp.MustCompile(`\b` + strings.TrimSpace(plain(phrase)) + `(e?s)?\b`)
}

// plain is text as phrases are looked for: small letters, single spaces; a
// hyphen is a space, and any other sign stands between two phrases.
func plain(text string) string {
	var out strings.Builder
	for _, r := range strings.ToLower(text) {
		switch {
		case r == ' ' || r == '\n' || r == '\t' || r == '-' || r == '\u00a0' || r == '\u2011':
			out.WriteByte(' ')
		case r >= 'a' && r <= 'z' || r >= '0' && r <= '9' || r > 127:
			out.WriteRune(r)
		default:
			out.WriteString(" / ")
		}
	}
	return strings.Join(strings.Fields(out.String()), " ")
}

// found returns what of the list the text says, as it says it.
func (r refused) found(text string) []string {
	text = plain(text)
	var allowed [][]int
	for _, unless := range r.unless {
		allowed = append(allowed, unless.FindAllStringIndex(text, -1)...)
	}
	var said []string
	for _, at := range r.phrase.FindAllStringIndex(text, -1) {
		held := false
		for _, around := range allowed {
			held = held || around[0] <= at[0] && at[1] <= around[1]
		}
		if !held {
			said = append(said, text[at[0]:at[1]])
		}
	}
	return said
}

var (
	sentence = regexp.MustCompile(`[^.!?:;]*[.!?:;]?`)
	naming   = regexp.MustCompile(`(?i)\b(never|not)\s+says?\b`)
)

// claims drops the sentences that only name what is never said.
func claims(text string) string {
	return sentence.ReplaceAllStringFunc(text, func(s string) string {
		if naming.MatchString(s) {
			return " "
		}
		return s
	})
}

// faults judges one text. A comment may use second names: it is read by
// programmers; a claim it may not make either.
func (r refused) faults(s said) []string {
	if s.comment && !r.comment {
		return nil
	}
	text := s.text
	if r.grave {
		text = claims(text)
	}
	return r.found(text)
}

func TestOneWordPerThing(t *testing.T) {
	list := parseWords(readText(t, wordList))
	if len(list) < 40 {
		t.Fatalf("read %d refused phrases from %s: its tables are not being read", len(list), wordList)
	}
	texts := 0
	for _, name := range treeFiles(t) {
		if hidden(name) || name == wordList {
			continue
		}
		for _, s := range textsOf(t, name, readText(t, name)) {
			texts++
			for _, r := range list {
				for _, phrase := range r.faults(s) {
					t.Errorf("%s:%d says %q; say: %s", name, s.line, phrase, r.say)
				}
			}
		}
	}
	if texts < 100 {
		t.Fatalf("found %d texts: the tree is not being read", texts)
	}
}

// The list itself keeps to its words, and every row of it is read.
func TestWordListIsWhole(t *testing.T) {
	text := readText(t, wordList)
	list := parseWords(text)
	rowOf := map[string]int{}
	for i, line := range strings.Split(text, "\n") {
		if !strings.HasPrefix(line, "|") || strings.HasPrefix(line, "| ---") {
			continue
		}
		cells := strings.Split(line, "|")
		if len(cells) != 6 {
			t.Errorf("%s:%d has %d columns, want 4", wordList, i+1, len(cells)-2)
			continue
		}
		word := strings.TrimSpace(cells[1])
		if first := rowOf[word]; first > 0 && word != "word" {
			t.Errorf("%s:%d explains %q again, see line %d", wordList, i+1, word, first)
		}
		rowOf[word] = i + 1
		for _, r := range list {
			for _, phrase := range r.faults(said{text: prose(cells[1] + " / " + cells[2])}) {
				t.Errorf("%s:%d uses %q itself", wordList, i+1, phrase)
			}
		}
	}
}

func TestPlantedWordIsCaught(t *testing.T) {
	list := parseWords(readText(t, wordList))
	cases := []struct {
		name, file, text string
		want             string // what is caught, space between
	}{
		{"second name in a string", "web/a.go", "package web\nvar a = \"Choose a slot.\"", "slot"},
		{"plural", "web/a.go", "package web\nvar a = \"Two fuse boxes\"", "fuse boxes"},
		{"split by a hyphen", "web/a.go", "package web\nvar a = \"Open the Breaker-box.\"", "breaker box"},
		{"comma between", "web/a.go", "package web\nvar a = \"at the breaker, box in hand\"", ""},
		{"part of a longer word", "web/a.go", "package web\nvar a = \"A slotted screw\"", ""},
		{"trade's compound", "web/a.go", "package web\nvar a = \"Lighting outlets and receptacle outlets\"", ""},
		{"the same word by itself", "web/a.go", "package web\nvar a = \"Lighting outlets and other outlets\"", "outlets"},
		{"exported name", "web/a.go", "package web\ntype BreakerBox struct{}", "breaker box"},
		{"exported method", "web/a.go", "package web\nfunc (a b) SlotNumber() {}", "slot"},
		{"exported field", "web/a.go", "package web\ntype b struct{ FirstSlot int }", "slot"},
		{"name of its own", "web/a.go", "package web\nfunc slot() {}", ""},
		{"kind in the journal", "web/a.go", "package web\nvar a = \"readback.1\"", ""},
		{"struct tag", "web/a.go", "package web\ntype b struct { C int `json:\"slot\" x:\"a slot\"` }", ""},
		{"second name in a comment", "web/a.go", "package web\n// a slot of the schedule", ""},
		{"claim in a comment", "web/a.go", "package web\n// a proven path", "proven"},
		{"programmer's safe", "web/a.go", "package web\n// It is safe to call twice.", ""},
		{"claim in a string", "web/a.go", "package web\nvar a = \"It is safe to energize.\"", "safe to"},
		{"absence-of-voltage test", "web/a.go", "package web\nvar a = \"Proven dead at 10:40\"", ""},
		{"strings of a test", "web/a_test.go", "package web\nvar a = \"Is it approved?\"", ""},
		{"page", "web/a.html", "<p class=\"slot\">Next {{.Slot}} of the\n <b>fuse</b> box</p>", "fuse box"},
		{"page, what is read aloud", "web/a.html", "<button aria-label=\"Next slot\" id=slot>→</button>", "slot"},
		{"page, script", "web/a.html", "<style>.slot{}</style><script>let slot</script><!-- slot -->", ""},
		{"document", "docs/a.md", "The setup is quick.", "setup"},
		{"document, code", "docs/a.md", "Type `setup` or\n```\nsetup now\n```\n", ""},
		{"document, rule", "docs/a.md", "It never says safe, compliant or approved.", ""},
		{"document, claim after a rule", "docs/a.md", "We never say so. This is compliant.", "compliant"},
		{"script", "web/a.js", "show('The setup is gone'); let slot = 'slot'", "setup"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			var got []string
			for _, s := range textsOf(t, c.file, c.text) {
				for _, r := range list {
					got = append(got, r.faults(s)...)
				}
			}
			if strings.Join(got, " ") != c.want {
				t.Errorf("caught %q, want %q", got, c.want)
			}
		})
	}
}

// The tree must be understood by whoever has nothing else.
func TestTreeStandsAlone(t *testing.T) {
	for _, name := range treeFiles(t) {
		if path.Ext(name) == ".sum" {
			continue
		}
		for _, needle := range strayReferences(readText(t, name)) {
			t.Errorf("%s mentions %q, which is not in this tree", name, needle)
		}
	}
}

// stray matches what lies outside the tree. It is put together from pieces so
// that it does not match itself.
var stray = regexp.MustCompile(`(?i)\.\./sha` + `red\b|(^|[^\w.])/wo` + `rk/|\bsub-?ag` + `ents?\b|\blanguage\s+mod` +
	`els?\b|\bseed\s+docu` + `ments?\b|\.lib` + `rary/|/tmp/` + `h/|\bproxy\.gol` + `ang\.org|\bregistry\.np` + `mjs\.org`)

func strayReferences(text string) []string { return stray.FindAllString(text, -1) }

func TestPlantedReferenceIsCaught(t *testing.T) {
	cases := []struct {
		name, text string
		caught     bool
	}{
		{"design notes", "see ../sha" + "red/design", true},
		{"checkout", "in /wo" + "rk/main", true},
		{"checkout at the start", "/wo" + "rk/main", true},
		{"who wrote it", "as the Sub" + "agent said", true},
		{"where words came from", "the seed\ndocu" + "ment", true},
		{"registry", "https://proxy.gol" + "ang.org", true},
		{"paths of the tree", "../shar" + "ing/design, homewo" + "rk/ and testdata/wo" + "rk/", false},
		{"people at work", "a helper at work/rest", false},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			if got := strayReferences(c.text); (len(got) > 0) != c.caught {
				t.Errorf("caught %q, want caught: %v", got, c.caught)
			}
		})
	}
}
