package observation

import (
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"
)

func drawID(t *rapid.T, label string) ID {
	return ID{Device: rapid.StringMatching(`[0-9a-z][0-9a-z-]{0,9}`).Draw(t, label+" device"),
		Seq: rapid.Uint64Min(1).Draw(t, label+" count")}
}

func TestIDIsItsText(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		id := drawID(t, "one")
		got, err := ParseID(id.String())
		if err != nil || got != id {
			t.Errorf("%v came back as %v (%v)", id, got, err)
		}
		other := drawID(t, "other")
		if (id.String() == other.String()) != (id == other) {
			t.Errorf("%v and %v share a text", id, other)
		}
	})
}

func TestIDOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b, c := drawID(t, "a"), drawID(t, "b"), drawID(t, "c")
		if a.Compare(b) != -b.Compare(a) || (a.Compare(b) == 0) != (a == b) {
			t.Errorf("%v and %v: %d and %d", a, b, a.Compare(b), b.Compare(a))
		}
		if a.Compare(b) < 0 && b.Compare(c) < 0 && a.Compare(c) >= 0 {
			t.Errorf("%v before %v before %v, but not the first before the last", a, b, c)
		}
	})
}

func TestParseIDRefuses(t *testing.T) {
	for _, text := range []string{"", "-", "-1", "k7", "k7-", "k7-0", "k7-01", "k7--", "k7-1x", "k7-+1", "k7-18446744073709551616"} {
		if id, err := ParseID(text); err == nil {
			t.Errorf("%q was read as %v", text, id)
		}
	}
}

// FuzzParseID demands that what is read has one text only.
func FuzzParseID(f *testing.F) {
	for _, text := range []string{"k7m3qd8x2a-1204", "a-b-3", "-1", "a-00", strings.Repeat("-", 9)} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if id, err := ParseID(text); err == nil && id.String() != text {
			t.Errorf("%q was read as %q", text, id)
		}
	})
}

// One event follows another if it names it, or was recorded by the same device
// later, or by one that held it; not for being typed in later.
func TestFollows(t *testing.T) {
	at := func(hour int) time.Time { return time.Date(2027, 1, 20, hour, 0, 0, 0, time.UTC) }
	earlier := Event{ID: ID{"a", 5}, Wall: at(11)}
	for _, c := range []struct {
		name string
		e    Event
		want bool
	}{
		{"later on the device", Event{ID: ID{"a", 6}, Wall: at(12)}, true},
		{"earlier on the device", Event{ID: ID{"a", 4}, Wall: at(12)}, false},
		{"another device, later by its clock", Event{ID: ID{"b", 9}, Wall: at(12)}, false},
		{"another device that held it", Event{ID: ID{"b", 9}, Wall: at(12), After: []ID{{"c", 2}, {"a", 5}}}, true},
		{"another device that held what was after it", Event{ID: ID{"b", 9}, Wall: at(12), After: []ID{{"a", 8}}}, true},
		{"another device that held what was before it", Event{ID: ID{"b", 9}, Wall: at(12), After: []ID{{"a", 4}}}, false},
		{"another device that names it", Event{ID: ID{"b", 9}, Observation: Observation{Under: []ID{{"a", 5}}}}, true},
		{"typed in later, taken before", Event{ID: ID{"a", 6}, Wall: at(18), Observation: Observation{Taken: at(10)}}, false},
		{"typed in later, taken after", Event{ID: ID{"a", 6}, Wall: at(18), Observation: Observation{Taken: at(12)}}, true},
		{"taken before, and names it", Event{ID: ID{"a", 6}, Wall: at(18), Observation: Observation{Taken: at(10), Seen: []ID{{"a", 5}}}}, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := c.e.Follows(earlier); got != c.want {
				t.Errorf("follows %v, want %v", got, c.want)
			}
		})
	}
}
