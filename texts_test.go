package asfound_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode"
)

// said is a piece of text that somebody may read.
type said struct {
	text    string
	line    int
	comment bool // read by programmers only
}

// textsOf returns what a file says: of Go its exported names, comments and
// strings, of a page what is seen or read aloud, of a document its prose.
func textsOf(t *testing.T, name, text string) []said {
	t.Helper()
	switch path.Ext(name) {
	case ".go":
		return textsOfGo(t, name, text)
	case ".html", ".tmpl":
		return lines(visible(text))
	case ".md", ".txt":
		return lines(prose(text))
	case ".js":
		return textsOfScript(text)
	}
	return nil
}

func textsOfGo(t *testing.T, name, text string) []said {
	t.Helper()
	files := token.NewFileSet()
	file, err := parser.ParseFile(files, name, text, parser.ParseComments|parser.SkipObjectResolution)
	if err != nil {
		t.Errorf("read words: %v", err)
		return nil
	}
	var texts []said
	add := func(at token.Pos, text string, comment bool) {
		texts = append(texts, said{text, files.Position(at).Line, comment})
	}
	for _, group := range file.Comments {
		add(group.Pos(), group.Text(), true)
	}
	if strings.HasSuffix(name, "_test.go") {
		return texts // a test may spell what it refuses
	}
	ast.Inspect(file, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.ImportSpec:
			return false
		case *ast.BasicLit:
			if value, err := strconv.Unquote(n.Value); err == nil && n.Kind == token.STRING && forPeople(value) {
				add(n.Pos(), value, false)
			}
		case *ast.Field:
			addNames(add, n.Names...)
			n.Tag = nil
		case *ast.FuncDecl:
			addNames(add, n.Name)
		case *ast.TypeSpec:
			addNames(add, n.Name)
		case *ast.ValueSpec:
			addNames(add, n.Names...)
		}
		return true
	})
	return texts
}

// addNames adds exported names, split into their words.
func addNames(add func(token.Pos, string, bool), names ...*ast.Ident) {
	for _, name := range names {
		if name.IsExported() {
			add(name.Pos(), spaced(name.Name), false)
		}
	}
}

// spaced is a Go name as words: "BreakerBox" is "Breaker Box".
func spaced(name string) string {
	var out strings.Builder
	before := 'A'
	for _, r := range name {
		if unicode.IsUpper(r) && !unicode.IsUpper(before) {
			out.WriteByte(' ')
		}
		out.WriteRune(r)
		before = r
	}
	return out.String()
}

// forPeople guesses whether a string is read by people: it is a sentence or a
// label. A small word by itself is a key, a kind or a path.
func forPeople(text string) bool {
	first := []rune(text + " ")[0]
	return strings.ContainsAny(text, " \n") || unicode.IsUpper(first)
}

var (
	unseen = regexp.MustCompile(`(?is)<script\b.*?</script>|<style\b.*?</style>|<!--.*?-->|\{\{.*?\}\}`)
	aloud  = regexp.MustCompile(`(?is)\b(?:title|aria-label|placeholder|alt)="([^"]*)"`)
	inline = regexp.MustCompile(`(?is)</?(?:b|i|u|em|strong|span|a|small|abbr|mark)\b[^>]*>`)
	tag    = regexp.MustCompile(`(?s)<[^>]*>`)
)

// visible keeps of a page what is seen or read aloud, each piece on the line
// where it stood.
func visible(page string) string {
	page = unseen.ReplaceAllStringFunc(page, blank)
	page = inline.ReplaceAllStringFunc(page, func(t string) string { return heard(t, "") })
	return tag.ReplaceAllStringFunc(page, func(t string) string { return heard(t, " / ") })
}

// heard keeps the read attributes of a tag; between marks what is around them.
func heard(tag, between string) string {
	out := between
	for _, found := range aloud.FindAllStringSubmatch(tag, -1) {
		out += " / " + found[1] + " / "
	}
	return out + blank(tag)
}

// blank keeps only the line ends.
func blank(text string) string { return strings.Repeat("\n", strings.Count(text, "\n")) }

var codeText = regexp.MustCompile("(?s)```.*?```|`[^`\n]*`")

// prose keeps of a document what is not code.
func prose(text string) string { return codeText.ReplaceAllStringFunc(text, blank) }

var (
	scriptComment = regexp.MustCompile(`(?s)/\*.*?\*/|(^|\s)//[^\n]*`)
	scriptString  = regexp.MustCompile("'(?:[^'\\\\\n]|\\\\.)*'|\"(?:[^\"\\\\\n]|\\\\.)*\"|`(?:[^`\\\\]|\\\\.)*`")
)

func textsOfScript(text string) []said {
	var texts []said
	text = scriptComment.ReplaceAllStringFunc(text, blank)
	for _, at := range scriptString.FindAllStringIndex(text, -1) {
		if value := text[at[0]+1 : at[1]-1]; forPeople(value) {
			texts = append(texts, said{text: value, line: 1 + strings.Count(text[:at[0]], "\n")})
		}
	}
	return texts
}

// lines cuts a text at its empty lines, so that a phrase may run over a line
// end, and says where each part starts.
func lines(text string) []said {
	var texts []said
	start, part := 1, []string{}
	keep := func() {
		if joined := strings.Join(part, "\n"); strings.TrimSpace(joined) != "" {
			texts = append(texts, said{text: joined, line: start})
		}
	}
	for i, line := range strings.Split(text, "\n") {
		if strings.TrimSpace(line) == "" {
			keep()
			start, part = i+2, nil
			continue
		}
		part = append(part, line)
	}
	keep()
	return slices.Clip(texts)
}
