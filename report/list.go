package report

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"strings"

	"asfound/installation"
	"asfound/paper"
	"asfound/site"
)

// list is what a sheet says, as plain rows: for CSV, and to tell what changed.
type list struct {
	head []string
	rows []entry
}

// entry is one row; entries of one thing share a key, which is what people call
// the thing: "space 5", "A02-08". What is said of the thing is compared between
// two states; numbers that only count rows are no part of it.
type entry struct {
	key, said string
	cells     []string
}

func (l *list) add(key, said string, cells ...string) {
	l.rows = append(l.rows, entry{key, said, cells})
}

// CSV gives what a sheet says as comma-separated values with a head (RFC 4180).
// Cells that a table program would take for a formula begin with an apostrophe.
func CSV(a *site.AsFound, name string) ([]byte, error) { return Beside{}.CSV(a, name) }

// CSV is the rows of a sheet with what stands beside the site as found.
func (b Beside) CSV(a *site.AsFound, name string) ([]byte, error) {
	k, err := b.lookup(a, name)
	if err != nil {
		return nil, err
	}
	l, err := makers(k.Sort).rows(a, k)
	if err != nil {
		return nil, fmt.Errorf("make sheet %s: %w", name, err)
	}
	rows := [][]string{l.head}
	for _, r := range l.rows {
		cells := make([]string, len(r.cells))
		for i, c := range r.cells {
			cells[i] = unformula(c)
		}
		rows = append(rows, cells)
	}
	var out bytes.Buffer
	w := csv.NewWriter(&out)
	w.UseCRLF = true
	err = w.WriteAll(rows)
	return out.Bytes(), err
}

// unformula makes a cell plain text: a table program runs what begins with one
// of these signs.
func unformula(cell string) string {
	cell = paper.Clean(cell)
	if strings.ContainsAny(firstSign(cell), "=+-@＝＋－＠") {
		return "'" + cell
	}
	return cell
}

func firstSign(s string) string {
	for _, r := range strings.TrimLeft(s, " ") {
		return string(r)
	}
	return ""
}

// Changed says in words what on a sheet, by its name of now, has changed between
// two states of the site: what is called otherwise now, and a row for each thing
// whose words or standing differ besides. A sheet that could not be made of one
// of the two is an error.
func Changed(before, after *site.AsFound, name string) ([]string, error) {
	return Beside{}.Changed(before, after, name)
}

// Changed compares the rows of a sheet with what stands beside the site as found.
func (b Beside) Changed(before, after *site.AsFound, name string) ([]string, error) {
	now, err := b.lookup(after, name)
	if err != nil {
		return nil, err
	}
	then, found := same(before, now)
	if !found {
		return nil, fmt.Errorf("make sheet %s: there was none of it yet", name)
	}
	old, err := makers(then.Sort).rows(before, then)
	if err != nil {
		return nil, fmt.Errorf("make sheet %s as it was: %w", name, err)
	}
	made, err := makers(now.Sort).rows(after, now)
	if err != nil {
		return nil, fmt.Errorf("make sheet %s: %w", name, err)
	}
	renamed := renamings(before, after)
	var out []string
	for _, r := range renamed {
		if old.names(r.was, then.Title+", "+place(before, then)) {
			out = append(out, r.Say())
		}
	}
	return append(out, differ(said(old, namesNow(before, renamed)), said(made, nil))...), nil
}

// differ says what stands otherwise in one than in the other, by their keys. What
// was is told with the names of now.
func differ(was, is words) []string {
	var out []string
	for _, key := range was.order {
		switch now, still := is.text[key]; {
		case !still:
			out = append(out, fmt.Sprintf("%s: was “%s”, is no longer on the sheet", key, was.text[key]))
		case now != was.text[key]:
			out = append(out, fmt.Sprintf("%s: was “%s”, is now “%s”", key, was.text[key], now))
		}
	}
	for _, key := range is.order {
		if _, before := was.text[key]; !before {
			out = append(out, fmt.Sprintf("%s: is new, “%s”", key, is.text[key]))
		}
	}
	return out
}

// words are the rows of a sheet by their keys.
type words struct {
	order []string
	text  map[string]string
}

func said(l list, now installation.Names) words {
	out := words{text: map[string]string{}}
	for _, r := range l.rows {
		key, text := now.In(r.key), now.In(r.said)
		if earlier, again := out.text[key]; again {
			text = earlier + "; " + text
		} else {
			out.order = append(out.order, key)
		}
		out.text[key] = text
	}
	return out
}
