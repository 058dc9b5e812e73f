package site

import (
	"bytes"
	"fmt"
	"os"
	"strings"
	"testing"
	"unicode/utf16"

	"asfound/journal"

	"asfound/observation"
)

// bring takes in a list and wants it usable as a whole.
func bring(t testing.TB, s *Site, k ListKind, text string) Taken {
	t.Helper()
	out, err := s.TakeIn(List{Kind: k, File: string(k) + ".csv", From: strings.NewReader(text), Who: "Marit Sandvei"})
	if err != nil {
		t.Fatalf("take in %s: %v", k, err)
	}
	return out
}

// counts wants so many lines of each.
func counts(t testing.TB, got Taken, kept, same, bad int) {
	t.Helper()
	if k, s, b := got.Count(Kept), got.Count(Same), got.Count(Bad); k != kept || s != same || b != bad {
		t.Errorf("kept %d, already there %d, bad %d; want %d, %d, %d\n%s", k, s, b, kept, same, bad, saidOf(got))
	}
}

func saidOf(got Taken) string {
	var out strings.Builder
	for _, l := range got.Lines {
		fmt.Fprintf(&out, "%d %s %s %q %s\n", l.Number, l.Became, l.Column, l.Stood, l.Say)
	}
	return out.String()
}

func asFound(t testing.TB, s *Site) *AsFound {
	t.Helper()
	found, err := s.AsFound()
	if err != nil {
		t.Fatal(err)
	}
	return found
}

const someOpenings = "Building,Floor,Room,Number,Use,Gangs,Height,Depth,Cables,Note\n" +
	"A,0,A02 Great room,A02-01,receptacle,1,16,1/4,2,\n" +
	"A,0,A02 Great room,A02-02,Switches,2,48 in,,3,\"by the \"\"big\"\" door\nleft\"\n" +
	"\n,,,,,,,,,\n" +
	"A,1,A11 Bath,A11-01,Light,?,84.5,,,\n"

func TestOpeningsFromAList(t *testing.T) {
	s := open(t)
	got := bring(t, s, ListOpenings, someOpenings)
	counts(t, got, 3, 0, 0)
	if got.Empty != 2 || got.Separator != "comma" || got.Encoding != "UTF-8" || len(got.New) != 3 {
		t.Errorf("%d empty, %s, %s, new %v", got.Empty, got.Separator, got.Encoding, got.New)
	}
	found := asFound(t, s)
	if len(found.Openings) != 3 || len(found.Rooms) != 2 || found.Rooms[1].Floor != 1 {
		t.Fatalf("%d openings, rooms %v", len(found.Openings), found.Rooms)
	}
	o := found.Openings[1]
	if o.Number != "A02-02" || o.Use != observation.Switch || o.Gangs != 2 || o.Height != 48 || len(o.Cables) != 3 || o.Note != `by the "big" door left` || o.Order != 2 {
		t.Errorf("kept as %+v with %d cables", o.Opening, len(o.Cables))
	}
	first := o.Story[0]
	if file, line, ok := FromFile(first.Observation); !ok || !strings.HasPrefix(file, "openings.csv (") || line != 3 || first.Who != "Marit Sandvei" {
		t.Errorf("it comes from %q line %d, by %s", file, line, first.Who)
	}
	if again := got.Lines[2].Number; again != 7 {
		t.Errorf("the record behind a line break and two empty lines is on line %d, want 7", again)
	}
}

// The same file twice changes nothing.
func TestAListTwice(t *testing.T) {
	s := open(t)
	for k, text := range map[ListKind]string{ListOpenings: someOpenings} {
		bring(t, s, k, text)
		before := asFound(t, s).Revision
		got := bring(t, s, k, text)
		counts(t, got, 0, 3, 0)
		if after := asFound(t, s).Revision; after != before || got.Entries != 0 {
			t.Errorf("%s: %d entries more", k, after-before)
		}
	}
}

