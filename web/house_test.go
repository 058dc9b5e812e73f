package web

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"net/url"
	"os"
	"strings"
	"testing"
	"time"

	"asfound/journal"
	"asfound/observation"
	"asfound/pattern"
	"asfound/quantity"
	"asfound/site"
)

// house is a made-up job in memory: building A of Pellam Point with one panel
// and two rooms, as far along as a test wants it.
type house struct {
	t                     *testing.T
	now                   time.Time
	store                 *fullStore
	site                  *site.Site
	pages                 *Pages
	building, room, study observation.Thing
	panel                 observation.Thing
	opening               map[string]observation.Thing
	tour                  observation.ID
	who                   string
}

// fullStore is a memory journal whose disk can be full.
type fullStore struct {
	*journal.Memory
	full   bool
	broken bool
}

func (f *fullStore) Append(o observation.Observation) (journal.Entry, error) {
	if f.full {
		return journal.Entry{}, journal.ErrFull
	}
	if f.broken {
		return journal.Entry{}, errors.New("input/output error")
	}
	return f.Memory.Append(o)
}

func (f *fullStore) Together(do func(journal.Adder) error) error {
	return f.Memory.Together(func(add journal.Adder) error {
		return do(func(o observation.Observation) (journal.Entry, error) {
			if f.full {
				return journal.Entry{}, journal.ErrFull
			}
			return add(o)
		})
	})
}

func newHouse(t *testing.T) *house {
	t.Helper()
	h := &house{t: t, now: time.Date(2031, 5, 28, 9, 0, 0, 0, time.UTC), opening: map[string]observation.Thing{}, who: "Marit Sandvei"}
	h.store = &fullStore{Memory: journal.NewMemory([32]byte{7}, func() time.Time { return h.now })}
	var err error
	if h.site, err = site.Open(h.store, func() time.Time { return h.now }); err != nil {
		t.Fatal(err)
	}
	h.pages = New(Job{Name: "Pellam Point", People: []string{"Marit Sandvei", "Dell Amoah", "Tomas Veil"},
		Site: h.site, Entries: h.store, Photos: h.store, Sheets: oneSheet{}})
	return h
}

// oneSheet stands in for the sheets that package cmd supplies.
type oneSheet struct{}

func (oneSheet) List(*site.AsFound) []Sheet {
	return []Sheet{{Name: "directory-A1", Title: "Circuit directory, panel A1", For: "to hang in the panel door", Pages: 1}}
}

