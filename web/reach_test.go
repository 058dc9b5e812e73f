package web

import (
	"context"
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"asfound/pattern"
)

// Every page passes the rules of axe-core that stand for WCAG 2.2 level AA, on a
// phone by night and a laptop by day; nothing is wider than the screen, and
// what is touched is large enough. ASFOUND_AXE names axe.min.js.
func TestPagesCanBeReachedByEverybody(t *testing.T) {
	axe, err := os.ReadFile(os.Getenv("ASFOUND_AXE"))
	if err != nil {
		t.Fatalf("this test needs axe-core: install it and name its axe.min.js in ASFOUND_AXE: %v", err)
	}
	h := traced(t)
	pages := h.everyPage()
	pages = append(pages, h.everyPairing(h.pairing())...)
	address := serve(t, h)
	for i := range pages {
		pages[i] = address + pages[i]
	}
	h, more := later(t)
	address = serve(t, h)
	for _, path := range more {
		pages = append(pages, address+path)
	}
	for _, screen := range []struct {
		name, scheme string
		ctx          context.Context
	}{{"phone by night", "dark", phone(t)}, {"laptop by day", "light", browser(t, 1280, 800)}} {
		_, err := chromedp.Call(screen.ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
			Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: screen.scheme}}})
		must(t, err)
		for _, path := range pages {
			must(t, chromedp.Do(screen.ctx, chromedp.Navigate(path)))
			for _, wrong := range judged(t, screen.ctx, string(axe)) {
				t.Errorf("%s, %s: %s", path, screen.name, wrong)
			}
		}
	}
}

// judged runs axe-core on the page, and looks for what is too wide or too small.
func judged(t *testing.T, ctx context.Context, axe string) []string {
	t.Helper()
	evaluate[bool](t, ctx, axe+"; true")
	// The bar at the bottom covers what is scrolled to later.
	evaluate[bool](t, ctx, "document.querySelector('nav').style.position = 'static'; true")
	found, err := chromedp.Run(ctx, chromedp.Evaluate[[]string](`const inDrawing = v => v.id === 'label-content-name-mismatch' && v.nodes.every(n => document.querySelector(n.target[0])?.closest('svg'));
		axe.run(document, {runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice']})
		.then(r => r.violations.filter(v => !inDrawing(v)).map(v => v.id + ': ' + v.help + ': ' + v.nodes.slice(0, 2).map(n => n.html.slice(0, 200)).join(' | ')))`, chromedp.EvalAwaitPromise))
	must(t, err)
	return append(found, evaluate[[]string](t, ctx, `(() => {
		const out = [];
		if (document.documentElement.scrollWidth > innerWidth) out.push('wider than the screen');
		for (const e of document.querySelectorAll('main a, main button, main input:not([type=hidden]), main select, nav a, header a, summary')) {
			const r = e.getBoundingClientRect();
			if (r.width > 0 && !e.closest('svg') && !e.closest('.pick') && !e.querySelector('img') && (r.height < 47.5 || r.width < 40)) out.push('too small to touch: ' + e.outerHTML.slice(0, 120) + ' ' + r.width + ' by ' + r.height);
		}
		return out;
	})()`)...)
}

// The keyboard alone completes a late entry: type, Enter, type, to the button.
func TestLateEntryByKeyboard(t *testing.T) {
	h := built(t).touring()
	ctx := browser(t, 1280, 800)
	first := chromedp.CSS("input[autofocus]") // the page does so too, some time after it is there
	must(t, chromedp.Do(ctx, chromedp.Navigate(serve(t, h)+"/late/"+h.tour.String()), chromedp.WaitVisible(first), chromedp.Focus(first)))
	for _, number := range []string{"A02-01", "A02-02", "A02-03", "A02-04", "A03-01", "A03-02", "A03-03"} {
		press(t, ctx, pattern.Letters(number), kb.Enter, "1k", kb.Enter, "1.001k", kb.Enter, kb.Enter, kb.Enter, "902", kb.Enter)
		if number == "A02-04" || number == "A03-03" {
			press(t, ctx, "yes", kb.Enter) // the look around ends a room
		}
	}
	press(t, ctx, kb.Enter)
	must(t, chromedp.Do(ctx, chromedp.WaitVisible(chromedp.CSS(".kept"))))
	says := evaluate[string](t, ctx, "document.querySelector('.kept').innerText")
	if says != "Kept 9 rows." {
		t.Errorf("the page says %q, want 7 openings and 2 rooms kept", says)
	}
	for number, at := range h.opening {
		if n := len(h.found().Opening(at).Stops[0].Ohms); n != 2 {
			t.Errorf("%s has %d readings", number, n)
		}
	}
}

