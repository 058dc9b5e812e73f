//go:build js && wasm

package main

import (
	"fmt"
	"strings"
	"time"

	"asfound/journal"
	"asfound/site"
	"asfound/web"
)

// phone is the pages over a journal in memory.
type phone struct {
	journal *journal.Memory
	pages   *web.Pages
	now     func() time.Time
	handed  int64 // position up to which the script has the lines
}

type request struct {
	Method, Path, Who string
	Form              map[string][]string
}

// newPhone makes a phone with an empty journal. The seed gives the device its
// name and must not be used twice.
func newPhone(seed [32]byte, now func() time.Time) (*phone, error) {
	p := &phone{journal: journal.NewMemory(seed, now), now: now}
	s, err := site.Open(p.journal, now)
	if err != nil {
		return nil, fmt.Errorf("open journal: %w", err)
	}
	p.pages = web.New(web.Job{Name: "Job", Site: s, Entries: p.journal})
	return p, nil
}

// load merges events of other devices, and of this one from before: lines of
// text, empty ones left out. They count as handed out already.
func (p *phone) load(text string) (map[string]any, error) {
	var raws [][]byte
	for line := range strings.Lines(text) {
		if line = strings.TrimRight(line, "\r\n"); line != "" {
			raws = append(raws, []byte(line))
		}
	}
	got, err := p.journal.Merge(raws)
	if err != nil {
		return nil, fmt.Errorf("load events: %w", err)
	}
	refused := []any{}
	for _, r := range got.Refused {
		refused = append(refused, r.Say)
	}
	p.handed, err = p.journal.Length()
	return map[string]any{"added": got.Added, "held": got.Held, "waiting": len(got.Waiting), "refused": refused}, err
}

// answer answers a request, with the lines that it recorded.
func (p *phone) answer(r request) (map[string]any, error) {
	out := p.pages.Answer(web.Request{Method: r.Method, Path: r.Path, Form: r.Form, Who: r.Who, Now: p.now()})
	lines := []any{}
	err := p.journal.Read(p.handed, func(e journal.Entry) error {
		lines = append(lines, string(e.Raw))
		p.handed = e.Position
		return nil
	})
	return map[string]any{"status": out.Status, "type": out.Type, "html": string(out.Body),
		"location": out.Location, "who": out.Who, "lines": lines}, err
}
