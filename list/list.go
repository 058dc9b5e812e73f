// Package list reads a table that somebody typed or a spreadsheet saved: it
// finds out how the letters are written and which sign stands between cells,
// names the columns by the head, and gives each record with the line of the
// file on which it begins.
//
// It refuses to guess at a record: one whose quotation marks do not close is a
// fault of that line alone, and reading goes on with the next. It knows no
// building and no breaker; what the cells mean is for package site.
//
// Start with Read.
package list

import (
	"fmt"
	"io"
	"strings"
)

// Largest is how many bytes a file may have. A line for each of 100,000 openings
// takes about a third of it.
const Largest = 32 << 20

// Column is a column that a table may have. Heads are compared without regard to
// capitals, spaces and signs.
type Column struct {
	Name string
	Also []string // other names of it
	Must bool     // a table without it cannot be used
}

// Table is a file that was read, ready to give its records.
type Table struct {
	Encoding  string   // how its letters are written: "UTF-8", "UTF-16", "Windows-1252"
	Separator string   // the sign between cells, in words: "comma"
	Head      []string // as it stands in the file
	Unknown   []string // heads of columns that are not used
	Empty     int      // lines without anything in them, up to the record given last

	records *reader
	behind  reader         // the head, to begin again
	at      map[string]int // cell of a column, by the column's name
}

// Record is one line of a table, or several where a line break stands between
// quotation marks.
type Record struct {
	Line  int      // of the file, on which it begins, from 1
	Cells []string // in the order of the file, spaces and line breaks made single spaces
	Fault string   // why it cannot be read; one sentence

	at map[string]int
}

// Unusable says that a file cannot be used as a table, and what to do.
type Unusable struct{ Say string }

func (u Unusable) Error() string { return u.Say }

func unusable(format string, args ...any) error { return Unusable{fmt.Sprintf(format, args...)} }

// Read reads a file whose first line names its columns. An error that is not an
// Unusable is one of from.
func Read(from io.Reader, columns []Column) (*Table, error) {
	data, err := io.ReadAll(io.LimitReader(from, Largest+1))
	if err != nil {
		return nil, fmt.Errorf("read list: %w", err)
	}
	if len(data) > Largest {
		return nil, unusable("This file is larger than %d MB. Split it, each part with the head.", Largest>>20)
	}
	text, encoding, err := decode(data)
	if err != nil {
		return nil, err
	}
	return begin(text, encoding, columns)
}

// begin reads the head, which also tells the separator: the one by which most
// columns are known, and of those the one that gives most cells.
func begin(text, encoding string, columns []Column) (*Table, error) {
	separators, text, line := separatorsOf(text)
	var best *Table
	known := -1
	for _, s := range separators {
		r := &reader{rest: text, line: line, separator: s}
		t := &Table{Encoding: encoding, Separator: separatorWord(s), records: r}
		head, ok := r.next()
		for ok && head.empty() {
			head, ok = r.next()
		}
		if !ok {
			return nil, unusable("There is nothing in this list. Its first line names the columns, the next ones hold what is listed.")
		}
		t.Head = head.Cells
		if n := t.name(columns); n > known || n == known && len(t.Head) > len(best.Head) {
			best, known = t, n
		}
	}
	best.behind = *best.records
	return best, best.check(columns)
}

// Again goes back to the first record.
func (t *Table) Again() {
	*t.records, t.Empty = t.behind, 0
}

// separatorsOf are the signs that may stand between cells. A first line such as
// "sep=;", which some spreadsheets write, says it and is no record.
func separatorsOf(text string) (separators []byte, rest string, line int) {
	first, after, _ := strings.Cut(text, "\n")
	first = strings.ToLower(strings.TrimSpace(first))
	if sign, ok := strings.CutPrefix(first, "sep="); ok && len(sign) == 1 && strings.Contains(",;|", sign) {
		return []byte(sign), after, 2
	}
	return []byte(",;\t|"), text, 1
}

func separatorWord(s byte) string {
	return map[byte]string{',': "comma", ';': "semicolon", '\t': "tab", '|': "upright stroke"}[s]
}

// name finds the columns of the head and returns how many are known.
func (t *Table) name(columns []Column) int {
	t.at = map[string]int{}
	names := map[string]string{}
	for _, c := range columns {
		for _, n := range append(c.Also, c.Name) {
			names[plain(n)] = c.Name
		}
	}
	for i, head := range t.Head {
		name, known := names[plain(head)]
		if _, twice := t.at[name]; known && !twice {
			t.at[name] = i
		} else if plain(head) != "" && !known && !ours(head) {
			t.Unknown = append(t.Unknown, head)
		}
	}
	return len(t.at)
}

// check refuses a head by which the records cannot be understood.
func (t *Table) check(columns []Column) error {
	var missing, all []string
	for _, c := range columns {
		all = append(all, c.Name)
		if _, there := t.at[c.Name]; c.Must && !there {
			missing = append(missing, c.Name)
		}
		if twice := t.twice(c); len(twice) > 1 {
			return unusable("Two columns mean the same: %s. Leave one.", strings.Join(twice, " and "))
		}
	}
	if len(missing) > 0 {
		return unusable("The first line names no column %s. It names the columns, some of these: %s.",
			strings.Join(missing, ", "), strings.Join(all, ", "))
	}
	return nil
}

// twice are the heads that name a column.
func (t *Table) twice(c Column) (out []string) {
	for _, head := range t.Head {
		for _, n := range append(c.Also, c.Name) {
			if plain(n) == plain(head) {
				out = append(out, head)
				break
			}
		}
	}
	return out
}

// The columns that Mend puts before the others; a list that comes back with them
// is read without.
const (
	lineHead = "line"
	whyHead  = "why"
)

func ours(head string) bool { return plain(head) == lineHead || plain(head) == whyHead }

// plain keeps letters and figures, in small letters.
func plain(head string) string {
	return strings.Map(func(r rune) rune {
		if strings.ContainsRune(" _-.:/()#\u00a0", r) {
			return -1
		}
		return r
	}, strings.ToLower(head))
}

// Next gives the next record that holds anything; false is the end.
func (t *Table) Next() (Record, bool) {
	for {
		r, ok := t.records.next()
		if !ok {
			return Record{}, false
		}
		if r.empty() {
			t.Empty++
			continue
		}
		r.at = t.at
		if more := r.beyond(len(t.Head)); more > 0 && r.Fault == "" {
			r.Fault = fmt.Sprintf("This line has %d cells, the head has %d. Put what holds a %s between quotation marks.", more, len(t.Head), t.Separator)
		}
		return r, true
	}
}

// beyond is how many cells a record has, when something stands beyond the head's.
func (r Record) beyond(head int) int {
	for i := len(r.Cells) - 1; i >= head; i-- {
		if r.Cells[i] != "" {
			return i + 1
		}
	}
	return 0
}

// Get is what stands in a column, "" where there is none.
func (r Record) Get(column string) string {
	if i, ok := r.at[column]; ok && i < len(r.Cells) {
		return r.Cells[i]
	}
	return ""
}

func (r Record) empty() bool {
	for _, c := range r.Cells {
		if c != "" {
			return false
		}
	}
	return r.Fault == ""
}
