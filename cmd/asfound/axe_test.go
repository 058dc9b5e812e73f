package main

import (
	"net/url"
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
)

// everyPage walks the links from the first page on, taking one address of each
// kind of page: those that differ in names and numbers only are of one kind.
func everyPage(b *tab, root string) []string {
	b.Helper()
	waiting, kinds := []string{"/"}, map[string]bool{"/": true}
	var out []string
	for len(waiting) > 0 {
		path := waiting[0]
		waiting = waiting[1:]
		out = append(out, path)
		b.visit(root + path)
		links := ask[[]string](b, `[...document.querySelectorAll('a[href]')].map(a => new URL(a.getAttribute('href'), document.baseURI)).filter(u => u.origin === location.origin).map(u => u.pathname + u.search)`)
		for _, link := range links {
			if kind := kindOfPage(link); !kinds[kind] && !strings.Contains(link, ".") {
				kinds[kind] = true
				waiting = append(waiting, link)
			}
		}
	}
	return out
}

var (
	thingInPath = regexp.MustCompile(`[0-9a-z]{10}-\d+`)
	sheetInPath = regexp.MustCompile(`/sheet/([a-z]+)-[a-z0-9-]+`)
	spaceInPath = regexp.MustCompile(`/space/\d+`)
)

// kindOfPage is an address without the names and numbers in it, and without what
// is asked of it.
func kindOfPage(address string) string {
	u, err := url.Parse(address)
	if err != nil {
		return address
	}
	path := thingInPath.ReplaceAllString(u.Path, "*")
	path = sheetInPath.ReplaceAllString(path, "/sheet/$1")
	path = spaceInPath.ReplaceAllString(path, "/space")
	if u.RawQuery != "" {
		return path + "?"
	}
	return path
}

// leastKinds is how many kinds of page the walk must find, so that a page that
// nothing leads to is missed by this test.
const leastKinds = 24

// looks are the screens on which each page is looked at.
var looks = []struct {
	name   string
	width  int64
	scheme string
}{{"phone by day", 360, "light"}, {"phone by head lamp", 360, "dark"}, {"laptop", 1280, "light"}}

// TestEveryPageIsForEverybody looks at each kind of page: nothing runs over the
// edge, and the accessibility rules find nothing serious. Without ASFOUND_AXE
// only the edge is looked at.
func TestEveryPageIsForEverybody(t *testing.T) {
	d := newDemoJob(t)
	rules := axeRules(t)
	var pages []string
	for _, l := range looks {
		t.Run(l.name, func(t *testing.T) {
			b := newTab(t, l.width)
			b.isMaritBy(d)
			if pages == nil {
				pages = everyPage(b, d.root())
			}
			if len(pages) < leastKinds {
				t.Errorf("found %d kinds of page, want %d or more: %v", len(pages), leastKinds, pages)
			}
			_, err := chromedp.Call(b.ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
				Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: l.scheme}}})
			must(t, err)
			for _, page := range pages {
				b.visit(d.root() + page)
				b.stretch(l.width)
				b.look(page, rules)
				b.do(b.shape(l.width, shortHeight))
			}
		})
	}
}

// isMaritBy is isMarit on a browser with or without touch.
func (b *tab) isMaritBy(d *demoJob) {
	b.Helper()
	b.visit(d.root() + "/")
	ask[bool](b, button("Marit Sandvei")+`.click() === undefined`)
	b.until("the name to be known", `document.querySelector('.me').innerText.includes('Marit Sandvei')`)
}

// stretch makes the screen as high as the page, since what happens to lie under
// the bar at the foot of a phone can be scrolled from under it.
func (b *tab) stretch(width int64) {
	b.Helper()
	b.do(b.shape(width, ask[int64](b, `Math.ceil(document.documentElement.scrollHeight)`)+300))
}

// axeRules is the script of the accessibility rules, if there is one.
func axeRules(t *testing.T) string {
	t.Helper()
	path := os.Getenv("ASFOUND_AXE")
	if path == "" {
		return ""
	}
	script, err := os.ReadFile(path)
	must(t, err)
	return string(script)
}

// look checks the page that the browser shows.
func (b *tab) look(page, rules string) {
	b.Helper()
	if over := ask[float64](b, `document.documentElement.scrollWidth - innerWidth`); over > 0 {
		b.Errorf("%s runs %v px over the edge", page, over)
	}
	if rules == "" {
		return
	}
	ask[bool](b, rules+"; true")
	found, err := chromedp.Run(b.ctx, chromedp.Evaluate[[]string](`axe.run(document, {resultTypes: ['violations'], runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa']}).then(r => r.violations
		.filter(v => v.impact === 'serious' || v.impact === 'critical')
		.map(v => v.id + ' (' + v.impact + '): ' + v.nodes.slice(0, 3).map(n => n.html.slice(0, 160)).join(' | ')))`, chromedp.EvalAwaitPromise))
	if err != nil {
		b.Fatal(err)
	}
	for _, say := range found {
		b.Errorf("%s: %s", page, say)
	}
}
