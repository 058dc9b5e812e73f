package web

import "asfound/observation"

type cabinetPage struct {
	Form    *form
	Thing   observation.Thing
	Panel   navItem
	Kept    bool
	Entries []entryView
}

// showCabinet takes in the size of a panel's cabinet and of the opening in the
// wall around it.
func showCabinet(v *visit) error { return cabinetWith(v, v.form()) }

func cabinetWith(v *visit, f *form) error {
	p := v.found.Panel(v.arg("panel"))
	if p == nil {
		return notFound{sayNoThing}
	}
	data := cabinetPage{Form: f, Thing: p.Thing, Panel: v.placeItem(p.Thing), Kept: v.query("kept") != "",
		Entries: v.recorded(p.Thing, observation.Cabinet{}.Kind())}
	if c := p.Cabinet; c != nil {
		f.setInches("width", c.Width)
		f.setInches("height", c.Height)
		f.setInches("depth", c.Depth)
		f.setInches("wall_width", c.WallWidth)
		f.setInches("wall_height", c.WallHeight)
		f.setInches("set", c.Set)
	}
	return v.renderForm("cabinet", "Cabinet size, panel "+p.Name, f, data)
}

// addCabinet keeps the sizes in place of those measured before.
func addCabinet(v *visit) error {
	f := v.typed()
	body := observation.Cabinet{Width: f.inches("width"), Height: f.inches("height"), Depth: f.inches("depth"),
		WallWidth: f.inches("wall_width"), WallHeight: f.inches("wall_height"), Set: f.inches("set")}
	seen := replaces(v.found.Story(v.arg("panel")), every[observation.Cabinet])
	if _, ok := v.record(f, observation.Observation{Subject: v.arg("panel"), Seen: seen, Body: body}, nil); !ok {
		return cabinetWith(v, f)
	}
	return v.goTo("cabinet/" + v.args["panel"] + "?kept=yes")
}
