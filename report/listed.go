package report

import (
	"cmp"
	"fmt"
	"slices"

	"asfound/observation"
	"asfound/site"
)

// Sheets lists the sheets that can be made: those of each panel, of each tour
// with resistors, of each building, of the property, of each person, and of the
// last days. Sheets of earlier days, of single rooms, and take-over records of
// other days are made by their names and not listed: they would grow without end.
func Sheets(a *site.AsFound) []Kind {
	l := &listing{a: a}
	l.panels()
	l.tours()
	l.buildings()
	l.property()
	l.people()
	l.compared()
	return append(l.out, lastDays(a)...)
}

// listing is a list of sheets being made.
type listing struct {
	a   *site.AsFound
	out []Kind
}

// add lists sheets of a thing, or of the property for none.
func (l *listing) add(t observation.Thing, sorts ...Sort) {
	for _, s := range sorts {
		name, of := string(s), "Property"
		if t != "" {
			name, of = name+"-"+plainName(l.a.Name(t)), l.a.Name(t)
		}
		for l.has(name) {
			name += "-" + plainName(string(t))
		}
		l.out = append(l.out, Kind{Name: name, Title: makers(s).title(of), Of: t, Sort: s})
	}
}

func (l *listing) has(name string) bool {
	return slices.ContainsFunc(l.out, func(k Kind) bool { return k.Name == name })
}

func (l *listing) panels() {
	for _, p := range l.a.Panels {
		l.add(p.Thing, Directory, Isolation)
	}
}

func (l *listing) tours() {
	for _, t := range l.a.Tours {
		if t.Means == observation.ByResistor {
			l.add(t.ID.Thing(), Resistors, ReadBack, Walk)
		}
	}
}

func (l *listing) buildings() {
	for _, b := range l.a.Buildings {
		l.add(b.Thing, Tapes, Survey)
	}
}

// property lists what is about power throughout: a sheet for each door, and those
// of all panels together.
func (l *listing) property() {
	for _, p := range l.a.Panels {
		l.add(p.Thing, Door)
	}
	if len(l.a.Panels) > 0 {
		l.add("", Locks, Directories, OneLine)
	}
}

func (l *listing) people() {
	for _, who := range helpers(l.a) {
		name := cmp.Or(who, nobodyYet)
		k := Kind{Name: string(Helper) + "-" + plainName(name), Title: makers(Helper).title(name), Who: who, Sort: Helper}
		for n := 2; l.has(k.Name); n++ {
			k.Name = fmt.Sprintf("%s-%s-%d", Helper, plainName(name), n)
		}
		l.out = append(l.out, k)
	}
}

// compared lists what counts and measures: a sheet for the property beside those
// of its buildings where there are several.
func (l *listing) compared() {
	for _, s := range []Sort{Count, Differences} {
		if len(l.a.Buildings) > 1 {
			l.add("", s)
		}
		for _, b := range l.a.Buildings {
			l.add(b.Thing, s)
		}
	}
	for _, b := range l.a.Buildings {
		if len(l.a.Floors(b.Thing)) > 0 {
			l.add(b.Thing, Plan)
		}
	}
}
