package main

import (
	"bytes"
	"encoding/base64"
	"fmt"
	"io"
	"mime/multipart"
	"net/http"
	"net/http/httptest"
	"net/url"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"asfound/observation"
)

// onePixel is a PNG of one pixel.
var onePixel, _ = base64.StdEncoding.DecodeString(
	"iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==")

// adapterOn is a server over a new job with one room and one opening.
func adapterOn(t *testing.T) (server *httptest.Server, j *job, opening observation.Thing) {
	t.Helper()
	folder := t.TempDir()
	p := &program{out: io.Discard, words: io.Discard, now: time.Now}
	must(t, makeJob(p, folder, "Pellam Point"))
	j, err := openJob(filepath.Join(folder, "Pellam Point.job"), time.Now)
	must(t, err)
	t.Cleanup(func() { j.store.Close() })
	record := func(b observation.Body) observation.Thing {
		id, err := j.Record(observation.Observation{Who: "Marit Sandvei", Body: b})
		must(t, err)
		return id.Thing()
	}
	house := record(observation.Building{Name: "Main house"})
	room := record(observation.Room{Building: house, Name: "Pantry"})
	opening = record(observation.Opening{Room: room, Number: "A04-02", Order: 1})
	jobs := &shelf{}
	jobs.put(j)
	server = httptest.NewServer(newAdapter(jobs, []string{"Marit Sandvei"}, time.Now))
	t.Cleanup(server.Close)
	return server, j, opening
}

// upload sends a photograph form; the caption comes after the file.
func upload(t *testing.T, address string, size int, file []byte) (status int, body, location string) {
	t.Helper()
	reader, writer := io.Pipe()
	form := multipart.NewWriter(writer)
	go func() {
		part, _ := form.CreateFormFile("photo", "panel.jpg")
		part.Write(file)                                                 //nolint:errcheck // a refusal shows in the answer
		for block := make([]byte, 1<<20); size > 0; size -= len(block) { // zeros
			part.Write(block) //nolint:errcheck // the same
		}
		form.WriteField("who", "Tomas Veil")               //nolint:errcheck // the same
		form.WriteField("caption", "the panel, door open") //nolint:errcheck // the same
		writer.CloseWithError(form.Close())
	}()
	got, err := asTyped.Post(address, form.FormDataContentType(), reader)
	must(t, err)
	defer got.Body.Close()
	text, err := io.ReadAll(got.Body)
	must(t, err)
	return got.StatusCode, string(text), got.Header.Get("Location")
}

func TestPhotographs(t *testing.T) {
	cases := []struct {
		name string
		file []byte
		more int
		say  string // empty when it is kept
	}{
		{"a picture", onePixel, 0, ""},
		{"a picture of 200 MB", onePixel, 200 << 20, "larger than 30 MB"},
		{"a text named as a picture", []byte("kitchen 2.49 k"), 0, "not a picture"},
		{"a program named as a picture", []byte("\x7fELF\x02\x01"), 4 << 20, "not a picture"},
		{"a page named as a picture", []byte("<html><script>alert(1)</script>"), 0, "not a picture"},
		{"nothing", nil, 0, "picture"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			server, j, opening := adapterOn(t)
			status, body, location := upload(t, server.URL+"/photo/"+string(opening), c.more, c.file)
			blobs, err := j.store.Blobs()
			must(t, err)
			if c.say == "" {
				if status != http.StatusSeeOther || location == "" || len(blobs) != 1 {
					t.Errorf("answered %d to %q with %d photographs held, want it kept\n%s", status, location, len(blobs), body)
				}
				return
			}
			if status != http.StatusUnprocessableEntity || len(blobs) != 0 {
				t.Errorf("answered %d with %d photographs held, want 422 and none", status, len(blobs))
			}
			if !strings.Contains(body, c.say) || !strings.Contains(body, "the panel, door open") {
				t.Errorf("does not say %q with the form kept", c.say)
			}
		})
	}
}

func TestPhotographComesBack(t *testing.T) {
	server, j, opening := adapterOn(t)
	upload(t, server.URL+"/photo/"+string(opening), 0, onePixel)
	blobs, err := j.store.Blobs()
	must(t, err)
	got, err := http.Get(server.URL + "/photo/" + blobs[0])
	must(t, err)
	defer got.Body.Close()
	body, err := io.ReadAll(got.Body)
	must(t, err)
	if !bytes.Equal(body, onePixel) || got.Header.Get("Content-Type") != "image/png" {
		t.Errorf("%d bytes as %s came back", len(body), got.Header.Get("Content-Type"))
	}
	if !strings.Contains(got.Header.Get("Cache-Control"), "immutable") {
		t.Errorf("a photograph never changes, and is cached as %q", got.Header.Get("Cache-Control"))
	}
}

func TestWhoIsRemembered(t *testing.T) {
	server, _, _ := adapterOn(t)
	got, err := asTyped.PostForm(server.URL+"/who", url.Values{"name": {"Marit Sandvei; \"Ærø\""}})
	must(t, err)
	got.Body.Close()
	var cookie *http.Cookie
	for _, c := range got.Cookies() {
		cookie = c
	}
	if cookie == nil || !cookie.HttpOnly || cookie.SameSite != http.SameSiteStrictMode {
		t.Fatalf("cookie %v, want one for this site and no script", cookie)
	}
	ask, err := http.NewRequest("GET", server.URL+"/", nil)
	must(t, err)
	ask.AddCookie(cookie)
	page, err := http.DefaultClient.Do(ask)
	must(t, err)
	defer page.Body.Close()
	body, err := io.ReadAll(page.Body)
	must(t, err)
	if !strings.Contains(string(body), "Marit Sandvei; &#34;Ærø&#34;") {
		t.Error("the page does not know who it was")
	}
}