// Looking keeps nothing, and says what keeping would.
func TestLookBeforeKeeping(t *testing.T) {
	s := open(t)
	look, err := s.TakeIn(List{Kind: ListOpenings, File: "a.csv", From: strings.NewReader(someOpenings), Who: "Marit Sandvei", Look: true})
	if err != nil || asFound(t, s).Revision != 0 {
		t.Fatalf("revision %d, %v", asFound(t, s).Revision, err)
	}
	kept := bring(t, s, ListOpenings, someOpenings)
	if saidOf(look) != saidOf(kept) || look.Entries != kept.Entries || asFound(t, s).Revision != int64(kept.Entries) {
		t.Errorf("looked:\n%skept:\n%s", saidOf(look), saidOf(kept))
	}
}

// However it was written, the same list.
func TestListsAreReadHoweverTheyAreWritten(t *testing.T) {
	plain := "building;room;number;height;note\nA;Küche;A02-01;48,5;größer\nA;Küche;A02-02;;\n"
	wide := func(first, second byte, order func(uint16) [2]byte) []byte {
		out := []byte{first, second}
		for _, u := range utf16.Encode([]rune(plain)) {
			b := order(u)
			out = append(out, b[:]...)
		}
		return out
	}
	little := func(u uint16) [2]byte { return [2]byte{byte(u), byte(u >> 8)} }
	big := func(u uint16) [2]byte { return [2]byte{byte(u >> 8), byte(u)} }
	latin := strings.NewReplacer("ü", "\xfc", "ö", "\xf6", "ß", "\xdf").Replace(plain)
	for name, data := range map[string][]byte{
		"UTF-8": []byte(plain), "with a byte-order mark": []byte("\ufeff" + plain), "Windows-1252": []byte(latin),
		"UTF-16 little": wide(0xff, 0xfe, little), "UTF-16 big": wide(0xfe, 0xff, big),
		"UTF-16 without a mark": wide(0xff, 0xfe, little)[2:], "big without a mark": wide(0xfe, 0xff, big)[2:],
		"tabs": []byte(strings.ReplaceAll(plain, ";", "\t")), "strokes": []byte(strings.ReplaceAll(plain, ";", " | ")),
		"sep line": []byte("sep=;\r\n" + plain), "CRLF": []byte(strings.ReplaceAll(plain, "\n", "\r\n")), "CR": []byte(strings.ReplaceAll(plain, "\n", "\r")),
		"no last line end": []byte(strings.TrimSuffix(plain, "\n")), "quoted": []byte("\"building\";\"room\";\"number\";\"height\";\"note\"\n\"A\";\"Küche\";\"A02-01\";\"48,5\";\"größer\"\nA;Küche;A02-02;;\n"),
		"commas":                   []byte("building,room,number,height,note\nA,Küche,A02-01,\"48,5\",größer\nA,Küche,A02-02\n"),
		"columns in another order": []byte("NOTE;Height (in);Opening No.;Bldg.;ROOM\ngrößer;48,5;A02-01;A;Küche\n;;A02-02;A;Küche\n"),
	} {
		t.Run(name, func(t *testing.T) {
			s := open(t)
			got, err := s.TakeIn(List{Kind: ListOpenings, File: "a.csv", From: bytes.NewReader(data), Who: "Marit Sandvei"})
			if err != nil {
				t.Fatal(err)
			}
			counts(t, got, 2, 0, 0)
			o := asFound(t, s).Openings[0]
			if o.Height != 48.5 || o.Note != "größer" || asFound(t, s).Rooms[0].Name != "Küche" {
				t.Errorf("read as %+v in %s", o.Opening, asFound(t, s).Rooms[0].Name)
			}
		})
	}
}

