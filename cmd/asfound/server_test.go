package main

import (
	"bytes"
	"fmt"
	"io"
	"math/rand/v2"
	"net"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"asfound/journal"
	"asfound/journal/sqlite"
	"asfound/observation"
)

// asTyped answers like a browser that does not follow where it is sent.
var asTyped = &http.Client{CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }}

// newJob starts a server on a new job.
func newJob(t *testing.T) (p *process, path string) {
	t.Helper()
	folder := t.TempDir()
	p = start(t, "serve", folder, "--new", "Pellam Point", "--no-open", "--addr", "127.0.0.1:0")
	return p, filepath.Join(folder, "Pellam Point.job")
}

// names are the buildings that a job's file holds.
func names(t *testing.T, path string) []string {
	t.Helper()
	store, err := sqlite.Open(path, time.Now)
	must(t, err)
	defer store.Close()
	report, err := journal.Check(store)
	must(t, err)
	if !report.Whole() {
		t.Errorf("after the restart: %s", report)
	}
	var out []string
	must(t, store.Read(0, func(e journal.Entry) error {
		if b, ok := e.Event.Body.(observation.Building); ok {
			out = append(out, b.Name)
		}
		return nil
	}))
	return out
}

// TestKilledWhileRecording kills the program while two people record, opens the
// job again, and wants every building there that was acknowledged.
func TestKilledWhileRecording(t *testing.T) {
	p, path := newJob(t)
	acknowledged := recordTwo(t, p, func() { p.end(t, syscall.SIGKILL) })
	if len(acknowledged) < 20 {
		t.Fatalf("only %d were acknowledged before the program was killed", len(acknowledged))
	}
	again := start(t, "serve", filepath.Dir(path), "--no-open", "--addr", "127.0.0.1:0")
	page := get(t, again.root()+"/property")
	held := names(t, path)
	for _, name := range acknowledged {
		if !slices.Contains(held, name) {
			t.Errorf("%s was acknowledged and is gone", name)
		}
		if !strings.Contains(page, name) {
			t.Errorf("%s does not stand on the page after the restart", name)
		}
	}
	if len(slices.Compact(slices.Sorted(slices.Values(held)))) != len(held) {
		t.Error("a building was kept twice")
	}
}

// recordTwo records buildings from two browsers until stop has ended the
// program, and returns those of which the answer came.
func recordTwo(t *testing.T, p *process, stop func()) []string {
	t.Helper()
	var mu sync.Mutex
	var out []string
	var people sync.WaitGroup
	for person := range 2 {
		people.Go(func() {
			for i := range 100_000 {
				name := fmt.Sprintf("House %d of %d", i, person)
				got, err := asTyped.PostForm(p.root()+"/property", url.Values{"building_name": {name}, "who": {"Tomas Veil"}})
				if err != nil {
					return
				}
				got.Body.Close()
				if got.StatusCode == http.StatusSeeOther {
					mu.Lock()
					out = append(out, name)
					mu.Unlock()
				}
			}
		})
	}
	for deadline := time.Now().Add(20 * time.Second); time.Now().Before(deadline); time.Sleep(5 * time.Millisecond) {
		mu.Lock()
		n := len(out)
		mu.Unlock()
		if n >= 20 {
			break
		}
	}
	time.Sleep(time.Duration(rand.IntN(50)) * time.Millisecond)
	stop()
	people.Wait()
	return out
}

func get(t *testing.T, address string) string {
	t.Helper()
	got, err := http.Get(address)
	must(t, err)
	defer got.Body.Close()
	body, err := io.ReadAll(got.Body)
	must(t, err)
	return string(body)
}

func TestStopsCleanly(t *testing.T) {
	for _, signal := range []syscall.Signal{syscall.SIGTERM, syscall.SIGINT} {
		t.Run(signal.String(), func(t *testing.T) {
			p, path := newJob(t)
			acknowledged := recordTwo(t, p, func() {
				if code := p.end(t, signal); code != 0 {
					t.Errorf("ended with %d, want 0\n%s", code, p.words)
				}
			})
			if left, err := filepath.Glob(path + "-*"); err != nil || len(left) > 0 {
				t.Errorf("left beside the job: %v, %v", left, err)
			}
			if held := names(t, path); len(held) < len(acknowledged) {
				t.Errorf("%d acknowledged, %d held", len(acknowledged), len(held))
			}
		})
	}
}

