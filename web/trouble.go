package web

import "errors"

// fail turns an error into a page.
func (v *visit) fail(err error) {
	data := troublePage{Say: sayNoRead, Status: statusFailed}
	var missing notFound
	if errors.As(err, &missing) {
		data = troublePage{Say: missing.say, Status: max(statusNotFound, v.out.Status)}
	}
	v.render("trouble", titleTrouble, data)
	v.out.Status = data.Status
}

type troublePage struct {
	Say    string
	Status int
}
