package web

import (
	"bytes"
	"html/template"
	"strings"
)

// outside answers for addresses that belong to no job: the list of jobs.
func (p *Pages) outside(r Request) Response {
	v := &visit{pages: p, ask: r, job: &open{Job: Job{Name: titleJobs}, base: "/"}}
	var data jobsPage
	for _, j := range p.jobs {
		data.Jobs = append(data.Jobs, navItem{Href: strings.TrimPrefix(j.base, "/"), Name: j.Name})
	}
	var main bytes.Buffer
	if err := templates().ExecuteTemplate(&main, "jobs.html", data); err != nil {
		return Response{Status: statusFailed, Type: "text/plain; charset=utf-8", Body: []byte(sayFailed)}
	}
	if err := v.framed(frame{Title: titleJobs, Job: titleJobs, Base: "/", Path: r.Path, Main: template.HTML(main.String())}); err != nil {
		return Response{Status: statusFailed, Type: "text/plain; charset=utf-8", Body: []byte(sayFailed)}
	}
	if r.Path != "/" {
		v.out.Status = statusNotFound
	}
	return v.out
}

type jobsPage struct{ Jobs []navItem }
