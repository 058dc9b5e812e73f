package main

import (
	"bytes"
	"fmt"
	"image"
	"image/jpeg"
	"io"
	"sync/atomic"
	"testing"

	"asfound/journal"
	"asfound/paper"
)

// album is a store of photographs that counts how often one is opened.
type album struct {
	files  map[string][]byte
	opened atomic.Int64
}

func (a *album) HasBlob(hash string) bool { return a.files[hash] != nil }

func (a *album) Blob(hash string) (io.ReadCloser, error) {
	a.opened.Add(1)
	if !a.HasBlob(hash) {
		return nil, journal.ErrNoBlob
	}
	return io.NopCloser(bytes.NewReader(a.files[hash])), nil
}

// A photograph is made small once for all sheets, at once with others; one that
// cannot be read gives nothing, and is tried again when it has come whole.
func TestPrints(t *testing.T) {
	var file bytes.Buffer
	if err := jpeg.Encode(&file, image.NewGray(image.Rect(0, 0, 1200, 900)), nil); err != nil {
		t.Fatal(err)
	}
	a := &album{files: map[string][]byte{"half": file.Bytes()[:200]}}
	p := &prints{store: a}
	page := paper.NewPage(paper.Letter, "record")
	for i := range 20 {
		hash := fmt.Sprint("photo ", i)
		a.files[hash] = file.Bytes()
		page.Picture(paper.Picture{JPEG: func() []byte { return p.JPEG(hash, 520) }})
	}
	sheet := &paper.Sheet{Pages: []*paper.Page{page}}
	develop(sheet)
	develop(sheet)
	if n := a.opened.Load(); n != 20 {
		t.Errorf("20 photographs were opened %d times", n)
	}
	config, err := jpeg.DecodeConfig(bytes.NewReader(p.JPEG("photo 3", 520)))
	if err != nil || config.Width != 520 || config.Height != 390 {
		t.Errorf("%d by %d, %v", config.Width, config.Height, err)
	}
	if p.JPEG("half", 520) != nil || p.JPEG("none", 520) != nil || p.Here("none") {
		t.Error("a photograph that cannot be read gives a picture")
	}
	a.files["half"] = file.Bytes()
	if p.JPEG("half", 520) == nil {
		t.Error("a photograph that came whole later is not tried again")
	}
}
