package web

import (
	"strings"
	"sync"
	"testing"
)

// Pages may be asked by several at once.
func TestManyAtOnce(t *testing.T) {
	h := traced(t)
	paths := h.everyPage()
	var wg sync.WaitGroup
	for i := range 4 {
		wg.Go(func() {
			for j := range paths {
				path, query, _ := strings.Cut(paths[(i*7+j)%len(paths)], "?")
				form := map[string][]string{}
				if name, value, ok := strings.Cut(query, "="); ok {
					form[name] = []string{unescape(value)}
				}
				if r := h.pages.Answer(Request{Method: "GET", Path: path, Form: form, Who: h.who, Now: h.now}); r.Status != statusOK {
					t.Errorf("%s: status %d", path, r.Status)
				}
			}
		})
	}
	wg.Wait()
}

// Whatever is typed, the answer is a page or the way to one, and what was typed
// never becomes markup.
func FuzzForms(f *testing.F) {
	for _, seed := range []string{"", "A02-08", "A02-O8", "-3", "2,49 k", "1O0", "33", "<script>x</script>", `"><b>`, "\x00\x01", "99999999999999999999", "OL", "nr", "25:61", "{{.}}", "\xff\xfe", "open open"} {
		f.Add(seed, uint8(0))
		f.Add(seed, uint8(6))
	}
	f.Fuzz(func(t *testing.T, typed string, which uint8) {
		h := built(t).touring()
		opening, panel := string(h.opening["A02-01"]), string(h.panel)
		paths := []string{"/property", "/building/" + string(h.building) + "/room", "/building/" + string(h.building) + "/panel", "/room/" + string(h.room),
			"/opening/" + opening + "/cable", "/opening/" + opening + "/missing", "/tour/" + h.tour.String() + "/" + opening, "/late/" + h.tour.String(),
			"/panel/" + panel + "/space/9", "/lockout/" + panel, "/dead/" + panel, "/tour", "/entry/" + h.tour.String(), "/photo/" + opening, "/who", "/lists"}
		names := []string{"pasted", "sheet", "building_name", "room_name", "floor", "panel_name", "spaces", "fed_from", "number", "use", "gangs", "note", "tag", "conductors_typed", "why",
			"ohm", "letters", "reading", "stop", "poles", "amps_typed", "label", "device", "before", "name", "tolerance", "meter", "meter_ohm", "other", "caption", "date",
			"ground." + opening + ".", "time." + opening + ".", "letters." + opening + "."}
		var pairs []string
		for _, n := range names {
			pairs = append(pairs, n, typed)
			if n == "pasted" {
				pairs[len(pairs)-1] = "panel,space,label\nA1,9,<zq>\n" + typed
			}
			if n == "note" || n == "label" || n == "other" || n == "caption" {
				pairs[len(pairs)-1] = "<zq>" + typed
			}
		}
		r := Request{Method: "POST", Path: paths[int(which)%len(paths)], Form: map[string][]string{"kind": {"circuits"}}, Who: h.who, Now: h.now}
		for i := 0; i < len(pairs); i += 2 {
			r.Form[pairs[i]] = []string{pairs[i+1]}
		}
		out := h.pages.Answer(r)
		if out.Status != statusGoTo && (out.Status < 400 || out.Status >= 500) {
			t.Errorf("%s with %q: status %d", r.Path, typed, out.Status)
		}
		if strings.Contains(string(out.Body), "<zq>") {
			t.Errorf("%s: what was typed stands in the page as markup", r.Path)
		}
	})
}

func TestMatchingAddresses(t *testing.T) {
	for path, want := range map[string]bool{"": true, "panel/k-1": true, "panel/k-1/space/3": true, "panel": false, "panel/k-1/space": false, "panel//space/3": false} {
		if handle, _, _ := find("GET", path); (handle != nil) != want {
			t.Errorf("%q found: %v, want %v", path, handle != nil, want)
		}
	}
}
