package main

import (
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"asfound/journal"
	"asfound/journal/sqlite"
)

// phoneShell is a page that starts the phone's program as its shell will.
const phoneShell = `<!doctype html><title>phone</title><script src="/wasm_exec.js"></script><script src="/start.js"></script>`

const phoneStart = `const go = new Go();
WebAssembly.instantiateStreaming(fetch('/phone.wasm'), go.importObject).then(r => go.run(r.instance));`

// phoneServer serves the program of the phone, built for it, and nothing else.
func phoneServer(t *testing.T) *httptest.Server {
	t.Helper()
	file := filepath.Join(t.TempDir(), "phone.wasm")
	build := exec.Command("go", "build", "-trimpath", "-ldflags", "-s -w", "-o", file, "asfound/cmd/phone")
	build.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm", "CGO_ENABLED=0")
	if said, err := build.CombinedOutput(); err != nil {
		t.Fatalf("build the phone's program: %v\n%s", err, said)
	}
	root, err := exec.Command("go", "env", "GOROOT").Output()
	must(t, err)
	files := map[string]string{"/phone.wasm": file, "/wasm_exec.js": filepath.Join(strings.TrimSpace(string(root)), "lib", "wasm", "wasm_exec.js")}
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Content-Security-Policy", "default-src 'self'; script-src 'self' 'wasm-unsafe-eval'")
		switch path, ok := files[r.URL.Path]; {
		case ok:
			http.ServeFile(w, r, path)
		case r.URL.Path == "/start.js":
			w.Header().Set("Content-Type", "text/javascript")
			w.Write([]byte(phoneStart)) //nolint:errcheck // the test sees it
		default:
			w.Header().Set("Content-Type", "text/html")
			w.Write([]byte(phoneShell)) //nolint:errcheck // the test sees it
		}
	}))
	t.Cleanup(server.Close)
	return server
}

// lines are the events of the demo job as the laptop hands them to a phone.
func playedLinesOf(t *testing.T, path string) (lines []string) {
	t.Helper()
	store, err := sqlite.Open(path, time.Now)
	must(t, err)
	defer store.Close()
	must(t, store.Read(0, func(e journal.Entry) error {
		lines = append(lines, string(e.Raw))
		return nil
	}))
	return lines
}

// TestPhoneAnswersAlone loads the demo job into the phone's program in a
// browser, reads a page and records a building there, takes the line that the
// phone hands out, and merges it on the laptop.
func TestPhoneAnswersAlone(t *testing.T) {
	path := filepath.Join(t.TempDir(), "Pellam Point.job")
	must(t, playedJob(path))
	lines := playedLinesOf(t, path)
	server := phoneServer(t)
	b := newTab(t, 360)
	b.visit(server.URL)
	b.until("the program to start", `typeof globalThis.answer === 'function'`)
	server.Close()

	text, err := json.Marshal(strings.Join(lines, "\n"))
	must(t, err)
	if loaded := ask[map[string]any](b, "load("+string(text)+")"); loaded["added"] != float64(len(lines)) || loaded["waiting"] != 0.0 {
		t.Fatalf("loaded %v, want %d added", loaded, len(lines))
	}
	page := ask[map[string]any](b, `answer({path: '/panels'})`)
	if html, _ := page["html"].(string); page["status"] != 200.0 || !strings.Contains(html, "A1") {
		t.Errorf("the phone answered %v", page)
	}
	sent := ask[map[string]any](b, `answer({method: 'POST', path: '/property', form: [['building_name', 'Ice house'], ['who', 'Tomas Veil']]})`)
	handed, _ := sent["lines"].([]any)
	if sent["status"] != 303.0 || len(handed) != 1 {
		t.Fatalf("the phone answered %v, want one line to keep", sent)
	}
	if again := ask[map[string]any](b, `answer({path: '/property'})`); len(again["lines"].([]any)) != 0 {
		t.Error("the phone hands out the same line twice")
	}
	wrong := ask[map[string]any](b, `answer('panels')`)
	if wrong["error"] == nil {
		t.Errorf("a request that is none was answered %v", wrong)
	}
	store, err := sqlite.Open(path, time.Now)
	must(t, err)
	defer store.Close()
	merged, err := store.Merge([][]byte{[]byte(handed[0].(string))})
	if err != nil || merged.Added != 1 {
		t.Errorf("the laptop merged %+v, %v; want the phone's line added", merged, err)
	}
}