// Without a script the keyboard completes it too: Tab goes on, Enter saves.
func TestLateEntryWithoutScript(t *testing.T) {
	h := built(t).touring()
	ctx := browser(t, 1280, 800)
	_, err := chromedp.Call(ctx, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true})
	must(t, err)
	first := chromedp.CSS("input[autofocus]") // the page does so too, some time after it is there
	must(t, chromedp.Do(ctx, chromedp.Navigate(serve(t, h)+"/late/"+h.tour.String()), chromedp.WaitVisible(first), chromedp.Focus(first)))
	press(t, ctx, pattern.Letters("A02-01"), kb.Tab, "1k", kb.Tab, "1k", kb.Enter)
	must(t, chromedp.Do(ctx, chromedp.WaitVisible(chromedp.CSS(".kept"))))
	if n := len(h.found().Opening(h.opening["A02-01"]).Stops[0].Ohms); n != 2 {
		t.Errorf("%d readings kept", n)
	}
}

// On a phone of 360 px a reading takes the pad and Keep, both on the screen
// without scrolling, and the next reading stands there at once.
func TestTourOnAPhone(t *testing.T) {
	h := built(t).touring()
	ctx := phone(t)
	must(t, chromedp.Do(ctx, chromedp.Navigate(serve(t, h)+"/tour/"+h.tour.String()+"/"+string(h.opening["A02-01"])),
		chromedp.WaitVisible(chromedp.CSS(".pad"))))
	bottom := evaluate[float64](t, ctx, "document.querySelector('.reading .keep button').getBoundingClientRect().bottom")
	if top := evaluate[float64](t, ctx, "document.querySelector('nav').getBoundingClientRect().top"); bottom > top {
		t.Errorf("Keep ends at %v px, below the bar at %v", bottom, top)
	}
	press(t, ctx, pattern.Letters("A02-01"))
	for _, k := range "1.001" {
		tapKey(t, ctx, string(k))
	}
	tapKey(t, ctx, "k")
	must(t, chromedp.Do(ctx, chromedp.Tap(chromedp.CSS(".reading .keep button")), chromedp.WaitVisible(chromedp.CSS(".kept"))))
	asks := evaluate[string](t, ctx, "document.querySelector('.value label').innerText + ' / ' + document.querySelector('.now').innerText")
	if !strings.Contains(asks, "hot to neutral / the hot at A02-01 is on A1-1 likely") {
		t.Errorf("the page says %q", asks)
	}
}

func tapKey(t *testing.T, ctx context.Context, sign string) {
	t.Helper()
	at := fmt.Sprintf(`[...document.querySelectorAll('.pad button')].findIndex(b => b.textContent === %q)`, sign)
	n := evaluate[int](t, ctx, at)
	must(t, chromedp.Do(ctx, chromedp.Tap(chromedp.CSS(fmt.Sprintf(".pad button:nth-child(%d)", n+1)))))
}

// A half-typed form is there again after the phone put the page away, and gone
// once it was kept.
func TestHalfTypedFormSurvives(t *testing.T) {
	h := built(t)
	ctx := browser(t, 1280, 800)
	address := serve(t, h) + "/room/" + string(h.room)
	must(t, chromedp.Do(ctx, chromedp.Navigate(address), chromedp.SendKeys(chromedp.CSS("#f-note"), "over the stair"), chromedp.Navigate(address)))
	if got := evaluate[string](t, ctx, "document.querySelector('#f-note').value"); got != "over the stair" {
		t.Errorf("the note is %q", got)
	}
	must(t, chromedp.Do(ctx, chromedp.Click(chromedp.CSS(".add button")), chromedp.WaitVisible(chromedp.CSS(".kept"))))
	if got := evaluate[string](t, ctx, "document.querySelector('#f-note').value"); got != "" {
		t.Errorf("after keeping, the note is still %q", got)
	}
}