func TestForeignPagesCannotRecord(t *testing.T) {
	server, j, _ := adapterOn(t)
	before, err := j.store.Length()
	must(t, err)
	for _, c := range []struct {
		name, header, value, host string
		want                      int
	}{
		{"a form on another page", "Sec-Fetch-Site", "cross-site", "", http.StatusForbidden},
		{"a form of an old browser on another page", "Origin", "http://example.com", "", http.StatusForbidden},
		{"a foreign name made to lead here", "Accept", "*/*", "rebound.example:7373", http.StatusMisdirectedRequest},
	} {
		t.Run(c.name, func(t *testing.T) {
			ask, err := http.NewRequest("POST", server.URL+"/property", strings.NewReader("building_name=Trap&who=Nobody"))
			must(t, err)
			ask.Header.Set("Content-Type", "application/x-www-form-urlencoded")
			ask.Header.Set(c.header, c.value)
			if c.host != "" {
				ask.Host = c.host
			}
			got, err := asTyped.Do(ask)
			must(t, err)
			got.Body.Close()
			if got.StatusCode != c.want {
				t.Errorf("answered %d, want %d", got.StatusCode, c.want)
			}
		})
	}
	if after, err := j.store.Length(); err != nil || after != before {
		t.Errorf("%d entries, were %d: %v", after, before, err)
	}
}

func TestHeaders(t *testing.T) {
	server, _, _ := adapterOn(t)
	page, err := http.Get(server.URL + "/panels")
	must(t, err)
	page.Body.Close()
	policy := page.Header.Get("Content-Security-Policy")
	for _, want := range []string{"default-src 'self'", "script-src 'self'", "img-src 'self' blob: data:"} {
		if !strings.Contains(policy, want) {
			t.Errorf("policy %q, want %q in it", policy, want)
		}
	}
	if strings.Contains(policy, "unsafe-inline") || strings.Contains(policy, "'unsafe-eval'") {
		t.Errorf("policy %q lets foreign scripts in", policy)
	}
	if page.Header.Get("Referrer-Policy") != "no-referrer" || page.Header.Get("X-Content-Type-Options") != "nosniff" {
		t.Errorf("headers %v", page.Header)
	}
	style, err := http.Get(server.URL + "/assets/page.css")
	must(t, err)
	style.Body.Close()
	again, err := http.NewRequest("GET", server.URL+"/assets/page.css", nil)
	must(t, err)
	again.Header.Set("If-None-Match", style.Header.Get("ETag"))
	got, err := http.DefaultClient.Do(again)
	must(t, err)
	got.Body.Close()
	if style.StatusCode != http.StatusOK || got.StatusCode != http.StatusNotModified {
		t.Errorf("style sheet answered %d, then %d; want 200, then 304", style.StatusCode, got.StatusCode)
	}
}

func TestTooMuchTyped(t *testing.T) {
	server, _, _ := adapterOn(t)
	got, err := asTyped.PostForm(server.URL+"/property", url.Values{"building_name": {strings.Repeat("x", mostTyped+1)}})
	must(t, err)
	got.Body.Close()
	if got.StatusCode != http.StatusBadRequest {
		t.Errorf("answered %d, want 400", got.StatusCode)
	}
}

// FuzzReceive sends any bytes as a form with photographs; the server must
// answer, and keep no file that is not a picture.
func FuzzReceive(f *testing.F) {
	f.Add([]byte("--b\r\nContent-Disposition: form-data; name=\"photo\"; filename=\"a\"\r\n\r\nkitchen\r\n--b--\r\n"))
	f.Add([]byte("--b\r\nContent-Disposition: form-data; name=\"caption\"\r\n\r\nx\r\n--b--"))
	f.Add([]byte("--b\r\n\r\n--b"))
	folder := f.TempDir()
	p := &program{out: io.Discard, words: io.Discard, now: time.Now}
	if err := makeJob(p, folder, "Pellam Point"); err != nil {
		f.Fatal(err)
	}
	j, err := openJob(filepath.Join(folder, "Pellam Point.job"), time.Now)
	if err != nil {
		f.Fatal(err)
	}
	f.Cleanup(func() { j.store.Close() })
	jobs := &shelf{}
	jobs.put(j)
	handler := newAdapter(jobs, nil, time.Now)
	f.Fuzz(func(t *testing.T, body []byte) {
		ask := httptest.NewRequest("POST", "http://127.0.0.1/photo/none", bytes.NewReader(body))
		ask.Header.Set("Content-Type", "multipart/form-data; boundary=b")
		got := httptest.NewRecorder()
		handler.ServeHTTP(got, ask)
		if got.Code < 300 || got.Code >= 500 {
			t.Errorf("answered %d", got.Code)
		}
		blobs, err := j.store.Blobs()
		must(t, err)
		for _, hash := range blobs {
			r, err := j.store.Blob(hash)
			must(t, err)
			head, err := io.ReadAll(io.LimitReader(r, 512))
			r.Close()
			must(t, err)
			if kind := http.DetectContentType(head); kind != "image/jpeg" && kind != "image/png" {
				t.Error(fmt.Sprint("kept a file that is ", kind))
			}
		}
	})
}
