// Package pdf writes a paper.Sheet as a PDF file for a printer.
//
// Text stays text: it can be selected, searched and read out. The Go fonts are
// embedded, so the file prints alike everywhere. The date in the file is the
// caller's, so the same sheet gives the same bytes. Links are for screens and
// are left out. The package draws nothing of its own and decides no layout.
//
// Start reading at Write.
package pdf

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"strings"
	"time"

	"asfound/paper"

	"codeberg.org/go-pdf/fpdf"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goitalic"
	"golang.org/x/image/font/gofont/gomono"
	"golang.org/x/image/font/gofont/goregular"
)

// Options are what the file says about itself.
type Options struct {
	Date     time.Time // when the sheet was made; must be given
	Author   string
	Subject  string // for instance the state of the records it was made from
	Language string // a BCP 47 tag; empty is "en-US"
}

// ErrNoDate is returned when Options.Date is zero: the clock is the caller's.
var ErrNoDate = errors.New("write PDF: the sheet has no date")

// ErrNoPages is returned for a sheet without pages, which no printer accepts.
var ErrNoPages = errors.New("write PDF: the sheet has no pages")

// Write writes the whole sheet. Nothing is written if the sheet cannot be drawn.
func Write(w io.Writer, s *paper.Sheet, o Options) error {
	if o.Date.IsZero() {
		return ErrNoDate
	}
	if len(s.Pages) == 0 {
		return ErrNoPages
	}
	doc := newDoc(s, o)
	for _, p := range s.Pages {
		doc.AddPageFormat("P", fpdf.SizeType{Wd: p.Width, Ht: p.Height})
		doc.marks(p.Marks)
	}
	var file bytes.Buffer
	if err := doc.Output(&file); err != nil {
		return fmt.Errorf("write PDF %q: %w", s.Title, err)
	}
	_, err := w.Write(file.Bytes())
	return err
}

type document struct {
	*fpdf.Fpdf
	loaded [4]bool
}

func newDoc(s *paper.Sheet, o Options) *document {
	doc := &document{Fpdf: fpdf.New("P", "mm", "Letter", "")}
	doc.SetCatalogSort(true)
	doc.SetCreationDate(o.Date.UTC())
	doc.SetModificationDate(o.Date.UTC())
	doc.SetMargins(0, 0, 0)
	doc.SetAutoPageBreak(false, 0)
	doc.SetTitle(info(s.Title), true)
	doc.SetAuthor(info(o.Author), true)
	doc.SetSubject(info(o.Subject), true)
	doc.SetKeywords(info(s.Key), true)
	doc.SetProducer("asfound", true)
	if o.Language == "" {
		o.Language = "en-US"
	}
	doc.SetLang(plainTag(o.Language))
	return doc
}

// info makes a text fit for the file's own description, where only the first
// 65,536 characters of Unicode can be written.
func info(s string) string {
	return strings.Map(func(r rune) rune {
		if r > 0xFFFF {
			return '\uFFFD'
		}
		return r
	}, paper.Clean(s))
}

// plainTag keeps what a language tag may hold (RFC 5646, 2.1).
func plainTag(tag string) string {
	return strings.Map(func(r rune) rune {
		if r == '-' || r >= '0' && r <= '9' || r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' {
			return r
		}
		return -1
	}, tag)
}

var fonts = [...]struct {
	name string
	ttf  []byte
}{
	paper.Regular: {"goregular", goregular.TTF},
	paper.Bold:    {"gobold", gobold.TTF},
	paper.Italic:  {"goitalic", goitalic.TTF},
	paper.Mono:    {"gomono", gomono.TTF},
}

// face selects a font, embedding it at its first use.
func (d *document) face(f paper.Face, points float64) {
	if !d.loaded[f] {
		// The writer may keep and cut what it is given: it gets a copy.
		d.AddUTF8FontFromBytes(fonts[f].name, "", bytes.Clone(fonts[f].ttf))
		d.loaded[f] = true
	}
	d.SetFont(fonts[f].name, "", points)
}