func TestFilesThatCannotBeUsed(t *testing.T) {
	for name, c := range map[string]struct{ text, say string }{
		"empty":                {"", "nothing in this list"},
		"blank lines":          {"\n \n\t\n", "nothing in this list"},
		"no number":            {"building,room\nA,Hall\n", "names no column number"},
		"two of one":           {"building,room,number,no\nA,Hall,1,1\n", "Two columns mean the same: number and no."},
		"a spreadsheet's file": {"PK\x03\x04....", "Save it from the spreadsheet as CSV"},
		"no text":              {"building\x00\x01,room,number", "not a list of plain text"},
		"no head":              {"A,Hall,A02-01\n", "names no column building, room, number"},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := open(t).TakeIn(List{Kind: ListOpenings, File: "a.csv", From: strings.NewReader(c.text), Who: "Marit Sandvei"})
			u, ok := err.(observation.Unusable)
			if !ok || u.Field != "file" || !strings.Contains(u.Say, c.say) {
				t.Errorf("got %v, want %q", err, c.say)
			}
		})
	}
}

// Each bad line is told with its number, column, what stood there and what to
// do; the others are kept.
func TestBadLines(t *testing.T) {
	s := open(t)
	bring(t, s, ListOpenings, someOpenings)
	bring(t, s, ListPanels, "building,name,spaces,fed from\nA,A1,30,\nA,A2,20,A1-29/31\n")
	for _, c := range []struct {
		kind         ListKind
		line         string
		column, says string
	}{
		{ListOpenings, "A,0,,A02-09,,,,,,", "room", "This cell is needed"},
		{ListOpenings, "A,0,A02 Great room,,,,,,,", "number", "This cell is needed"},
		{ListOpenings, "A,0,A02 Great room,A02-O9,,,,,,", "number", "Type A02-09"},
		{ListOpenings, "A,0,A02 Great room,A02-09,lamp,,,,,", "use", "receptacle, switch"},
		{ListOpenings, "A,0,A02 Great room,A02-09,,two,,,,", "gangs", "whole number"},
		{ListOpenings, "A,0,A02 Great room,A02-09,,99,,,,", "gangs", "from 1 to 12"},
		{ListOpenings, "A,0,A02 Great room,A02-09,,,high,,,", "height", "number"},
		{ListOpenings, "A,2,A02 Great room,A02-09,,,,,,", "floor", "On record is floor 0."},
		{ListOpenings, "A,0,A02 Great room,A02-01,switch,,,,,", "use", "On record is receptacle."},
		{ListOpenings, "A,0,A02 Great room,A02-01,,,48,,,", "height", "On record is 16 in."},
		{ListOpenings, "A,0,A02 Great room,A02-01,,,,,1,", "cables", "On record is 2."},
		{ListOpenings, "A,0,A02 Great room,A02-02,,,,,,elsewhere", "note", "On record is “by the"},
		{ListOpenings, "A,1,A11 Bath,A02-01,,,,,,", "number", "in use in A02 Great room"},
		{ListOpenings, "A,0,A02 Great room,A02-09,,,,,,,,left over", "", "has 12 cells"},
		{ListOpenings, "A,0,A02 Great room,\"A02-09,,,,,,", "", "not closed"},
		{ListOpenings, "A,0,A02 Great room,\"A02\"-09,,,,,,", "", "closing quotation mark"},
		{ListOpenings, "A,0,A02 Great room,A02-09,,,,,,\x07", "note", "cannot be printed"},
		{ListPanels, "A,A1,40,", "spaces", "On record is 30."},
		{ListPanels, "A,A9,31,", "spaces", "even number"},
		{ListPanels, "A,A9,,", "spaces", "even number"},
		{ListCircuits, "A9,1,,,,", "panel", "No panel A9 is on record."},
		{ListCircuits, "A1,31,1,20,,", "space", "spaces 1 to 30"},
		{ListCircuits, "A1,one,1,20,,", "space", "number of the space"},
		{ListCircuits, "A1,1/2,,20,,", "space", "not 1 and 2"},
		{ListCircuits, "A1,29,2,20,,", "poles", "ends at 30"},
		{ListCircuits, "A1,1,1,twenty,,", "amps", "ampere rating"},
		{ListCircuits, "A1,1,1,NaN,,", "amps", "ampere rating"},
		{ListCircuits, "A1,1,3,20,,", "poles", "1 or 2 poles"},
		{ListCircuits, "A1,1,1,20,,somewhere", "lands", "branch, feeder or nothing"},
		{ListDrawn, "A,Hall,switch,0,,,E-1", "count", "from 1 to 500"},
		{ListDrawn, "A,Hall,switch,2,S1,,E-1", "count", "A mark is for one"},
	} {
		t.Run(string(c.kind)+" "+c.line, func(t *testing.T) {
			heads := map[ListKind]string{ListOpenings: "building,floor,room,number,use,gangs,height,depth,cables,note", ListPanels: "building,name,spaces,fed_from",
				ListCircuits: "panel,space,poles,amps,label,lands", ListDrawn: "building,room,use,count,mark,what,sheet"}
			before := asFound(t, s).Revision
			got, err := s.TakeIn(List{Kind: c.kind, File: "b.csv", From: strings.NewReader(heads[c.kind] + "\n\n" + c.line + "\n"), Who: "Marit Sandvei"})
			if err != nil {
				t.Fatal(err)
			}
			counts(t, got, 0, 0, 1)
			l := got.Lines[0]
			if l.Number != 3 || l.Column != c.column || !strings.Contains(l.Say, c.says) || !strings.HasSuffix(l.Say, ".") {
				t.Errorf("line %d, column %q, stood %q: %s", l.Number, l.Column, l.Stood, l.Say)
			}
			if asFound(t, s).Revision != before {
				t.Error("something of it was kept")
			}
		})
	}
}

