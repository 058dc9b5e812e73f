package web

import (
	"fmt"
	"slices"
	"strings"

	"asfound/observation"
	"asfound/site"
)

// visit is one request on its way to its answer.
type visit struct {
	pages *Pages
	job   *open
	ask   Request
	who   string
	args  map[string]string
	found *site.AsFound
	out   Response
}

// notFound says what an address names that is not there.
type notFound struct{ say string }

func (n notFound) Error() string { return n.say }

// Answer answers a request. It never fails: what goes wrong is a page too.
func (p *Pages) Answer(r Request) Response {
	if body, kind, ok := asset(r.Path); ok {
		return Response{Status: statusOK, Type: kind, Body: body}
	}
	if r.Method == "HEAD" {
		r.Method = "GET"
	}
	job, rest := p.job(r.Path)
	if job == nil {
		return p.outside(r)
	}
	if r.Method == "POST" {
		if out, again := p.seen.find(r); again {
			return out
		}
	}
	v := &visit{pages: p, job: job, ask: r, who: strings.TrimSpace(r.Who)}
	if w := r.Form["who"]; len(w) > 0 && strings.TrimSpace(w[0]) != "" {
		v.who = strings.TrimSpace(w[0])
		v.out.Who = v.who
	}
	if err := v.route(rest); err != nil {
		v.fail(err)
	}
	if r.Method == "POST" && v.out.Status == statusGoTo {
		p.seen.keep(r, v.out)
	}
	return v.out
}

// route finds the page and lets it answer.
func (v *visit) route(path string) error {
	handle, args, other := find(v.ask.Method, path)
	if handle == nil {
		if other {
			v.out.Status = statusNotAllowed
		}
		return notFound{sayNoPage}
	}
	v.args = args
	found, err := v.job.Site.AsFound()
	if err != nil {
		return fmt.Errorf("read the job: %w", err)
	}
	v.found = found
	return handle(v)
}

// goTo sends the person to another page of the job.
func (v *visit) goTo(path string) error {
	v.out.Status, v.out.Location = statusGoTo, v.job.base+path
	return nil
}

// record keeps one observation, or notes on the form why it could not be kept.
func (v *visit) record(f *form, o observation.Observation, at map[string]string) (observation.ID, bool) {
	if len(f.faults) > 0 || f.Failed != "" {
		return observation.ID{}, false
	}
	if o.Who == "" {
		o.Who = v.who
	}
	id, err := v.job.Site.Record(o)
	if err != nil && id.IsZero() {
		f.take(err, at)
		return id, false
	}
	return id, true
}

// afresh asks again for the site as found, after something was recorded.
func (v *visit) afresh() error {
	found, err := v.job.Site.AsFound()
	if err != nil {
		return fmt.Errorf("read the job again: %w", err)
	}
	v.found = found
	return nil
}

// people lists who is known on the job: as the job names them, then whoever
// recorded something.
func (v *visit) people() []string {
	out := slices.Clone(v.job.People)
	recorded, err := v.job.book.who(v.job.Entries)
	if err != nil {
		return out
	}
	for _, who := range recorded {
		if !slices.Contains(out, who) {
			out = append(out, who)
		}
	}
	return out
}

func (v *visit) arg(name string) observation.Thing { return observation.Thing(v.args[name]) }

// query is the first value of a query field.
func (v *visit) query(name string) string {
	if got := v.ask.Form[name]; len(got) > 0 {
		return got[0]
	}
	return ""
}
