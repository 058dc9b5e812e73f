package site

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// heads of the lists that properties are tried on.
var heads = map[ListKind]string{
	ListOpenings: "building,floor,room,number,use,gangs,height,cables,note",
	ListPanels:   "building,room,name,spaces,fed_from",
	ListCircuits: "panel,space,poles,amps,label,lands",
	ListDrawn:    "building,room,use,count,mark,what,sheet",
}

// drawLines draws lines of a list in which much is right and some is not.
func drawLines(t *rapid.T, k ListKind) []string {
	from := func(all ...string) string { return rapid.SampledFrom(all).Draw(t, "cell") }
	line := func() string {
		switch k {
		case ListOpenings:
			return strings.Join([]string{from("A", "a", "B"), from("0", "", "1"), from("Hall", "Den", "hall", ""), from("01", "02", "03", "04", "05", "O2", ""),
				from("switch", "receptacle", "", "lamp"), from("1", "2", "", "?"), from("", "48", "16 in", "low"), from("", "1", "2"), from("", "left", `"a, b"`)}, ",")
		case ListPanels:
			return strings.Join([]string{from("A", "B", ""), from("", "Hall", "Den"), from("P1", "P2", "p1", ""), from("30", "12", "31", ""), from("", "x", "y")}, ",")
		case ListCircuits:
			return strings.Join([]string{from("A1", "a1", "A2"), from("1", "2", "3", "5", "1/3", "31", ""), from("", "1", "2"), from("", "20", "30 A"), from("", "lights", "?"), from("", "branch", "nothing")}, ",")
		}
		return strings.Join([]string{from("A", "B"), from("Hall", "Den", ""), from("switch", "", "lamp"), from("", "1", "2", "0"), from("", "", "M1"), from("", "heater"), from("E-1", "")}, ",")
	}
	out := make([]string, rapid.IntRange(1, 12).Draw(t, "lines"))
	for i := range out {
		out[i] = line()
	}
	return out
}

// house is a job with two panels.
func house(t testing.TB) *Site {
	s, err := Open(newMemory(), at(0))
	if err != nil {
		t.Fatal(err)
	}
	bring(t, s, ListPanels, "building,name,spaces\nA,A1,30\n")
	return s
}

// Every line is accounted for, looking says what keeping does, and the same list
// again changes nothing: what was kept is there, what was bad is bad.
func TestListsTwiceChangeNothing(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		k := rapid.SampledFrom(ListKinds).Draw(rt, "kind")
		lines := drawLines(rt, k)
		text := heads[k] + "\n" + strings.Join(lines, "\n") + "\n"
		s := house(t)
		look, err := s.TakeIn(List{Kind: k, File: "x.csv", From: strings.NewReader(text), Who: "Marit Sandvei", Look: true})
		if err != nil {
			rt.Fatal(err)
		}
		first := bring(t, s, k, text)
		if n := first.Count(Kept) + first.Count(Same) + first.Count(Bad); n != len(first.Lines) || n+first.Empty != len(lines) {
			rt.Fatalf("%d of %d lines accounted for, %d empty", n, len(lines), first.Empty)
		}
		if saidOf(look) != saidOf(first) {
			rt.Fatalf("looked:\n%skept:\n%s", saidOf(look), saidOf(first))
		}
		before := asFound(t, s)
		again := bring(t, s, k, text)
		if after := asFound(t, s); after != before || again.Entries != 0 {
			rt.Fatalf("the second time %d entries more:\n%s", after.Revision-before.Revision, saidOf(again))
		}
		if again.Count(Kept) != 0 || again.Count(Bad) != first.Count(Bad) {
			rt.Fatalf("first:\n%ssecond:\n%s", saidOf(first), saidOf(again))
		}
	})
}

// Where no line contradicts another the order of lines does not matter, but for
// the walk.
func TestOrderOfLinesDoesNotMatter(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		k := rapid.SampledFrom(ListKinds).Draw(rt, "kind")
		lines := drawLines(rt, k)
		other := rapid.Permutation(lines).Draw(rt, "other order")
		one, two := house(t), house(t)
		first := bring(t, one, k, heads[k]+"\n"+strings.Join(lines, "\n")+"\n")
		second := bring(t, two, k, heads[k]+"\n"+strings.Join(other, "\n")+"\n")
		for _, l := range append(first.Bad(), second.Bad()...) {
			if strings.HasPrefix(l.Say, "Line ") || l.Column == "poles" || l.Column == "number" || l.Column == "room" {
				rt.Skip("two lines contradict each other")
			}
		}
		if a, b := contents(asFound(t, one)), contents(asFound(t, two)); !slices.Equal(a, b) {
			rt.Fatalf("in this order:\n%s\nin the other:\n%s", strings.Join(a, "\n"), strings.Join(b, "\n"))
		}
	})
}

// contents is what is on record in words, without the walk.
func contents(found *AsFound) []string {
	var out []string
	for _, o := range found.Openings {
		room := found.Room(o.Room)
		out = append(out, strings.ToLower(fmt.Sprintf("%s %s %d %s %s %d %s %s %d", found.Name(room.Building), room.Name, room.Floor, o.Number, o.Use, o.Gangs, o.Height, o.Note, len(o.Cables))))
	}
	for _, p := range found.Panels {
		out = append(out, strings.ToLower(fmt.Sprintf("%s %s %s %d %s %v", found.Name(p.Building), found.Name(p.Room), p.Name, p.Spaces, p.FedFrom, p.Seen)))
	}
	for _, d := range found.Drawn {
		out = append(out, strings.ToLower(fmt.Sprintf("%s %s %s %s %s", found.Name(d.Room), d.Use, d.Mark, d.What, d.Sheet)))
	}
	slices.Sort(out)
	return out
}

// Whatever the file, no panic, nothing lost: kept, already there and bad are all
// the records there are, and what comes back to be mended is read as it stood.
func FuzzTakeIn(f *testing.F) {
	for _, seed := range []string{someOpenings, "building;room;number\nA;\"Hall;A\n", "panel,space\nA1,1/3\n", "\xff\xfeb\x00", "building,room,number\nA,B,\"\"\"\n\n\"", "building\troom\tcount\r\rA\tB\t3\r"} {
		f.Add([]byte(seed), uint8(0))
		f.Add([]byte(seed), uint8(3))
	}
	f.Fuzz(func(t *testing.T, data []byte, which uint8) {
		k := ListKinds[int(which)%len(ListKinds)]
		s := house(t)
		got, err := s.TakeIn(List{Kind: k, File: string(data), From: strings.NewReader(string(data)), Who: "Marit Sandvei"})
		if err != nil {
			return
		}
		if n := got.Count(Kept) + got.Count(Same) + got.Count(Bad); n != len(got.Lines) {
			t.Fatalf("%d of %d records accounted for", n, len(got.Lines))
		}
		var mend strings.Builder
		if err := got.Mend(&mend); err != nil {
			t.Fatal(err)
		}
		before := asFound(t, s).Revision
		again, err := s.TakeIn(List{Kind: k, File: "again", From: strings.NewReader(string(data)), Who: "Marit Sandvei"})
		if err != nil || again.Entries != 0 || asFound(t, s).Revision != before {
			t.Fatalf("the second time %d entries more, %v", again.Entries, err)
		}
	})
}