// On a phone the caution of a card stands whole above its button and the bar
// before anybody scrolls, also where a name has to be chosen first.
func TestCautionIsNeverCovered(t *testing.T) {
	nobody, one := built(t), built(t)
	nobody.who = ""
	ctx := phone(t)
	for name, h := range map[string]*house{"first opening, no name yet": nobody, "panel not dead": one, "tour standing": traced(t)} {
		must(t, chromedp.Do(ctx, chromedp.Navigate(serve(t, h)+"/"), chromedp.WaitVisible(chromedp.CSS(".card .caution"))))
		edges := evaluate[[]float64](t, ctx, `[document.querySelector('.caution').getBoundingClientRect().bottom,
			document.querySelector('.card .button').getBoundingClientRect().top, document.querySelector('nav').getBoundingClientRect().top, scrollY]`)
		if edges[0] > edges[1] || edges[0] > edges[2] || edges[3] != 0 {
			t.Errorf("%s: the caution ends at %v px, the button begins at %v, the bar at %v, scrolled by %v", name, edges[0], edges[1], edges[2], edges[3])
		}
	}
}

// Whatever is said over it, pad, Keep and Open stand on a phone's screen above
// the bar, with the caution over them.
func TestPadStandsAboveTheBar(t *testing.T) {
	h := built(t).touring()
	path := "/tour/" + h.tour.String() + "/" + string(h.opening["A02-01"])
	noLetters := h.kept(path, "ohm", "1k", "reading", ".hot.egc", "stop", "s1")
	wrong := "/tour/" + h.tour.String() + "/" + string(h.opening["A02-02"])
	wrongLetters := h.kept(wrong, "letters", pattern.Letters("A02-03"), "ohm", "1k", "reading", ".hot.egc", "stop", "s2")
	other := "/tour/" + h.tour.String() + "/" + string(h.opening["A02-03"])
	h.kept(other, "letters", pattern.Letters("A02-03"), "ohm", "1k", "reading", ".hot.egc", "stop", "s3")
	notListed := h.kept(other, "ohm", "470", "reading", ".hot.neutral", "stop", "s3")
	loaded := h.kept("/tour/"+h.tour.String()+"/"+string(h.opening["A02-04"]), "ohm", "0.4", "reading", ".hot.egc", "stop", "s4")
	ctx := phone(t)
	address := serve(t, h)
	seen := func(name string) {
		t.Helper()
		out := evaluate[[]string](t, ctx, `[...document.querySelectorAll('.pad, .reading .hint, .taking, .reading .keep button')].filter(e => {
			const r = e.getBoundingClientRect();
			return r.top < 0 || r.bottom > document.querySelector('nav').getBoundingClientRect().top;
		}).map(e => e.className + ' ' + e.innerText + ' ' + JSON.stringify(e.getBoundingClientRect()))`)
		for _, e := range out {
			t.Errorf("%s: not on the screen: %s", name, e)
		}
	}
	for name, at := range map[string]string{"no letters": noLetters, "wrong letters": wrongLetters, "not on the list": notListed, "closed": loaded, "nothing said": path + "?again=yes"} {
		must(t, chromedp.Do(ctx, chromedp.Navigate(address+at), chromedp.WaitVisible(chromedp.CSS(".pad"))))
		seen(name)
	}
	must(t, chromedp.Do(ctx, chromedp.Navigate(address+noLetters), chromedp.SetValue(chromedp.CSS("#f-ohm"), "-3"),
		chromedp.Tap(chromedp.CSS(".reading .keep button")), chromedp.WaitVisible(chromedp.CSS(".reading .fault"))))
	seen("value below zero")
}

// What became of the sheet stays in sight though the cursor starts far down.
func TestLateEntrySaysItInSight(t *testing.T) {
	h := built(t).touring()
	pairs := []string{}
	for _, number := range []string{"A02-01", "A02-02", "A02-03"} {
		pairs = append(pairs, "letters."+string(h.opening[number])+".", pattern.Letters("A03-03"), "ground."+string(h.opening[number])+".", "1k")
	}
	at := h.kept("/late/"+h.tour.String(), append(pairs, "neutral."+string(h.opening["A02-01"])+".", "1k")...)
	for name, ctx := range map[string]context.Context{"laptop": browser(t, 1280, 600), "phone": phone(t)} {
		first := chromedp.CSS("input[autofocus]")
		must(t, chromedp.Do(ctx, chromedp.Navigate(serve(t, h)+at), chromedp.WaitVisible(first), chromedp.Focus(first)))
		edges := evaluate[[]float64](t, ctx, `[document.querySelector('.stays').getBoundingClientRect().top,
			document.querySelector('.stays').getBoundingClientRect().bottom, document.activeElement.getBoundingClientRect().top]`)
		if edges[0] < 0 || edges[1] > edges[2] {
			t.Errorf("%s: said from %v px to %v, the cursor is at %v", name, edges[0], edges[1], edges[2])
		}
	}
}
