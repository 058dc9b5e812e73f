package list

import (
	"bytes"
	"encoding/csv"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

var some = []Column{{Name: "room", Must: true}, {Name: "number", Also: []string{"no"}, Must: true}, {Name: "note"}}

func read(t testing.TB, text string) (*Table, []Record) {
	t.Helper()
	table, err := Read(strings.NewReader(text), some)
	if err != nil {
		t.Fatal(err)
	}
	var out []Record
	for r, ok := table.Next(); ok; r, ok = table.Next() {
		out = append(out, r)
	}
	return table, out
}

// Quoting as RFC 4180 section 2 has it, rules 5 to 7, and what people write
// besides.
func TestQuoting(t *testing.T) {
	for name, c := range map[string]struct{ cell, want string }{
		"quoted (rule 5)":                 {`"Hall"`, "Hall"},
		"line break and comma (rule 6)":   {"\"Hall,\r\nleft\"", "Hall, left"},
		"quotation mark twice (rule 7)":   {`"the ""big"" hall"`, `the "big" hall`},
		"nothing between":                 {`""`, ""},
		"only a quotation mark":           {`""""`, `"`},
		"blanks around":                   {` "Hall" `, "Hall"},
		"an inch mark, not quoted":        {`48"`, `48"`},
		"an apostrophe before a formula":  {`'=1+1`, "=1+1"},
		"an apostrophe before a negative": {`'-1`, "-1"},
		"an apostrophe before a name":     {`'t Hooft`, "'t Hooft"},
		"blanks within":                   {"Great   room\u00a0left", "Great room left"},
	} {
		t.Run(name, func(t *testing.T) {
			_, got := read(t, "room,number,note\nx,1,"+c.cell+"\ny,2,\n")
			if len(got) != 2 || got[0].Get("note") != c.want || got[0].Fault != "" || got[1].Get("number") != "2" {
				t.Errorf("read %+v, want %q", got, c.want)
			}
		})
	}
}

// A line that cannot be read is one line; lines are counted as an editor does.
func TestABadLineIsOneLine(t *testing.T) {
	_, got := read(t, "room,number,note\r\nA,1,\"one\r\ntwo\"\r\nB,\"2,open\r\nC,3,\"x\"y\r\n\r\nD,4,\n")
	var lines []int
	for _, r := range got {
		lines = append(lines, r.Line)
	}
	if !slices.Equal(lines, []int{2, 4, 5, 7}) || got[1].Fault != sayAfter && got[1].Fault != sayOpen || got[2].Fault != sayAfter || got[3].Get("number") != "4" {
		t.Errorf("lines %v: %+v", lines, got)
	}
}

func TestColumns(t *testing.T) {
	table, got := read(t, "\n\nNo.;color;ROOM;line;why;\n 7;blue;Hall;12;because;\n8;;Den\n")
	if !slices.Equal(table.Unknown, []string{"color"}) || table.Separator != "semicolon" {
		t.Errorf("unknown %v, separator %s", table.Unknown, table.Separator)
	}
	if len(got) != 2 || got[0].Get("number") != "7" || got[0].Get("room") != "Hall" || got[0].Get("note") != "" || got[1].Get("room") != "Den" || got[0].Line != 4 {
		t.Errorf("read %+v", got)
	}
}

// What Mend writes is a list that holds what stood in the bad lines, and another
// program reads the same cells from it.
func TestMendedListsAreReadAgain(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cell := rapid.StringOf(rapid.RuneFrom([]rune("ab,;\"' =+-@\n\r\tüˢ1"))).Filter(func(s string) bool { return tidy(tidy(s)) == tidy(s) })
		var bad []Bad
		for i := range rapid.IntRange(1, 5).Draw(t, "lines") {
			bad = append(bad, Bad{Line: i + 2, Why: "mend it", Cells: []string{"x" + tidy(cell.Draw(t, "room")), "1", tidy(cell.Draw(t, "note"))}})
		}
		var out bytes.Buffer
		if err := Mend(&out, []string{"room", "number", "note"}, bad); err != nil {
			t.Fatal(err)
		}
		rows, err := csv.NewReader(bytes.NewReader(out.Bytes())).ReadAll()
		if err != nil || len(rows) != len(bad)+1 {
			t.Fatalf("%d rows, %v", len(rows), err)
		}
		table, err := Read(&out, some)
		if err != nil || len(table.Unknown) > 0 {
			t.Fatalf("%v, unknown %v", err, table.Unknown)
		}
		for _, b := range bad {
			r, ok := table.Next()
			if !ok || r.Fault != "" || r.Get("room") != b.Cells[0] || r.Get("note") != b.Cells[2] {
				t.Fatalf("read %+v, want %q", r, b.Cells)
			}
		}
	})
}

// Whatever the bytes, reading ends, every line is passed once, and no cell of a
// good record holds more than stood in the file.
func FuzzRead(f *testing.F) {
	for _, seed := range []string{"room,number\nHall,1\n", "room;no;note\n\"a\n\"\"b\";2;\"", "\xef\xbb\xbfroom\tnumber\n\xfc\t1", "\xff\xfer\x00o\x00", "sep=|\nroom|no\n|", "room,number\r\r\n\"", "PK\x03\x04"} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		table, err := Read(bytes.NewReader(data), some)
		if err != nil {
			return
		}
		last, n := 0, 0
		for r, ok := table.Next(); ok; r, ok = table.Next() {
			if r.Line <= last {
				t.Fatalf("line %d after line %d", r.Line, last)
			}
			last = r.Line
			n++
		}
		text, _, _ := decode(data)
		if most := lineEnds(text) + 1; last > most || n+table.Empty > most {
			t.Fatalf("line %d, %d records and %d empty lines in %d lines", last, n, table.Empty, most)
		}
	})
}

// Many quotation marks that never close cost no more than their lines.
func TestManyOpenQuotationMarks(t *testing.T) {
	_, got := read(t, "room,number\n"+strings.Repeat("x,\"\n", 50_000))
	if len(got) < 25_000 {
		t.Errorf("%d records", len(got))
	}
}