func TestDemoLeavesNothingBehind(t *testing.T) {
	temp := t.TempDir()
	t.Setenv("TMPDIR", temp)
	p := start(t, "demo", "--no-open", "--addr", "127.0.0.1:0")
	if page := get(t, p.address); !strings.Contains(page, "cannot all be right") {
		t.Errorf("%s does not open where readings clash", p.address)
	}
	if code := p.end(t, syscall.SIGTERM); code != 0 {
		t.Errorf("ended with %d\n%s", code, p.words)
	}
	left, err := os.ReadDir(temp)
	must(t, err)
	if len(left) > 0 {
		t.Errorf("left in the temporary folder: %v", left)
	}
}

func TestDemoGoesOnAnotherDay(t *testing.T) {
	folder := t.TempDir()
	must(t, playedJob(filepath.Join(folder, demoName+jobEnding)))
	p := start(t, "demo", folder, "--no-open", "--addr", "127.0.0.1:0")
	_, err := asTyped.PostForm(p.root()+"/property", url.Values{"building_name": {"Ice house"}, "who": {"Marit Sandvei"}})
	must(t, err)
	p.end(t, syscall.SIGTERM)
	again := start(t, "demo", folder, "--no-open", "--addr", "127.0.0.1:0")
	if !strings.Contains(get(t, again.root()+"/property"), "Ice house") {
		t.Error("what was recorded yesterday is gone")
	}
}

func TestPortInUse(t *testing.T) {
	taken, err := net.Listen("tcp", "127.0.0.1:0")
	must(t, err)
	defer taken.Close()
	var out, words bytes.Buffer
	code := run([]string{"serve", t.TempDir(), "--new", "Pellam Point", "--no-open", "--addr", taken.Addr().String()}, &out, &words)
	if code != 1 || !strings.Contains(words.String(), "is in use") || strings.Count(words.String(), "\n") != 2 {
		t.Errorf("ended with %d and said %q, want 1 and one sentence", code, words.String())
	}
}

func TestWhoCanReachItIsSaid(t *testing.T) {
	folder := t.TempDir()
	must(t, playedJob(filepath.Join(folder, "a.job")))
	open := start(t, "serve", folder, "--no-open", "--addr", "0.0.0.0:0")
	if !strings.HasPrefix(open.address, "http://127.0.0.1:") {
		t.Errorf("printed %s, want an address for this laptop", open.address)
	}
	open.end(t, syscall.SIGTERM)
	if !strings.Contains(open.words.String(), "everybody on this network can read this job") {
		t.Errorf("reachable by all, and said %q", open.words)
	}
	own := start(t, "serve", folder, "--no-open", "--addr", "127.0.0.1:0")
	own.end(t, syscall.SIGTERM)
	if strings.Contains(own.words.String(), "everybody") {
		t.Errorf("reachable by nobody else, and said %q", own.words)
	}
}

func TestSeveralJobs(t *testing.T) {
	folder := t.TempDir()
	must(t, playedJob(filepath.Join(folder, "Pellam Point.job")))
	must(t, playedJob(filepath.Join(folder, "pellam-point.job")))
	must(t, os.WriteFile(filepath.Join(folder, "broken.job"), []byte("kitchen 2.49 k\n"), 0o644))
	p := start(t, "serve", folder, "--no-open", "--addr", "127.0.0.1:0")
	list := get(t, p.root()+"/")
	for _, key := range []string{"pellam-point", "pellam-point-2"} {
		if !strings.Contains(list, `href="`+key) {
			t.Errorf("the list of jobs does not lead to %s", key)
		}
		if page := get(t, p.root()+"/"+key+"/panels"); !strings.Contains(page, "A1") {
			t.Errorf("%s shows no panel", key)
		}
	}
	p.end(t, syscall.SIGTERM)
	if !strings.Contains(p.words.String(), "broken.job is left out") {
		t.Errorf("said %q, want the broken job named", p.words)
	}
}

func TestOpener(t *testing.T) {
	screen := func(string) string { return ":0" }
	none := func(string) string { return "" }
	for _, c := range []struct {
		system string
		env    func(string) string
		want   string
	}{{"darwin", none, "open"}, {"windows", none, "rundll32"}, {"linux", screen, "xdg-open"}, {"linux", none, ""}} {
		if got, _ := opener(c.system, c.env); got != c.want {
			t.Errorf("on %s: %q, want %q", c.system, got, c.want)
		}
	}
}
