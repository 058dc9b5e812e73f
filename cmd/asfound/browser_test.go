package main

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"asfound/installation"
	"asfound/observation"
	"asfound/pattern"
	"asfound/scenario"
)

// tab is a browser at work, with a finger that counts.
type tab struct {
	*testing.T
	ctx     context.Context
	touches int
}

// newTab starts Chromium with a new profile. ASFOUND_CHROMIUM is its path where
// that is not /usr/bin/chromium; without it the test fails.
func newTab(t *testing.T, width int64) *tab {
	t.Helper()
	path := os.Getenv("ASFOUND_CHROMIUM")
	if path == "" {
		path = "/usr/bin/chromium"
	}
	if _, err := os.Stat(path); err != nil {
		t.Fatalf("these tests need Chromium: install it, or name it in ASFOUND_CHROMIUM: %v", err)
	}
	options := append(slices.Clone(chromedp.DefaultExecAllocatorOptions[:]), chromedp.ExecPath(path), chromedp.Flag("no-sandbox", true),
		chromedp.Flag("disable-background-networking", true), chromedp.Flag("no-first-run", true), chromedp.UserDataDir(t.TempDir()))
	ctx, stop := chromedp.NewExecAllocator(t.Context(), options...)
	t.Cleanup(stop)
	ctx, leave := chromedp.NewContext(ctx)
	t.Cleanup(leave)
	ctx, cancel := context.WithTimeout(ctx, 10*time.Minute)
	t.Cleanup(cancel)
	b := &tab{T: t, ctx: ctx}
	b.do(b.shape(width, shortHeight))
	return b
}

// shortHeight is that of a small phone's screen.
const shortHeight = 740

// shape makes the screen so large; a narrow one has touch.
func (b *tab) shape(width, height int64) chromedp.Action[chromedp.Void] {
	if width < 800 {
		return chromedp.EmulateViewport(width, height, chromedp.EmulateMobile, chromedp.EmulateTouch)
	}
	return chromedp.EmulateViewport(width, height)
}

func (b *tab) do(steps ...chromedp.Action[chromedp.Void]) {
	b.Helper()
	if err := chromedp.Do(b.ctx, steps...); err != nil {
		b.Fatal(err)
	}
}

func (b *tab) visit(address string) {
	b.Helper()
	b.do(chromedp.Navigate(address))
}

// ask evaluates a script in the page.
func ask[T any](b *tab, script string) T {
	b.Helper()
	out, err := chromedp.Run(b.ctx, chromedp.Evaluate[T](script))
	if err != nil {
		b.Fatalf("%v in %s", err, script)
	}
	return out
}

// patience is how many times a page is asked, 25 ms apart, before a test gives
// up: long enough for a machine that builds and races other tests meanwhile.
const patience = 1200

// until waits until a script says true, over any number of new pages.
func (b *tab) until(what, script string) {
	b.Helper()
	for range patience {
		if yes, err := chromedp.Run(b.ctx, chromedp.Evaluate[bool](script)); err == nil && yes {
			return
		}
		time.Sleep(25 * time.Millisecond)
	}
	b.Fatalf("waited for %s; the page says:\n%s", what, ask[string](b, "document.body.innerText"))
}

// touch taps the first thing on the page that find, an expression, gives, once
// the page is there and has stopped moving under the finger.
func (b *tab) touch(find string) {
	b.Helper()
	var at, before []float64
	for range patience {
		spot, err := chromedp.Run(b.ctx, chromedp.Evaluate[[]float64](`(() => { const e = `+find+`; if (!e || document.readyState !== 'complete') return [];
			e.scrollIntoView({block: 'center'});
			const r = e.getBoundingClientRect(), x = r.x + r.width / 2, y = r.y + Math.min(r.height / 2, 20);
			const hit = document.elementFromPoint(x, y);
			return hit && (e.contains(hit) || hit.contains(e)) ? [x, y] : []; })()`))
		if at = spot; err == nil && len(at) == 2 && slices.Equal(at, before) {
			break
		}
		before = at
		time.Sleep(25 * time.Millisecond)
	}
	if len(at) != 2 {
		b.Fatalf("nothing to touch at %s; the page says:\n%s", find, ask[string](b, "document.body.innerText"))
	}
	b.touches++
	b.do(chromedp.TapXY(at[0], at[1]))
}

