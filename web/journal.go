package web

import (
	"net/url"
	"slices"
	"strconv"
	"strings"

	"asfound/days"
	"asfound/observation"
)

// entriesOnPage is how many entries a page of the journal lists.
const entriesOnPage = 100

type journalPage struct {
	Form          *form
	Entries       []entryView
	Count, Page   int
	Pages         int
	Newer, Older  string
	People        []option
	Kinds         []option
	Places        []option
	Who, Kind     string
	Place         string
	Filtered      bool
	FirstN, LastN int
}

// showJournal lists every entry, the newest first, withdrawn ones too.
func showJournal(v *visit) error {
	events, err := v.job.book.all(v.job.Entries)
	if err != nil {
		return err
	}
	f := v.form()
	data := journalPage{Form: f, Who: v.query("by"), Kind: v.query("kind"), Place: strings.TrimSpace(v.query("place"))}
	data.Filtered = data.Who != "" || data.Kind != "" || data.Place != ""
	f.set("place", data.Place).set("by", data.Who).set("kind", data.Kind)
	var picked []observation.Event
	kinds := map[string]bool{}
	for _, e := range slices.Backward(events) {
		kinds[e.Kind] = true
		if v.picks(data, e) {
			picked = append(picked, e)
		}
	}
	for _, k := range kindOptions(kinds) {
		k.On = k.Value == data.Kind
		data.Kinds = append(data.Kinds, k)
	}
	for _, who := range v.people() {
		data.People = append(data.People, option{Value: who, Say: who, On: who == data.Who})
	}
	v.fillJournal(&data, picked)
	return v.render("journal", titleJournal, data)
}

func kindOptions(kinds map[string]bool) []option {
	var out []option
	for k := range kinds {
		out = append(out, option{Value: k, Say: kindWord(k)})
	}
	slices.SortFunc(out, func(a, b option) int { return strings.Compare(a.Say, b.Say) })
	return out
}

// picks reports whether an entry passes what the person chose to see.
func (v *visit) picks(data journalPage, e observation.Event) bool {
	if data.Who != "" && e.Who != data.Who || data.Kind != "" && e.Kind != data.Kind {
		return false
	}
	if data.Place == "" {
		return true
	}
	at := days.PlaceOf(e)
	names := []string{v.found.Name(at)}
	if o := v.found.Opening(at); o != nil {
		names = append(names, v.found.Name(o.Room))
	}
	for _, n := range names {
		if at != "" && strings.Contains(strings.ToLower(n), strings.ToLower(data.Place)) {
			return true
		}
	}
	return false
}

func (v *visit) fillJournal(data *journalPage, picked []observation.Event) {
	data.Count = len(picked)
	data.Pages = max(1, (len(picked)+entriesOnPage-1)/entriesOnPage)
	data.Page = min(max(1, atoi(v.query("page"))), data.Pages)
	first := (data.Page - 1) * entriesOnPage
	last := min(first+entriesOnPage, len(picked))
	data.FirstN, data.LastN = min(first+1, last), last
	for _, e := range picked[first:last] {
		data.Entries = append(data.Entries, v.entry(e))
	}
	at := func(page int) string {
		q := url.Values{"page": {strconv.Itoa(page)}}
		for name, value := range map[string]string{"by": data.Who, "kind": data.Kind, "place": data.Place} {
			if value != "" {
				q.Set(name, value)
			}
		}
		return "journal?" + q.Encode()
	}
	if data.Page > 1 {
		data.Newer = at(data.Page - 1)
	}
	if data.Page < data.Pages {
		data.Older = at(data.Page + 1)
	}
}

func queryEscape(s string) string { return url.QueryEscape(s) }
