package web

import (
	"strings"

	"asfound/observation"
	"asfound/quantity"
)

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
		if c.Set != nil {
			f.set("set", c.Set.String())
		}
	}
	return v.renderForm("cabinet", "Cabinet size, panel "+p.Name, f, data)
}

// addCabinet keeps the sizes in place of those measured before.
func addCabinet(v *visit) error {
	f := v.typed()
	body := observation.Cabinet{Width: f.size("width", sayNotAbove), Height: f.size("height", sayNotAbove), Depth: f.size("depth", sayNotAbove),
		WallWidth: f.size("wall_width", sayNotAbove), WallHeight: f.size("wall_height", sayNotAbove), Set: f.edge("set")}
	seen := replaces(v.found.Story(v.arg("panel")), every[observation.Cabinet])
	if _, ok := v.record(f, observation.Observation{Subject: v.arg("panel"), Seen: seen, Body: body}, nil); !ok {
		return cabinetWith(v, f)
	}
	return v.goTo("cabinet/" + v.args["panel"] + "?kept=yes")
}

// size reads a length that was measured, above zero, or nothing.
func (f *form) size(name, notAbove string) quantity.Inches {
	const longest = 200
	text := strings.TrimSpace(f.Get(name))
	if text == "" {
		return 0
	}
	if text != strings.TrimLeft(text, "-−–") {
		f.fault(name, notAbove)
		return 0
	}
	size := f.inches(name)
	switch {
	case size > longest:
		f.fault(name, sayTooLong)
	case size <= 0:
		f.fault(name, notAbove)
	}
	return size
}

// edge reads how far an edge is behind a surface; one that stands proud is below
// zero. Empty is not measured.
func (f *form) edge(name string) *quantity.Inches {
	text := strings.TrimSpace(f.Get(name))
	if text == "" {
		return nil
	}
	behind, proud := strings.CutPrefix(strings.NewReplacer("−", "-", "–", "-").Replace(text), "-")
	size, err := quantity.ParseInches(behind)
	if err != nil {
		f.unread(name, err)
	}
	if proud {
		size = -size
	}
	return &size
}
