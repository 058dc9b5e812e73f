package web

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
)

func TestShots(t *testing.T) {
	h := traced(t)
	url := serve(t, h)
	id := h.tour.String()
	op := string(h.opening["A02-01"])
	pages := map[string]string{"next": "/", "property": "/property", "building": "/building/" + string(h.building), "room": "/room/" + string(h.room), "opening": "/opening/" + op,
		"panels": "/panels", "panel": "/panel/" + string(h.panel), "space": "/panel/" + string(h.panel) + "/space/9", "lockout": "/lockout/" + string(h.panel), "dead": "/dead/" + string(h.panel),
		"isolation": "/isolation/" + string(h.panel), "trace": "/trace", "line": "/line/" + op + "?wire=hot", "newtour": "/tour", "tour": "/tour/" + id,
		"stop": "/tour/" + id + "/" + string(h.opening["A02-04"]), "stopagain": "/tour/" + id + "/" + string(h.opening["A02-03"]), "resistors": "/resistors/" + id, "readback": "/readback/" + id + "?after=yes",
		"look": "/look/" + id + "/" + string(h.room), "takeoff": "/takeoff/" + id, "late": "/late/" + id, "papers": "/papers", "sheet": "/sheet/directory-A1", "journal": "/journal",
		"entry": "/entry/" + h.found().Trace.Lines[0].RestsOn[3].String(), "who": "/who"}
	for _, c := range h.found().Trace.Clashes {
		pages["clash"] = "/clash?key=" + c.Key
	}
	only := os.Getenv("SHOT")
	for _, dark := range []string{"light", "dark"} {
		for _, w := range []int64{360, 1280} {
			opts := []chromedp.EmulateViewportOption{}
			if w == 360 {
				opts = append(opts, chromedp.EmulateMobile, chromedp.EmulateTouch)
			}
			ctx := browser(t, w, 740, opts...)
			_, err := chromedp.Call(ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: dark}}})
			must(t, err)
			for name, path := range pages {
				if only != "" && !strings.Contains(" "+only+" ", " "+name+" ") {
					continue
				}
				must(t, chromedp.Do(ctx, chromedp.Navigate(url+path)))
				over := evaluate[float64](t, ctx, "document.documentElement.scrollWidth - innerWidth")
				if over > 0 {
					t.Errorf("%s at %d: overflow %v", name, w, over)
				}
				small := evaluate[string](t, ctx, `[...document.querySelectorAll('main a, main button, main input, nav a, header a, summary')].filter(e=>{const r=e.getBoundingClientRect();return r.width>0&&(r.height<40||r.width<40)&&!e.closest('svg')&&e.type!=='hidden'}).map(e=>e.outerHTML.slice(0,80)+' '+Math.round(e.getBoundingClientRect().width)+'x'+Math.round(e.getBoundingClientRect().height)).slice(0,3).join('\n')`)
				if small != "" && dark == "light" {
					t.Logf("%s at %d small:\n%s", name, w, small)
				}
				png, err := chromedp.Run(ctx, chromedp.FullScreenshot(100))
				must(t, err)
				must(t, os.WriteFile(fmt.Sprintf("/tmp/shots/%s-%d-%s.png", name, w, dark), png, 0o644))
			}
		}
	}
}
