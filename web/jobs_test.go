package web

import (
	"strings"
	"testing"
)

// Several jobs stand side by side, each under its key.
func TestSeveralJobs(t *testing.T) {
	a, b := built(t), newHouse(t)
	pages := New(Job{Key: "pellam", Name: "Pellam Point", Site: a.site, Entries: a.store}, Job{Key: "other", Name: "Other house", Site: b.site, Entries: b.store})
	r := pages.Answer(Request{Method: "GET", Path: "/", Now: a.now})
	wants(t, string(r.Body), "Pellam Point", `href="other/"`)
	r = pages.Answer(Request{Method: "GET", Path: "/pellam/property", Now: a.now})
	if r.Status != statusOK || !strings.Contains(string(r.Body), `<base href="/pellam/"/>`) {
		t.Errorf("status %d", r.Status)
	}
	r = pages.Answer(Request{Method: "POST", Path: "/other/property", Now: b.now, Who: "Dell Amoah", Form: map[string][]string{"building_name": {"B"}}})
	if !strings.HasPrefix(r.Location, "/other/building/") {
		t.Errorf("sent to %q", r.Location)
	}
	if r := pages.Answer(Request{Method: "GET", Path: "/third/", Now: a.now}); r.Status != statusNotFound {
		t.Errorf("an unknown job: status %d", r.Status)
	}
}
