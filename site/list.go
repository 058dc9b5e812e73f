package site

import (
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"
	"unicode"

	"asfound/journal"
	"asfound/list"
	"asfound/observation"
)

// ListKind is what the lines of a list are about.
type ListKind string

// The kinds of list that are taken in, in the order in which one is built on
// the other.
const (
	ListOpenings ListKind = "openings"
	ListPanels   ListKind = "panels"
	ListCircuits ListKind = "circuits" // what the labels and breakers at each space say
	ListDrawn    ListKind = "drawn"    // openings on a drawing
)

// ListKinds lists the kinds.
var ListKinds = []ListKind{ListOpenings, ListPanels, ListCircuits, ListDrawn}

// List is a table that somebody brings.
type List struct {
	Kind ListKind
	File string // its name, kept with each entry
	From io.Reader
	Who  string
	Look bool // only say what would be kept
}

// Became is what became of a line.
type Became string

// What becomes of a line: something of it is kept, everything in it is on record
// already, or it cannot be used.
const (
	Kept Became = "kept"
	Same Became = "already there"
	Bad  Became = "bad"
)

// Line is one record of a list with what became of it. A bad one says in which
// column, what stood there, and in one sentence what to do.
type Line struct {
	Number             int // of the file, on which it begins
	Became             Became
	Column, Stood, Say string
	cells              []string
}

// Taken says what became of a list.
type Taken struct {
	List
	Encoding, Separator string
	Lines               []Line
	Empty               int      // lines with nothing in them
	Unknown             []string // columns that were not used
	New                 []string // buildings and rooms recorded for it, in words
	Entries             int      // observations kept, or that would be
	First               observation.ID

	head []string
}

// Count is how many lines became that.
func (t Taken) Count(b Became) (n int) {
	for _, l := range t.Lines {
		if l.Became == b {
			n++
		}
	}
	return n
}

// Bad are the lines that cannot be used, in the order of the file.
func (t Taken) Bad() []Line {
	return slices.DeleteFunc(slices.Clone(t.Lines), func(l Line) bool { return l.Became != Bad })
}

// Mend writes the bad lines as a list to be put right and brought again.
func (t Taken) Mend(w io.Writer) error {
	var bad []list.Bad
	for _, l := range t.Bad() {
		why := l.Say
		if l.Column != "" {
			why = l.Column + ": " + l.Say
		}
		bad = append(bad, list.Bad{Line: l.Number, Why: why, Cells: l.cells})
	}
	return list.Mend(w, t.head, bad)
}

// TakeIn keeps the lines of a list that can be used, and says of each line what
// became of it. A line that is on record already changes nothing; one that says
// something else than what is on record is bad, and what it adds to what is
// unknown there is kept. Buildings and rooms that are named and not on record are
// recorded. When it returns without an error, what it kept is durable, all
// together. A file that cannot be used as a whole is an observation.Unusable.
func (s *Site) TakeIn(l List) (Taken, error) {
	columns, known := listColumns[l.Kind]
	if !known {
		return Taken{}, observation.Unusable{Field: "kind", Typed: string(l.Kind), Say: sayListKind}
	}
	sum := sha256.New()
	table, err := list.Read(io.TeeReader(l.From, sum), columns)
	var unusable list.Unusable
	if errors.As(err, &unusable) {
		return Taken{}, observation.Unusable{Field: "file", Typed: l.File, Say: unusable.Say}
	} else if err != nil {
		return Taken{}, err
	}
	l.From = nil
	s.mu.Lock()
	defer s.mu.Unlock()
	if err := s.catchUp(); err != nil {
		return Taken{}, err
	}
	t, err := newTaking(s.fold.Installation(), l, hex.EncodeToString(sum.Sum(nil)[:3]), s.now())
	if err != nil {
		return Taken{}, err
	}
	out := t.take(table)
	if l.Look || len(t.wanted) == 0 {
		return out, nil
	}
	if out.First, err = s.keepAll(t.wanted); err != nil {
		return Taken{}, fmt.Errorf("take in %s: %w", l.File, err)
	}
	return out, nil // kept; what follows is for the next who asks
}

// keepAll records what a list holds, all or nothing where the journal can.
func (s *Site) keepAll(all []*wanted) (first observation.ID, err error) {
	made := map[observation.Thing]observation.Thing{}
	err = s.together(func(add journal.Adder) error {
		for i, w := range all {
			e, err := add(w.resolved(made))
			if err != nil {
				return err
			}
			if made[w.thing] = e.Event.ID.Thing(); i == 0 {
				first = e.Event.ID
			}
		}
		return nil
	})
	return first, err
}

// together appends several observations in one go, one by one to a journal that
// cannot.
func (s *Site) together(do func(journal.Adder) error) error {
	if j, ok := s.journal.(interface {
		Together(func(journal.Adder) error) error
	}); ok {
		return j.Together(do)
	}
	return do(s.journal.Append)
}

// take judges the records of a table one by one.
func (t *taking) take(table *list.Table) Taken {
	t.lookAhead(table)
	out := Taken{List: t.list, Encoding: table.Encoding, Separator: table.Separator, Unknown: table.Unknown, head: table.Head}
	left := map[int]list.Record{} // the bad ones, by their place
	for r, ok := table.Next(); ok; r, ok = table.Next() {
		out.Lines = append(out.Lines, t.line(r))
		if n := len(out.Lines) - 1; out.Lines[n].Became == Bad && r.Fault == "" {
			left[n] = r
		}
	}
	for t.again(left, out.Lines) {
	}
	out.New, out.Entries, out.Empty = t.made, len(t.wanted), table.Empty
	return out
}

// again judges the bad lines once more: one that did not fit may fit beside what
// a later line added. It reports whether one did.
func (t *taking) again(left map[int]list.Record, lines []Line) (fitted bool) {
	for _, i := range slices.Sorted(maps.Keys(left)) {
		if lines[i] = t.line(left[i]); lines[i].Became != Bad {
			delete(left, i)
			fitted = true
		}
	}
	return fitted
}

func (t *taking) line(r list.Record) Line {
	out := Line{Number: r.Line, Became: Kept}
	more, err := false, error(nil)
	if r.Fault != "" {
		err = observation.Unusable{Say: r.Fault}
	} else {
		more, err = listReaders[t.list.Kind](t, r)
	}
	var u observation.Unusable
	switch {
	case errors.As(err, &u):
		out = Line{Number: r.Line, Became: Bad, Column: u.Field, Stood: u.Typed, Say: u.Say, cells: r.Cells}
	case !more:
		out.Became = Same
	}
	return out
}

// longestFileName is how many letters of a file's name are kept.
const longestFileName = 80

// fileName is a name as it can be kept: the last part of a path, short.
func fileName(name string) string {
	if i := strings.LastIndexAny(name, `/\`); i >= 0 {
		name = name[i+1:]
	}
	letters := []rune(strings.Join(strings.Fields(strings.ToValidUTF8(name, "")), " "))
	letters = slices.DeleteFunc(letters, func(r rune) bool { return unicode.IsControl(r) || r == unicode.ReplacementChar })
	return cmp.Or(string(letters[:min(len(letters), longestFileName)]), "list")
}
