package web

type whoPage struct {
	Form   *form
	People []string
	Back   string
}

// showWho asks who holds this device.
func showWho(v *visit) error {
	f := v.form()
	return v.render("who", titleWho, whoPage{Form: f, People: v.people(), Back: v.query("back")})
}

// chooseWho remembers who holds this device, and goes on.
func chooseWho(v *visit) error {
	name := v.query("name")
	if name == "" {
		name = v.query("who")
	}
	if name == "" {
		f := v.form()
		f.fault("name", sayWho)
		return v.renderForm("who", titleWho, f, whoPage{Form: f, People: v.people()})
	}
	v.out.Who = name
	return v.goTo("")
}