// What is not known on record is filled in; the entry before stays in the story.
func TestAListAddsWhatIsNotKnown(t *testing.T) {
	s := open(t)
	bring(t, s, ListOpenings, "building,room,number\nA,Hall,A01-01\n")
	got := bring(t, s, ListOpenings, "building,room,number,use,height,cables\na, HALL ,a01-01,switch,48,2\n")
	counts(t, got, 1, 0, 0)
	o := asFound(t, s).Openings[0]
	if o.Use != observation.Switch || o.Height != 48 || len(o.Cables) != 2 || o.Number != "A01-01" || len(asFound(t, s).Rooms) != 1 || o.Story[0].Live() {
		t.Errorf("stands as %+v", o.Opening)
	}
	counts(t, bring(t, s, ListOpenings, "building,room,number,use\nA,Hall,A01-01,receptacle\n"), 0, 0, 1)
	// Two lines of one opening say different things of it: one opening.
	got = bring(t, s, ListOpenings, "building,room,number,use,gangs\nA,Hall,A01-02,switch,\nA,Hall,A01-02,,3\nA,Hall,A01-02,lighting,\n")
	counts(t, got, 2, 0, 1)
	if l := got.Lines[2]; !strings.Contains(l.Say, "Line 2 says switch.") {
		t.Errorf("said %q", l.Say)
	}
	if o := asFound(t, s).Openings[1]; o.Use != observation.Switch || o.Gangs != 3 || len(o.Story) != 1 {
		t.Errorf("stands as %+v with %d entries", o.Opening, len(o.Story))
	}
}

func TestPanelsAndCircuitsFromLists(t *testing.T) {
	s := open(t)
	panels := "building\troom\tname\tspaces\tfed from\nB\tShop\tB1\t30\tA1-29\nB\t\tB2\t12\t\n"
	counts(t, bring(t, s, ListPanels, panels), 2, 0, 0)
	counts(t, bring(t, s, ListPanels, panels), 0, 2, 0)
	counts(t, bring(t, s, ListPanels, "building,room,name,spaces\nB,Loft,B2,12\nB,Shop,B1,30\n"), 1, 1, 0)
	circuits := "Panel;Space;Poles;Amps;Label;Lands;Wire\nb1;1;1;20 A;shop lights;branch;12 black\nB1;2/4;;30,0;dryer?;;\nB1;3;;;?;nothing;\nB1;5;;;;;\n"
	counts(t, bring(t, s, ListCircuits, circuits), 3, 1, 0)
	counts(t, bring(t, s, ListCircuits, circuits), 0, 4, 0)
	p := asFound(t, s).Panels[0]
	if x := p.Seen[2]; x.Poles != 2 || x.Amps != 30 || x.Label != "dryer?" || p.Seen[1].Wire != "12 black" || p.Seen[3].Label != "?" || p.Seen[3].Lands != observation.LandsNothing {
		t.Errorf("seen %+v", p.Seen)
	}
	// A 1-pole breaker where a 2-pole one is on record is refused, as on the page.
	counts(t, bring(t, s, ListCircuits, "panel,space,poles\nB1,4,1\n"), 0, 0, 1)
	if asFound(t, s).Panels[1].Room == "" {
		t.Error("the room of B2 was not filled in")
	}
}

