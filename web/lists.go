package web

import (
	"bytes"
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"slices"
	"strings"
	"sync"

	"asfound/observation"
	"asfound/site"
)

type listsPage struct {
	Form  *form
	Kinds []listKindView
	Files []navItem // taken in before, the latest first
}

// listKindView explains a kind of list: its columns, those that have to be there
// first.
type listKindView struct{ Value, Say, Must, May string }

// brought is a list as somebody brought it, held between looking at it and
// keeping it.
type brought struct {
	kind site.ListKind
	name string
	text []byte
}

// broughtLists holds the latest ones. A program that was stopped has forgotten
// them, and they are brought again.
type broughtLists struct {
	mu    sync.Mutex
	by    map[string]brought
	order []string
}

const listsHeld = 8

func (b *broughtLists) put(l brought) (key string) {
	sum := sha256.Sum256([]byte(string(l.kind) + "\x00" + l.name + "\x00" + string(l.text)))
	key = hex.EncodeToString(sum[:8])
	b.mu.Lock()
	defer b.mu.Unlock()
	if b.by == nil {
		b.by = map[string]brought{}
	}
	if _, held := b.by[key]; !held {
		b.order = append(b.order, key)
	}
	b.by[key] = l
	if len(b.order) > listsHeld {
		delete(b.by, b.order[0])
		b.order = b.order[1:]
	}
	return key
}

func (b *broughtLists) get(key string) (brought, bool) {
	b.mu.Lock()
	defer b.mu.Unlock()
	l, ok := b.by[key]
	return l, ok
}

// showLists takes a list in, and names those that were.
func showLists(v *visit) error { return listsWith(v, v.form()) }

func listsWith(v *visit, f *form) error {
	events, err := v.job.book.all(v.job.Entries)
	if err != nil {
		return err
	}
	data := listsPage{Form: f.set("kind", v.query("kind"))}
	for _, k := range site.ListKinds {
		data.Kinds = append(data.Kinds, kindView(k))
	}
	for _, file := range site.Files(events) {
		data.Files = append([]navItem{{Href: "file/" + file.First.String(), Name: sayFile(file, v.ask.Now)}}, data.Files...)
	}
	return v.renderForm("lists", titleLists, f, data)
}

func kindView(k site.ListKind) listKindView {
	out := listKindView{Value: string(k), Say: listWord(k)}
	var must, may []string
	for _, c := range site.ListColumns(k) {
		if c.Must {
			must = append(must, c.Name)
		} else {
			may = append(may, c.Name)
		}
	}
	out.Must, out.May = strings.Join(must, ", "), strings.Join(may, ", ")
	return out
}

// bringList holds a list and shows what keeping it would do.
func bringList(v *visit) error {
	f := v.typed()
	l := brought{kind: site.ListKind(f.Get("kind")), name: namePasted, text: []byte(f.Get("pasted"))}
	at := "pasted"
	if files := v.ask.Files[ListField]; len(files) > 0 {
		l.name, l.text, at = files[0].Name, files[0].Text, "list"
		if files[0].Type == TooLarge {
			f.fault("list", sayListTooLarge)
		}
	} else if strings.TrimSpace(f.Get("pasted")) == "" {
		f.fault("list", sayNoList)
	}
	if l.kind == "" {
		f.fault("kind", sayNoKind)
	}
	if !f.Bad() {
		if _, err := v.takeIn(l, true); err != nil {
			f.take(err, map[string]string{"file": at})
		}
	}
	if f.Bad() {
		return listsWith(v, f)
	}
	return v.goTo("lists/" + v.job.lists.put(l))
}

// takeIn takes a list in, or only looks.
func (v *visit) takeIn(l brought, look bool) (site.Taken, error) {
	return v.job.Site.TakeIn(site.List{Kind: l.kind, File: l.name, From: bytes.NewReader(l.text), Who: cmp.Or(v.who, "somebody"), Look: look})
}

type listPage struct {
	Form             *form
	Key, Kind, Name  string
	Kept             int // lines that were just kept
	File             string
	Can, Same, Count int
	Told             []string // what else is to be known of the file
	New              []string
	Bad              []badLine
	More             int // bad lines that are not shown
}

type badLine struct {
	Number             int
	Column, Stood, Say string
}

// mostBad is how many bad lines, and new names, a page shows.
const (
	mostBad = 100
	mostNew = 12
)

// showList says what keeping a list would do, and after it was kept what is left.
func showList(v *visit) error { return listWith(v, v.form()) }

