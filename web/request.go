package web

import (
	"crypto/sha256"
	"maps"
	"slices"
	"sync"
	"time"
)

// ContentPolicy is the content security policy under which every page works:
// no script, style or picture but the program's own.
const ContentPolicy = "default-src 'self'; script-src 'self' 'wasm-unsafe-eval'; connect-src 'self'; " +
	"img-src 'self' blob: data:; form-action 'self'; base-uri 'self'; frame-ancestors 'none'; object-src 'none'"

// Request is what somebody asks for. The adapter in cmd fills it in.
type Request struct {
	Method string              // "GET" or "POST"
	Path   string              // decoded, from "/" on, without the query
	Form   map[string][]string // query and form fields
	Files  map[string][]File   // photographs, already kept by whoever received them, and lists
	Who    string              // who is asking, if this device remembers; a field "who" goes first
	Now    time.Time           // in the zone of the person
}

// File is a photograph that was stored before the request came here, or a list
// with its text.
type File struct {
	Hash  string // SHA-256, hexadecimal
	Type  string // as found in its first bytes: "image/jpeg"
	Bytes int64
	Name  string // of a list, as its sender calls it
	Text  []byte // of a list
}

// ListField is the name of the field that brings a list; TooLarge is the Type of
// one that was larger than list.Largest.
const (
	ListField = "list"
	TooLarge  = "too large"
)

// Response is the answer to a Request.
type Response struct {
	Status   int
	Location string // where to go instead, with status 303
	Type     string // of Body
	Body     []byte
	Who      string // remember this person on this device; empty changes nothing
	Lasting  bool   // the body never changes under this address
}

// Statuses used here, as RFC 9110 numbers them (507 is RFC 4918).
const (
	statusOK         = 200
	statusGoTo       = 303
	statusNotFound   = 404
	statusNotAllowed = 405
	statusUnusable   = 422
	statusFailed     = 500
	statusFull       = 507
)

// answered remembers forms that were kept, so that a second press of the same
// button, or the same form sent again, gives the same answer and keeps nothing
// twice. What somebody changed in between is another form.
type answered struct {
	mu    sync.Mutex
	by    map[[sha256.Size]byte]Response
	order [][sha256.Size]byte
}

const answersKept = 500

func (a *answered) find(r Request) (Response, bool) {
	a.mu.Lock()
	defer a.mu.Unlock()
	out, ok := a.by[digest(r)]
	return out, ok
}

func (a *answered) keep(r Request, out Response) {
	a.mu.Lock()
	defer a.mu.Unlock()
	if a.by == nil {
		a.by = map[[sha256.Size]byte]Response{}
	}
	key := digest(r)
	a.by[key] = out
	a.order = append(a.order, key)
	if len(a.order) > answersKept {
		delete(a.by, a.order[0])
		a.order = a.order[1:]
	}
}

// digest names a form with all that is in it; each page shown gives its forms a
// mark of their own in the field "once".
func digest(r Request) [sha256.Size]byte {
	h := sha256.New()
	put := func(s string) { h.Write([]byte(s)); h.Write([]byte{0}) }
	put(r.Path)
	for _, name := range slices.Sorted(maps.Keys(r.Form)) {
		put(name)
		for _, value := range r.Form[name] {
			put(value)
		}
	}
	for _, name := range slices.Sorted(maps.Keys(r.Files)) {
		put(name)
		for _, file := range r.Files[name] {
			put(file.Hash)
			put(file.Name)
		}
	}
	var out [sha256.Size]byte
	h.Sum(out[:0])
	return out
}
