package main

import (
	"bufio"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/testscript"

	"asfound/journal/sqlite"
	"asfound/scenario"
)

// TestMain makes this test program be asfound when it is called so; the scripts
// and the server tests start it as people do.
func TestMain(m *testing.M) { testscript.Main(m, map[string]func(){"asfound": main}) }

// played is the demo job, made once.
var played = sync.OnceValues(func() (file []byte, err error) {
	folder, err := os.MkdirTemp("", "asfound-test-")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(folder)
	path := filepath.Join(folder, "played.job")
	store, err := sqlite.Open(path, time.Now)
	if err != nil {
		return nil, err
	}
	_, err = scenario.Demo(store, time.Now().AddDate(0, 0, -1), 3)
	if err := errors.Join(err, store.Close()); err != nil {
		return nil, err
	}
	return os.ReadFile(path)
})

// playedJob puts the demo job into a file.
func playedJob(path string) error {
	file, err := played()
	if err != nil {
		return err
	}
	return os.WriteFile(path, file, 0o644)
}

func must(t *testing.T, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

// process is asfound at work.
type process struct {
	*exec.Cmd
	address string // as printed
	words   *lockedText
}

// lockedText collects what a process says.
type lockedText struct {
	mu   sync.Mutex
	text strings.Builder
}

func (l *lockedText) Write(p []byte) (int, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.text.Write(p)
}

func (l *lockedText) String() string {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.text.String()
}

// start starts asfound and waits until it has printed its address.
func start(t *testing.T, args ...string) *process {
	t.Helper()
	p := &process{Cmd: exec.Command("asfound", args...), words: &lockedText{}}
	p.Stderr = p.words
	out, err := p.StdoutPipe()
	must(t, err)
	must(t, p.Start())
	t.Cleanup(func() {
		p.Process.Kill() //nolint:errcheck // it may have ended
		p.Wait()         //nolint:errcheck // said elsewhere
	})
	line, err := bufio.NewReader(out).ReadString('\n')
	if err != nil {
		t.Fatalf("asfound printed no address: %v\n%s", err, p.words)
	}
	p.address = strings.TrimSpace(line)
	return p
}

// root is the address without its page.
func (p *process) root() string {
	host, _, _ := strings.Cut(strings.TrimPrefix(p.address, "http://"), "/")
	return "http://" + host
}

// end stops the process by a signal and returns its exit code.
func (p *process) end(t *testing.T, signal syscall.Signal) int {
	t.Helper()
	must(t, p.Process.Signal(signal))
	return exitCode(p.Wait())
}

func exitCode(err error) int {
	var ended *exec.ExitError
	switch {
	case err == nil:
		return 0
	case errors.As(err, &ended):
		return ended.ExitCode()
	}
	return -1
}

func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{Dir: "testdata/scripts", Cmds: map[string]func(*testscript.TestScript, bool, []string){
		// played FILE makes the demo job.
		"played": func(ts *testscript.TestScript, _ bool, args []string) {
			ts.Check(playedJob(ts.MkAbs(args[0])))
		},
		// exits CODE PROGRAM ARGS... wants that exit code.
		"exits": func(ts *testscript.TestScript, _ bool, args []string) {
			want, err := strconv.Atoi(args[0])
			ts.Check(err)
			if got := exitCode(ts.Exec(args[1], args[2:]...)); got != want {
				ts.Fatalf("%v ended with %d, want %d", args[1:], got, want)
			}
		},
		// spoil FILE OLD NEW changes bytes of a file, as a bad disk or a clever
		// person would.
		"spoil": func(ts *testscript.TestScript, _ bool, args []string) {
			data := ts.ReadFile(args[0])
			if !strings.Contains(data, args[1]) {
				ts.Fatalf("%s does not hold %q", args[0], args[1])
			}
			ts.Check(os.WriteFile(ts.MkAbs(args[0]), []byte(strings.Replace(data, args[1], args[2], 1)), 0o644))
		},
	}})
}