// button is an expression for the button of that name.
func button(name string) string {
	return fmt.Sprintf(`[...document.querySelectorAll('main button')].find(e => e.textContent.trim() === %q)`, name)
}

// figures types a value as the thumb does on the pad; these touches are the
// value itself and do not count.
func (b *tab) figures(value string) {
	b.Helper()
	for _, sign := range value {
		b.touch(button(string(sign)))
	}
	b.touches -= len(value)
}

// demoJob is the demo job behind the real program.
type demoJob struct {
	*process
	tour   *installation.Tour
	unread []*installation.Opening // of one cable, in walking order
}

func newDemoJob(t *testing.T) *demoJob {
	t.Helper()
	folder := t.TempDir()
	path := filepath.Join(folder, demoName+jobEnding)
	must(t, playedJob(path))
	j, err := openJob(path, time.Now)
	must(t, err)
	found, err := j.AsFound()
	must(t, err)
	d := &demoJob{tour: found.Tours[len(found.Tours)-1]}
	for _, o := range found.Openings {
		if len(o.Stops) == 0 && len(o.Cables) == 1 && len(found.Numbered(o.Number)) == 1 {
			d.unread = append(d.unread, o)
		}
	}
	if len(d.unread) < 5 {
		t.Fatalf("the demo leaves %d openings unread, want some to read", len(d.unread))
	}
	must(t, j.store.Close())
	d.process = start(t, "serve", folder, "--no-open", "--addr", "127.0.0.1:0", "--people", strings.Join(scenario.Crew(), ","))
	return d
}

// stop is the page of an opening on the tour.
func (d *demoJob) stop(o *installation.Opening) string {
	return d.root() + "/tour/" + d.tour.ID.String() + "/" + string(o.Thing)
}

// opening is an opening as the job of the running program holds it.
func (d *demoJob) opening(t *testing.T, thing observation.Thing) *installation.Opening {
	t.Helper()
	j, err := openJob(filepath.Join(d.Args[2], demoName+jobEnding), time.Now)
	must(t, err)
	defer j.store.Close()
	found, err := j.AsFound()
	must(t, err)
	return found.Opening(thing)
}

// isMarit says on this browser who holds it.
func (b *tab) isMarit(d *demoJob) {
	b.Helper()
	b.visit(d.root() + "/")
	b.touch(button("Marit Sandvei"))
	b.until("the name to be known", `document.querySelector('.me').innerText.includes('Marit Sandvei')`)
	b.touches = 0
}

const heading = `document.querySelector('h1').innerText`

func TestTourEntryByTouch(t *testing.T) {
	d := newDemoJob(t)
	b := newTab(t, 360)
	b.isMarit(d)
	o := d.unread[0]
	b.visit(d.stop(o))
	b.do(chromedp.SendKeys(chromedp.CSS(`[name=letters]`), pattern.Letters(o.Number)))
	b.figures("4.99k")
	b.touch(button("Keep"))
	b.until("the first reading to be kept", `document.querySelector('.kept') !== null`)
	if b.touches > 2 {
		t.Errorf("the first reading took %d touches beside its figures, want 2", b.touches)
	}
	for reading := 2; ask[bool](b, `document.querySelector('form.reading') !== null`); reading++ {
		if reading > 8 {
			t.Fatal("the opening asks for readings without end")
		}
		b.touches = 0
		before := ask[int](b, `document.querySelectorAll('.entries li').length`)
		b.touch(button("Open (no continuity)"))
		b.until("reading to be kept", fmt.Sprintf(`document.querySelectorAll('.entries li').length > %d`, before))
		if b.touches > 2 {
			t.Errorf("reading %d took %d touches, want 2", reading, b.touches)
		}
	}
	stops := d.opening(t, o.Thing).Stops
	if len(stops) != 1 || len(stops[0].Ohms) < 2 {
		t.Errorf("kept %+v, want one stop with its readings", stops)
	}
}

