package main

import (
	"context"
	"errors"
	"math/rand/v2"
	"strings"
	"testing"
)

func TestClosingLineCounts(t *testing.T) {
	pass := func(context.Context) outcome { return outcome{} }
	fail := func(context.Context) outcome { return failed("the panel door is open", errors.New("exit status 1")) }
	tests := func(context.Context) outcome { return outcome{tests: tally{passed: 7, failed: 2}} }
	stuck := func(context.Context) outcome {
		return outcome{tests: tally{passed: 3}, err: errors.New("signal: killed")}
	}
	cases := []struct {
		name  string
		steps []step
		want  string
		good  bool
	}{
		{"all pass", []step{{"a", pass}, {"b", pass}}, "verify: 2 passed, 0 failed", true},
		{"one fails, the next still runs", []step{{"a", fail}, {"b", pass}}, "verify: 1 passed, 1 failed", false},
		{"tests count one by one", []step{{"a", pass}, {"b", tests}}, "verify: 8 passed, 2 failed", false},
		{"failure beyond the tests", []step{{"a", stuck}}, "verify: 3 passed, 1 failed", false},
		{"nothing checked", nil, "verify: 0 passed, 0 failed", false},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			sum := run(t.Context(), c.steps)
			if got := sum.closingLine(); got != c.want {
				t.Errorf("closing line %q, want %q", got, c.want)
			}
			if sum.good() != c.good {
				t.Errorf("good is %v, want %v", sum.good(), c.good)
			}
		})
	}
}

func TestInterruptedRunHasFailed(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	ran := false
	sum := run(ctx, []step{{"a", func(context.Context) outcome { ran = true; return outcome{} }}})
	if ran || sum.good() {
		t.Errorf("ran: %v, tally %+v; want not run and failed", ran, sum)
	}
}

func TestPhoneBudget(t *testing.T) {
	cases := []struct {
		name            string
		raw, compressed int
		within          bool
	}{
		{"small", 6_850_000, 1_780_000, true},
		{"just within", phoneRaw, phoneCompressed, true},
		{"too big to compile", phoneRaw + 1, 1_780_000, false},
		{"too big to fetch", 6_850_000, phoneCompressed + 1, false},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			err := overBudget(c.raw, c.compressed)
			if (err == nil) != c.within {
				t.Errorf("overBudget says %v, want within: %v", err, c.within)
			}
			if err != nil && !strings.Contains(err.Error(), "budget "+weight(phoneRaw, phoneCompressed)) {
				t.Errorf("%q does not name the budget", err)
			}
		})
	}
}

func TestCompressedSize(t *testing.T) {
	source := rand.New(rand.NewPCG(1, 2))
	noise := make([]byte, 20_000)
	for i := range noise {
		noise[i] = byte(source.IntN(256))
	}
	cases := []struct {
		name        string
		program     []byte
		least, most int
	}{
		{"repeated bytes shrink", make([]byte, 20_000), 20, 200},
		{"noise does not", noise, 20_000, 20_200},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			got, err := compressedSize(c.program)
			if err != nil || got < c.least || got > c.most {
				t.Errorf("%d bytes, error %v; want %d to %d", got, err, c.least, c.most)
			}
		})
	}
}

func TestDeniedPackages(t *testing.T) {
	deps := []string{"fmt", "net", "net/url", "net/http", "net/http/internal/ascii", "crypto/tls",
		"crypto/sha256", "database/sql/driver", "database/sqlite", "asfound/web"}
	got := strings.Join(denied(deps), " ")
	if want := "net/http net/http/internal/ascii crypto/tls database/sql/driver"; got != want {
		t.Errorf("denied %q, want %q", got, want)
	}
	if got := denied([]string{"fmt", "html/template", "asfound/web"}); len(got) != 0 {
		t.Errorf("denied %q, want none", got)
	}
}

func TestMissingNeeds(t *testing.T) {
	cases := []struct {
		name    string
		present []string
		want    string // Debian packages
	}{
		{"all there", []string{"chromium", "gcc", "/usr/include/stdlib.h", "pdftotext"}, ""},
		{"other names", []string{"chromium-browser", "clang", "/Library/Developer", "pdftotext"}, ""},
		{"bare machine", nil, "chromium gcc libc6-dev poppler-utils"},
		{"compiler without headers", []string{"chromium", "gcc", "pdftotext"}, "libc6-dev"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			var got []string
			for _, n := range missingNeeds(func(name string) bool { return strings.Contains(" "+strings.Join(c.present, " ")+" ", " "+name+" ") }) {
				got = append(got, n.debian)
				if n.why == "" {
					t.Errorf("%s: no reason given", n.debian)
				}
			}
			if strings.Join(got, " ") != c.want {
				t.Errorf("missing %q, want %q", got, c.want)
			}
		})
	}
}
