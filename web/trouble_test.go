package web

import (
	"errors"
	"testing"

	"asfound/journal"
	"asfound/site"
)

// brokenSite is a job whose journal cannot be read.
type brokenSite struct{ Site }

func (brokenSite) AsFound() (*site.AsFound, error) {
	return nil, errors.New("read journal: input/output error")
}

func TestJournalThatCannotBeRead(t *testing.T) {
	h := built(t)
	pages := New(Job{Name: "Pellam Point", Site: brokenSite{h.site}, Entries: h.store})
	r := pages.Answer(Request{Method: "GET", Path: "/", Now: h.now})
	if r.Status != statusFailed {
		t.Errorf("status %d, want 500", r.Status)
	}
	wants(t, string(r.Body), sayNoRead)
	var _ journal.Store = h.store
}

func TestWrongMethod(t *testing.T) {
	h := built(t)
	if r := h.send("POST", "/journal", nil); r.Status != statusNotAllowed {
		t.Errorf("POST to the journal: status %d, want 405", r.Status)
	}
}
