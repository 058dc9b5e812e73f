package report_test

import (
	"strings"
	"testing"

	"asfound/report"
)

func TestCodeFindsItsSheet(t *testing.T) {
	a := sample(t)
	for _, k := range report.Sheets(a) {
		name, state, ok := report.SplitCode(report.Path(k.Name, a.State))
		if !ok || name != k.Name || state != a.State {
			t.Errorf("%s: the path gives %q, %q", k.Name, name, state)
		}
		key := report.Key(k.Name, a.State)
		for _, typed := range []string{key, strings.ToUpper(key), " " + key + " ", strings.Replace(key, "-", " ", 1), strings.ReplaceAll(key, "0", "O")} {
			found, letters, err := report.Find(a, typed)
			if err != nil || found != k || !strings.HasPrefix(a.State, letters) && !strings.Contains(typed, "O") {
				t.Errorf("%s typed as %q gives %v, %q, %v", k.Name, typed, found, letters, err)
			}
		}
		if s := made(t, a, k.Name); s.Key != key {
			t.Errorf("%s bears key %q, want %q", k.Name, s.Key, key)
		}
	}
}

func FuzzFind(f *testing.F) {
	a := smallJob().withTour().asFound()
	for _, s := range []string{"", "-", report.Key("directory-a1", a.State), "d1o9-x", "zzzz-zzzz", "d109--", "d109-x9q4wd-41", "\xff-\x00", "----"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, typed string) {
		k, state, err := report.Find(a, typed)
		text := strings.ToLower(strings.Join(strings.Fields(typed), ""))
		if err == nil && !strings.HasPrefix(text, report.Key(k.Name, state+"-1")) && !strings.ContainsAny(text, "oil") {
			t.Errorf("%q found %s, whose key is another", typed, k.Name)
		}
		report.SplitCode(typed)
	})
}
