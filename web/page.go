package web

import (
	"bytes"
	"embed"
	"fmt"
	"html/template"
	"path"
	"strings"
	"sync"

	"asfound/paper"
)

//go:embed *.html
var templateFiles embed.FS

//go:embed page.css page.js
var assetFiles embed.FS

// asset returns the style sheet or the script.
func asset(address string) (body []byte, kind string, ok bool) {
	name, ok := strings.CutPrefix(address, "/assets/")
	if !ok {
		return nil, "", false
	}
	body, err := assetFiles.ReadFile(name)
	if err != nil {
		return nil, "", false
	}
	if name == "page.css" {
		body = append(body, paper.CSS...)
	}
	kinds := map[string]string{".css": "text/css; charset=utf-8", ".js": "text/javascript; charset=utf-8"}
	return body, kinds[path.Ext(name)], true
}

var templates = sync.OnceValue(func() *template.Template {
	return template.Must(template.New("").Funcs(template.FuncMap{
		"field": newField, "choice": newChoice, "select": newChoice, "opts": newOptions, "dict": newDict, "begin": newBeginning, "uses": useOptions, "doors": doors, "walls": wallOptions, "spots": spotOptions,
	}).ParseFS(templateFiles, "*.html"))
})

// frame is what stands around each page.
type frame struct {
	Title, Job, Base, Path, Who string
	Nav                         []navItem
	Main                        template.HTML
	Events                      int
}

type navItem struct {
	Href, Name string
	Here       bool
}

// render fills the page's template and puts the frame around it.
func (v *visit) render(stem, title string, data any) error {
	var main bytes.Buffer
	if err := templates().ExecuteTemplate(&main, stem+".html", data); err != nil {
		return fmt.Errorf("fill page %s: %w", stem, err)
	}
	f := frame{Title: title, Job: v.job.Name, Base: v.job.base, Path: v.ask.Path, Who: v.who,
		Nav: v.nav(), Main: template.HTML(main.String())}
	return v.framed(f)
}

// renderForm is render for a page with a form, whose faults decide the status.
func (v *visit) renderForm(stem, title string, f *form, data any) error {
	if err := v.render(stem, title, data); err != nil {
		return err
	}
	v.out.Status = f.status()
	return nil
}

func (v *visit) framed(f frame) error {
	var out bytes.Buffer
	if err := templates().ExecuteTemplate(&out, "_frame.html", f); err != nil {
		return fmt.Errorf("fill frame: %w", err)
	}
	v.out.Status, v.out.Type, v.out.Body = statusOK, "text/html; charset=utf-8", out.Bytes()
	return nil
}

// places says which page name of the bar an address belongs to.
var places = map[string]string{
	"property": "property", "building": "property", "room": "property", "opening": "property", "photo": "property",
	"raceway": "property", "joined": "property", "lists": "property", "file": "journal",
	"plan": "property", "drawings": "property", "differences": "property",
	"panels": "panels", "panel": "panels", "lockout": "panels", "dead": "panels", "isolation": "panels",
	"passthrough": "panels", "coiled": "panels", "cabinet": "panels",
	"sources": "panels", "source": "panels", "feeder": "panels", "door": "panels", "safety": "panels",
	"told": "panels", "release": "panels", "energize": "panels", "live": "property",
	"trace": "trace", "line": "trace", "clash": "trace", "tour": "trace", "resistors": "trace", "readback": "trace",
	"look": "trace", "takeoff": "trace", "late": "trace", "pairing": "trace",
	"papers": "papers", "sheet": "papers", "journal": "journal", "entry": "journal", "story": "journal", "note": "journal", "day": "journal",
	"survey": "property", "": "", "notnow": "",
}

func (v *visit) nav() []navItem {
	first, _, _ := strings.Cut(strings.TrimPrefix(v.ask.Path+"/", v.job.base), "/")
	here, known := places[first]
	out := make([]navItem, len(pageNames))
	for i, n := range pageNames {
		out[i] = navItem{Href: n.Href, Name: n.Name, Here: known && n.Href == here}
	}
	return out
}
