package paper

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

func TestWrap(t *testing.T) {
	st := Style{Size: 10}
	for _, c := range []struct {
		name, text string
		width      float64
		want       []string
	}{
		{"nothing", "", 30, []string{""}},
		{"one line", "Kitchen counter", 60, []string{"Kitchen counter"}},
		{"at a space", "Kitchen counter outlets", 30, []string{"Kitchen counter", "outlets"}},
		{"an opening's number is not broken", "to A02-08", 15, []string{"to", "A02-08"}},
		{"a line break is kept", "one\ntwo", 60, []string{"one", "two"}},
		{"a word wider than the column", "Switchleg", 9, []string{"Switc", "hleg"}},
		{"no room at all", "abc", 0, []string{"a", "b", "c"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			if diff := cmp.Diff(c.want, st.Wrap(c.text, c.width)); diff != "" {
				t.Error(diff)
			}
		})
	}
}

func TestWrapLosesNothingAndFits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.OneOf(rapid.String(), rapid.StringMatching(`([a-zA-Z0-9-]{1,14} ){0,20}`)).Draw(t, "text")
		st := Style{Size: rapid.Float64Range(5, 40).Draw(t, "size"), Face: Face(rapid.IntRange(0, 3).Draw(t, "face"))}
		width := rapid.Float64Range(0, 120).Draw(t, "width")
		lines := st.Wrap(s, width)
		bare := func(s string) string { return strings.ReplaceAll(Clean(s), " ", "") }
		if bare(strings.Join(lines, "")) != bare(s) {
			t.Fatalf("%q became %q", s, lines)
		}
		for _, l := range lines {
			if st.Width(l) > width+1e-5 && len([]rune(l)) > 1 {
				t.Fatalf("line %q is %.3f mm wide, room %.3f", l, st.Width(l), width)
			}
		}
	})
}

func TestFit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := Clean(rapid.StringMatching(`[A-Za-z ]{0,30}`).Draw(t, "text"))
		st := Style{Size: 10, Face: Face(rapid.IntRange(0, 3).Draw(t, "face"))}
		width := rapid.Float64Range(4, 80).Draw(t, "width")
		got := st.Fit(s, width)
		if st.Width(got) > width+1e-5 {
			t.Fatalf("%q is wider than %.2f", got, width)
		}
		if cut, ok := strings.CutSuffix(got, ellipsis); got != s && (!ok || !strings.HasPrefix(s, cut)) {
			t.Fatalf("%q cut to %q", s, got)
		}
	})
}