func listWith(v *visit, f *form) error {
	key := v.args["list"]
	l, held := v.job.lists.get(key)
	if !held {
		f.fault("list", sayListGone)
		return listsWith(v, f)
	}
	t, err := v.takeIn(l, true)
	if err != nil {
		return err
	}
	bad := t.Bad()
	data := listPage{Form: f, Key: key, Kind: listWord(l.kind), Name: t.File, Kept: atoi(v.query("kept")), File: v.query("file"),
		Can: t.Count(site.Kept), Same: t.Count(site.Same), Count: len(bad), Told: listTold(t), New: t.New}
	if more := len(t.New) - mostNew; more > 0 {
		data.New = append(t.New[:mostNew:mostNew], sayMoreNew(more))
	}
	for _, b := range bad[:min(len(bad), mostBad)] {
		data.Bad = append(data.Bad, badLine{b.Number, b.Column, shortened(b.Stood), b.Say})
	}
	data.More = len(bad) - len(data.Bad)
	return v.renderForm("list", data.Kind+", "+t.File, f, data)
}

// shortened is the beginning of a text that somebody may have typed at length.
func shortened(text string) string {
	const most = 60
	if letters := []rune(text); len(letters) > most {
		return string(letters[:most]) + " …"
	}
	return text
}

// keepList keeps what can be kept of a list.
func keepList(v *visit) error {
	f := v.typed()
	l, held := v.job.lists.get(v.args["list"])
	if !held {
		f.fault("list", sayListGone)
		return listsWith(v, f)
	}
	if f.Bad() {
		return listWith(v, f)
	}
	t, err := v.takeIn(l, false)
	if err != nil {
		f.take(err, nil)
		return listWith(v, f)
	}
	return v.goTo("lists/" + v.args["list"] + "?kept=" + counting(t.Count(site.Kept)) + "&file=" + t.First.String())
}

// showBadLines hands out the bad lines as a list to be mended and brought again.
func showBadLines(v *visit) error {
	l, held := v.job.lists.get(v.args["list"])
	if !held {
		return notFound{sayListGone}
	}
	t, err := v.takeIn(l, true)
	if err != nil {
		return err
	}
	var out bytes.Buffer
	if err := t.Mend(&out); err != nil {
		return err
	}
	v.out.Status, v.out.Type, v.out.Body = statusOK, "text/csv; charset=utf-8", out.Bytes()
	return nil
}

type filePage struct {
	Form        *form
	ID          string
	Name, Who   string
	When        string
	Count, Live int
	Entries     []entryView
	More        int
	Back        bool // it was just taken back
	Reasons     []string
}

// fileOf finds the list that begins with an entry.
func (v *visit) fileOf(id observation.ID) (site.File, error) {
	events, err := v.job.book.all(v.job.Entries)
	if err != nil {
		return site.File{}, err
	}
	for _, f := range site.Files(events) {
		if f.First == id {
			return f, nil
		}
	}
	return site.File{}, notFound{sayNoFile}
}

// showFile lists what came from a file, and takes it back.
func showFile(v *visit) error { return fileWith(v, v.form()) }

func fileWith(v *visit, f *form) error {
	id, err := observation.ParseID(v.args["entry"])
	if err != nil {
		return notFound{sayNoFile}
	}
	file, err := v.fileOf(id)
	if err != nil {
		return err
	}
	data := filePage{Form: f, ID: id.String(), Name: file.Title(), Who: file.Who, When: dayAndTime(file.When, v.ask.Now),
		Count: len(file.Entries), Back: v.query("back") != "", Reasons: backReasons}
	var live []observation.ID
	for _, e := range file.Entries {
		if got, ok := v.job.Site.Event(e); ok && len(got.WithdrawnBy) == 0 {
			live = append(live, e)
		}
	}
	data.Live = len(live)
	shown := file.Entries
	if data.Back {
		shown = live
	}
	data.Entries = v.entries(shown[:min(len(shown), mostBad)])
	data.More = len(shown) - len(data.Entries)
	return v.renderForm("file", sayFileTitle(file.Title()), f, data)
}

// takeFileBack withdraws what came from a file.
func takeFileBack(v *visit) error {
	f := v.typed()
	id, err := observation.ParseID(v.args["entry"])
	if err != nil {
		return notFound{sayNoFile}
	}
	reason := cmp.Or(strings.TrimSpace(f.Get("reason")), strings.TrimSpace(f.Get("other")))
	if !f.Bad() {
		if _, err := v.job.Site.TakeBack(id, v.who, reason); err != nil {
			f.take(err, map[string]string{"reason": "other"})
		}
	}
	if f.Bad() {
		return fileWith(v, f)
	}
	return v.goTo("file/" + id.String() + "?back=yes")
}

// fromFile leads to the file that an entry was taken in from.
func (v *visit) fromFile(id observation.ID, line int) *navItem {
	events, err := v.job.book.all(v.job.Entries)
	if err != nil {
		return nil
	}
	for _, f := range site.Files(events) {
		if f.First.Device == id.Device && slices.Contains(f.Entries, id) {
			return &navItem{Href: "file/" + f.First.String(), Name: sayFrom(f, line)}
		}
	}
	return nil
}