func TestWithdrawByTouch(t *testing.T) {
	d := newDemoJob(t)
	b := newTab(t, 360)
	b.isMarit(d)
	o := d.unread[0]
	b.visit(d.stop(o))
	b.do(chromedp.SendKeys(chromedp.CSS(`[name=letters]`), pattern.Letters(o.Number)))
	b.figures("10k")
	b.touch(button("Keep"))
	b.until("the reading to be kept", `document.querySelector('.kept') !== null`)
	b.touches = 0
	b.touch(`[...document.querySelectorAll('.entries a')].find(e => /10/.test(e.innerText))`)
	b.until("the page of the entry", button("Misread")+` !== undefined`)
	b.touch(button("Misread"))
	b.until("the entry to be struck through", `document.querySelector('h1 del') !== null`)
	if b.touches > 2 {
		t.Errorf("withdrawing took %d touches, want 2", b.touches)
	}
}

func TestStatementOpensItsReadings(t *testing.T) {
	d := newDemoJob(t)
	b := newTab(t, 360)
	b.visit(d.root() + "/panels")
	b.touch(`document.querySelector('main a[href^="panel/"]')`)
	b.until("a panel", heading+`.startsWith('Panel')`)
	b.visit(d.root() + "/trace")
	b.touch(`document.querySelector('main a.line.likely[href^="line/"]')`)
	b.until("the readings of the statement", `location.pathname.startsWith('/line/') && document.querySelectorAll('main .entries li').length > 1`)
	if says := ask[string](b, "document.body.innerText"); !regexp.MustCompile(`(?i)false (only )?if`).MatchString(says) {
		t.Errorf("does not say when the statement is false:\n%s", says)
	}
}

// keys types on the keyboard; "\t" goes to the next field, "\r" is Enter.
func (b *tab) keys(texts ...string) {
	b.Helper()
	for _, text := range texts {
		b.do(chromedp.KeyEvent(text))
	}
}

// tabTo presses the key Tab until the cursor stands on what an expression gives.
func (b *tab) tabTo(find string) {
	b.Helper()
	for range 60 {
		if ask[bool](b, `document.activeElement === `+find) {
			return
		}
		b.keys(kb.Tab)
	}
	b.Fatalf("the key Tab does not lead to %s", find)
}

// TestLateEntryByKeyboardWithoutScript says who it is and types two rows of the
// sheet, with no pointer, on a browser that runs no script.
func TestLateEntryByKeyboardWithoutScript(t *testing.T) {
	d := newDemoJob(t)
	b := newTab(t, 1280)
	_, err := chromedp.Call(b.ctx, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true})
	must(t, err)
	b.visit(d.root() + "/who")
	b.tabTo(button("Tomas Veil"))
	b.keys(kb.Enter)
	b.until("the name to be known", `document.querySelector('.me').innerText.includes('Tomas Veil')`)
	b.visit(d.root() + "/late/" + d.tour.ID.String())
	if ask[bool](b, `document.querySelector('.pad') !== null`) {
		t.Fatal("a script ran")
	}
	rows := map[observation.Thing]int{} // an opening has one for each cable
	for range 2 {
		name := ask[string](b, `document.activeElement.name`)
		thing := observation.Thing(strings.Split(name+"..", ".")[1])
		o := d.opening(t, thing)
		if o == nil {
			t.Fatalf("the cursor stands in field %q, want the first open row", name)
		}
		rows[thing]++
		for _, value := range []string{strings.ToLower(pattern.Letters(o.Number)), "4.99k", "4.99 k", "", "OL", ""} {
			b.keys(value, kb.Tab)
		}
	}
	b.keys(kb.Enter)
	b.until("two rows to be kept", `/Kept/.test(document.querySelector('main').innerText)`)
	for thing, n := range rows {
		o := d.opening(t, thing)
		last := o.Stops[len(o.Stops)-1]
		if !slices.ContainsFunc(o.Stops, func(s *installation.Stop) bool { return len(s.Ohms) == 3*n && s.Ohms[0].Who == "Tomas Veil" }) {
			t.Errorf("opening %s: the row was not kept; its last visit has %d readings", o.Number, len(last.Ohms))
		}
	}
}
