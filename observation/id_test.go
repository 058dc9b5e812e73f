package observation

import (
	"strings"
	"testing"

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
