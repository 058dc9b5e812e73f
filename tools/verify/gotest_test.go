package main

import (
	"strings"
	"testing"
)

var testRuns = []struct {
	name   string
	lines  []string
	want   tally
	says   string // part of the complaints
	silent string // not part of them
}{
	{"one passes", []string{
		`{"Action":"run","Package":"p","Test":"TestA"}`,
		`{"Action":"output","Package":"p","Test":"TestA","Output":"chatter\n"}`,
		`{"Action":"pass","Package":"p","Test":"TestA","Elapsed":0.1}`,
		`{"Action":"pass","Package":"p","Elapsed":0.2}`,
	}, tally{1, 0}, "", "chatter"},
	{"a table counts its cases", []string{
		`{"Action":"pass","Package":"p","Test":"TestA/one"}`,
		`{"Action":"pass","Package":"p","Test":"TestA/two/deep"}`,
		`{"Action":"pass","Package":"p","Test":"TestA/two"}`,
		`{"Action":"pass","Package":"p","Test":"TestA"}`,
		`{"Action":"pass","Package":"p"}`,
	}, tally{2, 0}, "", ""},
	{"a failed case counts once", []string{
		`{"Action":"output","Package":"p","Test":"TestA/one","Output":"got 12 V\n"}`,
		`{"Action":"fail","Package":"p","Test":"TestA/one"}`,
		`{"Action":"pass","Package":"p","Test":"TestA/two"}`,
		`{"Action":"fail","Package":"p","Test":"TestA"}`,
		`{"Action":"fail","Package":"p"}`,
	}, tally{1, 1}, "p TestA/one: fail\ngot 12 V", ""},
	{"a table that fails after its cases", []string{
		`{"Action":"pass","Package":"p","Test":"TestA/one"}`,
		`{"Action":"fail","Package":"p","Test":"TestA"}`,
		`{"Action":"fail","Package":"p"}`,
	}, tally{1, 1}, "p TestA: fail", ""},
	{"a skipped test has checked nothing", []string{
		`{"Action":"output","Package":"p","Test":"TestA","Output":"no browser\n"}`,
		`{"Action":"skip","Package":"p","Test":"TestA"}`,
		`{"Action":"pass","Package":"p"}`,
	}, tally{0, 1}, "no browser", ""},
	{"a package without test files", []string{
		`{"Action":"skip","Package":"p"}`,
	}, tally{0, 0}, "", ""},
	{"one package does not hide another", []string{
		`{"Action":"fail","Package":"p","Test":"TestA"}`,
		`{"Action":"fail","Package":"p"}`,
		`{"Action":"pass","Package":"q","Test":"TestA"}`,
		`{"Action":"pass","Package":"q"}`,
	}, tally{1, 1}, "p TestA: fail", "q TestA"},
	{"does not compile", []string{
		`{"ImportPath":"p [p.test]","Action":"build-output","Output":"p/x.go:3: undefined: ohm\n"}`,
		`{"ImportPath":"p [p.test]","Action":"build-fail"}`,
		`{"Action":"output","Package":"p","Output":"FAIL\tp [build failed]\n"}`,
		`{"Action":"fail","Package":"p","Elapsed":0,"FailedBuild":"p [p.test]"}`,
	}, tally{0, 1}, "undefined: ohm", ""},
	{"ends the process", []string{
		`{"Action":"pass","Package":"p","Test":"TestA"}`,
		`{"Action":"output","Package":"p","Output":"exit status 2\n"}`,
		`{"Action":"fail","Package":"p"}`,
	}, tally{1, 1}, "exit status 2", ""},
	{"words of the go command between", []string{
		`go: downloading example.org/x v1.0.0`,
		`{"Action":"pass","Package":"p","Test":"TestA"}`,
	}, tally{1, 0}, "", "downloading"},
}

func TestCountTests(t *testing.T) {
	for _, c := range testRuns {
		t.Run(c.name, func(t *testing.T) {
			results, err := readTests(strings.NewReader(strings.Join(c.lines, "\n") + "\n"))
			if err != nil {
				t.Fatal(err)
			}
			if got := results.count(); got != c.want {
				t.Errorf("count %+v, want %+v", got, c.want)
			}
			said := results.complaints()
			if !strings.Contains(said, c.says) {
				t.Errorf("complaints %q, want %q", said, c.says)
			}
			if c.silent != "" && strings.Contains(said, c.silent) {
				t.Errorf("complaints %q, want no %q", said, c.silent)
			}
		})
	}
}

func FuzzReadTests(f *testing.F) {
	f.Add(`{"Action":"pass","Package":"p","Test":"TestA/one"}`)
	f.Add("{\"Action\":\"fail\",\"Package\":\"p\"}\n{\"Action\":\"skip\",\"Package\":\"p\",\"Test\":\"/\"}")
	f.Add(`{"Action":"build-fail","ImportPath":" "}` + "\nnot JSON\n{")
	f.Fuzz(func(t *testing.T, text string) {
		results, err := readTests(strings.NewReader(text))
		if err != nil {
			t.Fatalf("a string cannot fail to be read: %v", err)
		}
		sum := results.count()
		if sum.passed+sum.failed > len(results.ended) {
			t.Errorf("counted %+v of %d ends", sum, len(results.ended))
		}
		if sum.failed > 0 && results.complaints() == "" {
			t.Error("a failure without a word")
		}
	})
}
