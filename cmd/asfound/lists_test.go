package main

import (
	"bytes"
	"io"
	"mime/multipart"
	"net/http"
	"strings"
	"testing"
)

// sendList sends a list as a browser does, with who it is behind the file.
func sendList(t *testing.T, address, name string, text []byte) (status int, body, location string) {
	t.Helper()
	var form bytes.Buffer
	w := multipart.NewWriter(&form)
	part, err := w.CreateFormFile("list", name)
	must(t, err)
	_, err = part.Write(text)
	must(t, err)
	must(t, w.WriteField("kind", "openings"))
	must(t, w.WriteField("who", "Tomas Veil"))
	must(t, w.Close())
	got, err := asTyped.Post(address, w.FormDataContentType(), &form)
	must(t, err)
	defer got.Body.Close()
	page, err := io.ReadAll(got.Body)
	must(t, err)
	return got.StatusCode, string(page), got.Header.Get("Location")
}

// A list that a browser sends is looked at, and kept as it was sent.
func TestAListFromABrowser(t *testing.T) {
	server, j, _ := adapterOn(t)
	list := []byte("\ufeffbuilding;room;number\r\nZ;Slip;Z01-01\r\nZ;Slip;\r\n")
	status, body, location := sendList(t, server.URL+"/lists", `C:\lists\Slip 1.csv`, list)
	if status != http.StatusSeeOther || !strings.HasPrefix(location, "/lists/") {
		t.Fatalf("answered %d to %q\n%s", status, location, body)
	}
	got, err := asTyped.PostForm(server.URL+location, map[string][]string{"who": {"Tomas Veil"}})
	must(t, err)
	got.Body.Close()
	found, err := j.AsFound()
	must(t, err)
	all := found.Numbered("Z01-01")
	if got.StatusCode != http.StatusSeeOther || len(all) != 1 || !strings.Contains(all[0].Story[0].Stop, "Slip 1.csv") {
		t.Fatalf("answered %d, %d openings kept", got.StatusCode, len(all))
	}
	if blobs, err := j.store.Blobs(); err != nil || len(blobs) != 0 {
		t.Errorf("%d photographs were made of a list, %v", len(blobs), err)
	}
}

// Lists that cannot be used come back with a sentence.
func TestListsThatABrowserSendsInVain(t *testing.T) {
	server, _, _ := adapterOn(t)
	for name, c := range map[string]struct {
		text []byte
		say  string
	}{
		"too large":     {bytes.Repeat([]byte("Z;Slip;Z01-01\n"), 3<<20), "larger than 32 MB"},
		"a spreadsheet": {[]byte("PK\x03\x04 and more"), "Save it from the spreadsheet as CSV"},
		"empty":         {nil, "nothing in this list"},
	} {
		t.Run(name, func(t *testing.T) {
			status, body, _ := sendList(t, server.URL+"/lists", "a.csv", c.text)
			if status != http.StatusUnprocessableEntity || !strings.Contains(body, c.say) {
				t.Errorf("answered %d without %q", status, c.say)
			}
		})
	}
}
