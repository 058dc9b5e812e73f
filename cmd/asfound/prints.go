package main

import (
	"errors"
	"fmt"
	"io"
	"runtime"
	"sync"

	"asfound/paper"
	"asfound/paper/photo"
)

// prints are photographs made small enough for paper. Each is made once, when it
// comes in if it can be: reading one of 12 million pixels takes a fifth of a
// second.
type prints struct {
	store blobs

	mu   sync.Mutex
	made map[string][]byte // by hash and size
}

// blobs is what prints need of a store.
type blobs interface {
	Blob(hash string) (io.ReadCloser, error)
	HasBlob(hash string) bool
}

// mostPrints is how many prints are kept, some 50 kB each.
const mostPrints = 400

// Here reports whether the photograph is on this device.
func (p *prints) Here(hash string) bool { return p.store.HasBlob(hash) }

// TooLarge reports whether a photograph has more pixels than can be read here.
func (p *prints) TooLarge(hash string) bool {
	file, err := p.store.Blob(hash)
	if err != nil {
		return false
	}
	defer file.Close()
	return errors.Is(photo.Look(file), photo.ErrTooLarge)
}

// JPEG gives a photograph for paper; nothing when it cannot be read.
func (p *prints) JPEG(hash string, longest int) []byte {
	key := fmt.Sprintf("%s %d", hash, longest)
	p.mu.Lock()
	data, ok := p.made[key]
	p.mu.Unlock()
	if ok {
		return data
	}
	if data = p.print(hash, longest); data == nil {
		return nil
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.made == nil || len(p.made) >= mostPrints {
		p.made = map[string][]byte{}
	}
	p.made[key] = data
	return data
}

func (p *prints) print(hash string, longest int) []byte {
	file, err := p.store.Blob(hash)
	if err != nil {
		return nil
	}
	defer file.Close()
	data, err := io.ReadAll(file)
	if err != nil {
		return nil
	}
	out, err := photo.Fit(data, longest)
	if err != nil {
		return nil // the sheet says so in its place
	}
	return out
}

// develop makes the photographs of a sheet, as many at once as there are
// processors, so that writing the sheet finds them made.
func develop(sheet *paper.Sheet) {
	var group sync.WaitGroup
	room := make(chan struct{}, runtime.GOMAXPROCS(0))
	for _, page := range sheet.Pages {
		for _, picture := range pictures(page.Marks) {
			room <- struct{}{}
			group.Go(func() {
				picture.JPEG()
				<-room
			})
		}
	}
	group.Wait()
}

func pictures(marks []paper.Mark) []paper.Picture {
	var out []paper.Picture
	for _, m := range marks {
		switch m := m.(type) {
		case paper.Picture:
			out = append(out, m)
		case *paper.Group:
			out = append(out, pictures(m.Marks)...)
		}
	}
	return out
}
