package web

import (
	"context"
	"net/http"
	"net/http/httptest"
	"os"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
)

// browser starts Chromium with a new profile. ASFOUND_CHROMIUM is its path
// where that is not /usr/bin/chromium; without it the test fails.
func browser(t *testing.T, width, height int64, opts ...chromedp.EmulateViewportOption) context.Context {
	t.Helper()
	path := os.Getenv("ASFOUND_CHROMIUM")
	if path == "" {
		path = "/usr/bin/chromium"
	}
	if _, err := os.Stat(path); err != nil {
		t.Fatalf("these tests need Chromium: install it, or name it in ASFOUND_CHROMIUM: %v", err)
	}
	args := append(append([]chromedp.ExecAllocatorOption{}, chromedp.DefaultExecAllocatorOptions[:]...),
		chromedp.ExecPath(path), chromedp.Flag("no-sandbox", true), chromedp.Flag("disable-background-networking", true),
		chromedp.Flag("no-first-run", true), chromedp.UserDataDir(t.TempDir()))
	ctx, stop := chromedp.NewExecAllocator(t.Context(), args...)
	t.Cleanup(stop)
	ctx, closeTab := chromedp.NewContext(ctx)
	t.Cleanup(closeTab)
	ctx, cancel := context.WithTimeout(ctx, 10*time.Minute)
	t.Cleanup(cancel)
	must(t, chromedp.Do(ctx, chromedp.EmulateViewport(width, height, opts...)))
	return ctx
}

func phone(t *testing.T) context.Context {
	return browser(t, 360, 740, chromedp.EmulateMobile, chromedp.EmulateTouch)
}

func must(t *testing.T, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

// serve puts a house behind an address of this machine, as package cmd does.
func serve(t *testing.T, h *house) string {
	t.Helper()
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.ParseForm() != nil {
			w.WriteHeader(http.StatusBadRequest)
			return
		}
		out := h.pages.Answer(Request{Method: r.Method, Path: r.URL.Path, Form: r.Form, Who: h.who, Now: h.now})
		w.Header().Set("Content-Security-Policy", ContentPolicy)
		w.Header().Set("Content-Type", out.Type)
		if out.Location != "" {
			w.Header().Set("Location", out.Location)
		}
		w.WriteHeader(out.Status)
		_, _ = w.Write(out.Body)
	}))
	t.Cleanup(server.Close)
	return server.URL
}

func evaluate[T any](t *testing.T, ctx context.Context, script string) T {
	t.Helper()
	out, err := chromedp.Run(ctx, chromedp.Evaluate[T](script))
	must(t, err)
	return out
}

// press types keys into whatever has the cursor.
func press(t *testing.T, ctx context.Context, keys ...string) {
	t.Helper()
	for _, k := range keys {
		must(t, chromedp.Do(ctx, chromedp.KeyEvent(k)))
	}
}
