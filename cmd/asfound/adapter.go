package main

import (
	"crypto/sha256"
	"encoding/hex"
	"net"
	"net/http"
	"net/url"
	"os"
	"slices"
	"strconv"
	"strings"
	"time"

	"asfound/web"
)

// adapter turns net/http into web's own request and answer, and back.
type adapter struct {
	jobs  *shelf
	pages *web.Pages
	now   func() time.Time
	names []string // by which this laptop is called
}

// newAdapter returns the handler of the jobs' pages. Requests that other pages
// send in somebody's browser are refused: a form (CrossOriginProtection), and
// anything that comes under a name which is not this laptop's, as when a foreign
// name is made to lead here.
func newAdapter(jobs *shelf, people []string, now func() time.Time) http.Handler {
	a := &adapter{jobs: jobs, pages: jobs.pages(people), now: now, names: []string{"localhost"}}
	if host, err := os.Hostname(); err == nil {
		a.names = append(a.names, strings.ToLower(host), strings.ToLower(host)+".local")
	}
	return http.NewCrossOriginProtection().Handler(a)
}

// ServeHTTP answers a request.
func (a *adapter) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	if !a.ours(r.Host) {
		http.Error(w, "This is not the name of this laptop. Use the address that asfound printed.", http.StatusMisdirectedRequest)
		return
	}
	request, err := a.request(w, r)
	if err != nil {
		http.Error(w, "The form did not arrive whole. Go back and send it again.", http.StatusBadRequest)
		return
	}
	answer(w, r, a.pages.Answer(request))
}

// ours reports whether a request names this laptop: by number, or by its name.
func (a *adapter) ours(host string) bool {
	if name, _, err := net.SplitHostPort(host); err == nil {
		host = name
	}
	return net.ParseIP(strings.Trim(host, "[]")) != nil || slices.Contains(a.names, strings.ToLower(host))
}

// request reads what was asked. Photographs are kept on the way.
func (a *adapter) request(w http.ResponseWriter, r *http.Request) (web.Request, error) {
	out := web.Request{Method: r.Method, Path: r.URL.Path, Form: r.URL.Query(), Who: whoAsks(r), Now: a.now()}
	if r.Method != http.MethodPost {
		return out, nil
	}
	r.Body = http.MaxBytesReader(w, r.Body, mostSent)
	if strings.HasPrefix(r.Header.Get("Content-Type"), "multipart/form-data") {
		return out, a.receive(r, &out)
	}
	r.Body = http.MaxBytesReader(w, r.Body, mostTyped)
	if err := r.ParseForm(); err != nil {
		return out, err
	}
	out.Form = r.Form
	return out, nil
}

// whoCookie remembers on a browser who holds it.
const whoCookie = "who"

func whoAsks(r *http.Request) string {
	cookie, err := r.Cookie(whoCookie)
	if err != nil {
		return ""
	}
	name, err := url.QueryUnescape(cookie.Value)
	if err != nil {
		return ""
	}
	return name
}

// answer writes what the pages answered.
func answer(w http.ResponseWriter, r *http.Request, out web.Response) {
	head := w.Header()
	head.Set("Content-Security-Policy", web.ContentPolicy)
	head.Set("Referrer-Policy", "no-referrer")
	head.Set("X-Content-Type-Options", "nosniff")
	if out.Who != "" {
		http.SetCookie(w, &http.Cookie{Name: whoCookie, Value: url.QueryEscape(out.Who), Path: "/",
			MaxAge: 365 * 24 * 3600, HttpOnly: true, SameSite: http.SameSiteStrictMode})
	}
	if out.Location != "" {
		head.Set("Location", out.Location)
		w.WriteHeader(out.Status)
		return
	}
	if cached(head, r, out) {
		w.WriteHeader(http.StatusNotModified)
		return
	}
	head.Set("Content-Type", out.Type)
	head.Set("Content-Length", strconv.Itoa(len(out.Body)))
	w.WriteHeader(out.Status)
	if r.Method != http.MethodHead {
		w.Write(out.Body) //nolint:errcheck // whoever asked has gone
	}
}

// cached sets how long a browser may keep an answer, and reports whether it
// holds this one already. Pages are asked for each time; so are scripts and
// styles, but they need not be sent again.
func cached(head http.Header, r *http.Request, out web.Response) bool {
	switch {
	case out.Status != http.StatusOK:
		head.Set("Cache-Control", "no-store")
	case out.Lasting:
		head.Set("Cache-Control", "private, max-age=31536000, immutable")
	case strings.HasPrefix(r.URL.Path, "/assets/"):
		sum := sha256.Sum256(out.Body)
		tag := `"` + hex.EncodeToString(sum[:12]) + `"`
		head.Set("Cache-Control", "no-cache")
		head.Set("ETag", tag)
		return r.Header.Get("If-None-Match") == tag
	default:
		head.Set("Cache-Control", "private, no-cache")
	}
	return false
}