func (oneSheet) Render(_ *site.AsFound, name, form string, page int) ([]byte, error) {
	if form == "svg" {
		return []byte(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 216 279"><rect width="216" height="279" fill="#fff"/></svg>`), nil
	}
	return fmt.Appendf(nil, "%s as %s, page %d", name, form, page), nil
}

// record keeps an observation a minute after the one before.
func (h *house) record(o observation.Observation) observation.ID {
	h.t.Helper()
	h.now = h.now.Add(time.Minute)
	if o.Who == "" {
		o.Who = h.who
	}
	id, err := h.site.Record(o)
	if err != nil {
		h.t.Fatalf("record %T: %v", o.Body, err)
	}
	return id
}

// built records building, panel, rooms and openings.
func built(t *testing.T) *house {
	t.Helper()
	h := newHouse(t)
	h.building = h.record(observation.Observation{Body: observation.Building{Name: "A"}}).Thing()
	h.panel = h.record(observation.Observation{Body: observation.Panel{Building: h.building, Name: "A1", Spaces: 30}}).Thing()
	labels := map[int]string{1: "Great room", 3: "Study", 2: "Kitchen counter", 4: "?", 5: "lights"}
	for _, s := range []int{1, 3, 5, 7, 2, 4, 6} {
		h.record(observation.Observation{Subject: h.panel, Body: observation.Space{Number: s, Poles: 1, Amps: 20, Lands: observation.LandsBranch, Label: labels[s]}})
	}
	h.record(observation.Observation{Subject: h.panel, Body: observation.Space{Number: 8, Lands: observation.LandsNothing}})
	h.room = h.addRoom("A02 Great room", 1)
	h.study = h.addRoom("A03 Study", 2)
	for i := range 4 {
		h.addOpening(h.room, fmt.Sprintf("A02-%02d", i+1), i)
	}
	for i := range 3 {
		h.addOpening(h.study, fmt.Sprintf("A03-%02d", i+1), i)
	}
	return h
}

func (h *house) addRoom(name string, order int) observation.Thing {
	return h.record(observation.Observation{Body: observation.Room{Building: h.building, Name: name, Order: order}}).Thing()
}

func (h *house) addOpening(room observation.Thing, number string, order int) {
	h.opening[number] = h.record(observation.Observation{Body: observation.Opening{Room: room, Number: number, Use: observation.Receptacle, Gangs: 1, Order: order + 1}}).Thing()
}

// dead records lock-out and absence-of-voltage test.
func (h *house) dead() *house {
	h.record(observation.Observation{Subject: h.panel, Body: observation.LockOut{Device: "lock 4", Key: "Marit Sandvei", Told: "the builder"}})
	h.record(observation.Observation{Subject: h.panel, Body: observation.ProvenDead{Before: observation.Yes, Absent: observation.Yes, After: observation.Yes, Tester: "tester 2"}})
	return h
}

func value(space int) quantity.Ohms { return quantity.Ohms(1000 * float64(space)) }

// touring sets up a tour with a resistor on each branch, read back.
func (h *house) touring() *house {
	h.dead()
	h.tour = h.record(observation.Observation{Body: observation.Tour{Name: "Tour 1", Means: observation.ByResistor, Panels: []observation.Thing{h.panel},
		Tolerance: 0.01, MeterRelative: 0.009, MeterOhm: 0.2, NeutralJoined: observation.Yes}})
	for _, s := range []int{1, 3, 5, 7, 2, 4, 6} {
		h.record(observation.Observation{Under: []observation.ID{h.tour}, Body: observation.Resistor{On: observation.Point{At: h.panel, Space: s, Wire: observation.Hot}, Ohm: value(s)}})
	}
	for _, s := range []int{6, 4, 2, 7, 5, 3, 1} {
		h.record(observation.Observation{Under: []observation.ID{h.tour}, Body: observation.ReadBack{At: observation.Point{At: h.panel, Space: s, Wire: observation.Hot},
			Ohm: quantity.Resistance{Ohm: value(s)}, Blind: true}})
	}
	return h
}

// read takes the readings of one visit: a space's resistor each, 0 is open.
func (h *house) read(number, stop string, spaces ...int) {
	at := h.opening[number]
	h.record(observation.Observation{Stop: stop, Under: []observation.ID{h.tour}, Subject: at, Body: observation.Letters{Letters: pattern.Letters(number)}})
	for i, s := range spaces {
		other := observation.Neutral
		if i == 0 {
			other = observation.EGC
		}
		h.record(observation.Observation{Stop: stop, Under: []observation.ID{h.tour}, Body: observation.Ohm{A: observation.Point{At: at, Wire: observation.Hot},
			B: observation.Point{At: at, Wire: other}, Ohm: quantity.Resistance{Ohm: value(s) + 0.5, Open: s == 0}, Reprobed: observation.Yes}})
	}
}

// traced is a house with part of a tour walked: settled, likely, a clash and
// openings not read.
func traced(t *testing.T) *house {
	h := built(t).touring()
	h.read("A02-01", "s1", 1, 1)
	h.read("A02-02", "s2", 1, 1)
	h.read("A02-03", "s3", 3, 5)
	h.read("A03-01", "s4", 3, 3)
	h.record(observation.Observation{Subject: h.room, Under: []observation.ID{h.tour}, Body: observation.RoomCheck{All: observation.Yes}})
	h.record(observation.Observation{Subject: h.opening["A03-03"], Body: observation.NotReached{Why: "behind the range"}})
	return h
}

// get asks for a page and wants it to be there and well formed.
func (h *house) get(path string) string {
	h.t.Helper()
	r := h.send("GET", path, nil)
	if r.Status != statusOK {
		h.t.Fatalf("GET %s: status %d\n%s", path, r.Status, r.Body)
	}
	wellFormed(h.t, path, r.Body)
	return string(r.Body)
}

// send asks with form values given as name, value pairs.
func (h *house) send(method, path string, pairs []string) Response {
	h.t.Helper()
	h.now = h.now.Add(time.Second)
	address, query, _ := strings.Cut(path, "?")
	r := Request{Method: method, Path: address, Form: map[string][]string{}, Who: h.who, Now: h.now}
	for _, part := range strings.Split(query, "&") {
		if name, value, ok := strings.Cut(part, "="); ok {
			r.Form[name] = append(r.Form[name], unescape(value))
		}
	}
	for i := 0; i+1 < len(pairs); i += 2 {
		r.Form[pairs[i]] = append(r.Form[pairs[i]], pairs[i+1])
	}
	out := h.pages.Answer(r)
	if bytes.HasPrefix(out.Body, []byte("<!doctype")) {
		wellFormed(h.t, path, out.Body)
	}
	return out
}

// kept sends a form and wants it kept; it returns where the person is sent.
func (h *house) kept(path string, pairs ...string) string {
	h.t.Helper()
	r := h.send("POST", path, pairs)
	if r.Status != statusGoTo {
		h.t.Fatalf("POST %s %v: status %d, want it kept\n%s", path, pairs, r.Status, text(r.Body))
	}
	return r.Location
}

// refused sends a form and wants it back with the sentence and all that was
// typed, and nothing kept.
func (h *house) refused(path, say string, pairs ...string) string {
	h.t.Helper()
	before, _ := h.store.Length()
	r := h.send("POST", path, pairs)
	body := string(r.Body)
	if r.Status < 400 {
		h.t.Fatalf("POST %s %v: status %d to %q, want it refused", path, pairs, r.Status, r.Location)
	}
	if n := strings.Count(text(r.Body), say); n != 1 {
		h.t.Errorf("POST %s: the sentence %q stands %d times on the page, want once:\n%s", path, say, n, text(r.Body))
	}
	if after, _ := h.store.Length(); after != before {
		h.t.Errorf("POST %s: %d entries were kept", path, after-before)
	}
	return body
}

func (h *house) length() int64 {
	n, err := h.store.Length()
	if err != nil {
		h.t.Fatal(err)
	}
	return n
}

func unescape(s string) string {
	out, err := url.QueryUnescape(s)
	if err != nil {
		return s
	}
	return out
}

// wellFormed reads a page as strict XML: every element closed, every attribute
// quoted, every name of an element once.
func wellFormed(t *testing.T, path string, body []byte) {
	t.Helper()
	d := xml.NewDecoder(bytes.NewReader(bytes.TrimPrefix(body, []byte("<!doctype html>"))))
	d.Entity = map[string]string{"nbsp": " "}
	ids := map[string]bool{}
	for {
		token, err := d.Token()
		if err == io.EOF {
			return
		}
		if err != nil {
			_ = os.WriteFile(os.TempDir()+"/page.html", body, 0o644)
			t.Fatalf("%s is not well formed: %v", path, err)
		}
		if e, ok := token.(xml.StartElement); ok {
			for _, a := range e.Attr {
				if a.Name.Local == "id" {
					if ids[a.Value] {
						t.Errorf("%s has two elements with id %q", path, a.Value)
					}
					ids[a.Value] = true
				}
				if strings.HasPrefix(a.Name.Local, "on") || a.Name.Local == "style" {
					t.Errorf("%s has an inline %s on <%s>, which the content policy refuses", path, a.Name.Local, e.Name.Local)
				}
			}
		}
	}
}

// text is what a page says, tags left out, spaces single.
func text(body []byte) string {
	d := xml.NewDecoder(bytes.NewReader(bytes.TrimPrefix(body, []byte("<!doctype html>"))))
	var out strings.Builder
	for {
		token, err := d.Token()
		if err != nil {
			return strings.Join(strings.Fields(out.String()), " ")
		}
		if c, ok := token.(xml.CharData); ok {
			out.Write(c)
			out.WriteByte(' ')
		}
	}
}

// wants checks that a page says each of these.
func wants(t *testing.T, page string, says ...string) {
	t.Helper()
	for _, say := range says {
		if !strings.Contains(page, say) && !strings.Contains(text([]byte(page)), say) {
			t.Errorf("the page does not say %q:\n%s", say, text([]byte(page)))
		}
	}
}

func (h *house) found() *site.AsFound {
	h.t.Helper()
	found, err := h.site.AsFound()
	if err != nil {
		h.t.Fatal(err)
	}
	return found
}
