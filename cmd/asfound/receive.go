package main

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"mime/multipart"
	"net/http"
	"strings"

	"asfound/journal"
	"asfound/list"
	"asfound/report"
	"asfound/web"
)

// What a form may bring. A picture of a 50-megapixel camera is about 20 MB.
const (
	mostSent  = 1 << 30
	mostTyped = 4 << 20
	mostPhoto = 30 << 20
)

// Refusals stand in the place of a photograph's type; job.Record gives their
// sentence back to the form, which keeps what was typed.
const (
	tooLarge   = "too large"
	noPicture  = "no picture"
	notCarried = "not carried"
	diskFull   = "disk full"
)

var refusals = map[string]string{
	tooLarge:   fmt.Sprintf("This file is larger than %d MB. Choose a smaller picture.", mostPhoto>>20),
	noPicture:  "This file is not a picture. Choose a JPEG or PNG picture.",
	notCarried: "This picture did not arrive whole. Add it again.",
	diskFull:   "The disk is full: free some space, then add the picture again.",
}

var errTooLarge = errors.New("photograph too large")

// receive reads a form with photographs part by part, never holding a picture
// in memory. What is refused is read to its end all the same, so that the
// browser can be told.
func (a *adapter) receive(r *http.Request, out *web.Request) error {
	parts, err := r.MultipartReader()
	if err != nil {
		return err
	}
	typed := int64(mostTyped)
	for {
		part, err := parts.NextPart()
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return err
		}
		if part.FileName() != "" && part.FormName() == web.ListField {
			receiveList(part, out)
			continue
		}
		if part.FileName() != "" {
			a.receivePhoto(part, out)
			continue
		}
		if typed, err = receiveField(part, out, typed); err != nil {
			return err
		}
	}
}

// receiveField reads what was typed in a field; room is what a form may still
// bring.
func receiveField(part *multipart.Part, out *web.Request, room int64) (int64, error) {
	text, err := io.ReadAll(io.LimitReader(part, room+1))
	if err != nil {
		return 0, err
	}
	room -= int64(len(text))
	if room < 0 {
		return 0, errTooLarge
	}
	if part.FormName() != "" && !emptyFile(part) {
		out.Form[part.FormName()] = append(out.Form[part.FormName()], string(text))
	}
	return room, nil
}

// receiveList reads a list whole; it is held in memory until it is kept or given
// up. One that is too large or did not arrive whole has no text.
func receiveList(part *multipart.Part, out *web.Request) {
	file := web.File{Name: part.FileName()}
	text, err := io.ReadAll(&limited{part, list.Largest})
	switch {
	case errors.Is(err, errTooLarge):
		file.Type = web.TooLarge
		_, _ = io.Copy(io.Discard, part) // to its end, so that the browser can be told
	case err == nil:
		file.Text, file.Bytes = text, int64(len(text))
		sum := sha256.Sum256(text)
		file.Hash = hex.EncodeToString(sum[:])
	}
	if out.Files == nil {
		out.Files = map[string][]web.File{}
	}
	out.Files[part.FormName()] = append(out.Files[part.FormName()], file)
}

// emptyFile reports whether a part is a file field in which nothing was chosen.
func emptyFile(part *multipart.Part) bool {
	return strings.Contains(part.Header.Get("Content-Disposition"), "filename=")
}

// receivePhoto keeps a photograph in the job that the form belongs to.
func (a *adapter) receivePhoto(part *multipart.Part, out *web.Request) {
	file := web.File{Hash: strings.Repeat("0", 64), Bytes: 1}
	job := a.jobs.at(out.Path)
	if job == nil {
		return
	}
	head := make([]byte, 512)
	n, err := io.ReadFull(part, head)
	head = head[:n]
	kind := http.DetectContentType(head)
	switch {
	case err != nil && !errors.Is(err, io.EOF) && !errors.Is(err, io.ErrUnexpectedEOF):
		file.Type = notCarried
	case kind != "image/jpeg" && kind != "image/png":
		file.Type = noPicture
	default:
		file = keepPhoto(job.store, io.MultiReader(bytes.NewReader(head), part), kind)
		go job.small.JPEG(file.Hash, report.PicturePixels) // the sheet asks for it some day
	}
	if out.Files == nil {
		out.Files = map[string][]web.File{}
	}
	out.Files[part.FormName()] = append(out.Files[part.FormName()], file)
}

func keepPhoto(store journal.Store, from io.Reader, kind string) web.File {
	refused := web.File{Hash: strings.Repeat("0", 64), Bytes: 1}
	hash, size, err := store.PutBlob(&limited{from, mostPhoto})
	switch {
	case err == nil:
		return web.File{Hash: hash, Type: kind, Bytes: size}
	case errors.Is(err, errTooLarge):
		refused.Type = tooLarge
	case errors.Is(err, journal.ErrFull):
		refused.Type = diskFull
	default:
		refused.Type = notCarried
	}
	return refused
}

// limited gives an error in place of more than room bytes.
type limited struct {
	from io.Reader
	room int64
}

func (l *limited) Read(p []byte) (int, error) {
	n, err := l.from.Read(p)
	l.room -= int64(n)
	if l.room < 0 {
		return n, errTooLarge
	}
	return n, err
}