// Lines without a mark add up, so that neither their order nor how they are
// grouped matters, and twice is once.
func TestDrawnOpeningsAddUp(t *testing.T) {
	s := open(t)
	text := "building,room,use,count,mark,what,sheet\nA,Hall,switch,2,,,E-1\nA,Hall,switch,,,,E-1\nA,Hall,equipment,,H1,deck heater,E-1\nA,Hall,equipment,,H1,,E-1\n"
	counts(t, bring(t, s, ListDrawn, text), 3, 1, 0)
	counts(t, bring(t, s, ListDrawn, text), 0, 4, 0)
	counts(t, bring(t, s, ListDrawn, "building,room,use,count,sheet\nA,Hall,switch,3,E-1\n"), 0, 1, 0)
	counts(t, bring(t, s, ListDrawn, "building,room,use,count,sheet\nA,Hall,switch,1,E-1\n"), 0, 0, 1)
	counts(t, bring(t, s, ListDrawn, "building,room,use,count,sheet\nA,Hall,switch,4,E-1\n"), 1, 0, 0)
	counts(t, bring(t, s, ListDrawn, "building,room,use,mark,what,sheet\nA,Hall,,H1,fan,E-1\n"), 0, 0, 1)
	if n := len(asFound(t, s).Drawn); n != 5 {
		t.Errorf("%d drawn openings, want 4 switches and a heater", n)
	}
}

func newMemory() *journal.Memory { return journal.NewMemory([32]byte{1}, at(0)) }

// The templates are taken in as they stand, in their order, and hold every column.
func TestTemplates(t *testing.T) {
	s := open(t)
	for _, k := range ListKinds {
		data, err := os.ReadFile("../docs/lists/" + string(k) + ".csv")
		if err != nil {
			t.Fatal(err)
		}
		var head []string
		for _, c := range ListColumns(k) {
			head = append(head, c.Name)
		}
		if first, _, _ := strings.Cut(string(data), "\n"); first != strings.Join(head, ",") {
			t.Errorf("%s has the columns %s, want %s", k, first, strings.Join(head, ","))
		}
		got := bring(t, s, k, string(data))
		counts(t, got, strings.Count(string(data), "\n")-1, 0, 0)
		counts(t, bring(t, s, k, string(data)), 0, got.Count(Kept), 0)
	}
	found := asFound(t, s)
	if len(found.Openings) != 3 || len(found.Panels) != 2 || len(found.Panels[0].Seen) != 3 || len(found.Drawn) != 7 {
		t.Errorf("%d openings, %d panels, %d drawn", len(found.Openings), len(found.Panels), len(found.Drawn))
	}
}

// docs/lists.md names every column, the needed ones in bold.
func TestColumnsAreDocumented(t *testing.T) {
	page, err := os.ReadFile("../docs/lists.md")
	if err != nil {
		t.Fatal(err)
	}
	for _, k := range ListKinds {
		for _, c := range ListColumns(k) {
			name := c.Name
			if c.Must {
				name = "**" + name + "**"
			}
			if !strings.Contains(string(page), name) {
				t.Errorf("%s: the column %s is not in docs/lists.md", k, name)
			}
		}
	}
}
