package report

import (
	"slices"
	"strconv"

	"asfound/drawing"
	"asfound/paper"
	"asfound/site"
)

// makeDirectories puts the directories of all panels one after another. Each
// keeps its own head, page numbers and code: it will hang at its own panel.
func makeDirectories(a *site.AsFound, k Kind) (*paper.Sheet, error) {
	out := &paper.Sheet{Title: k.Title, Key: Key(k.Name, a.State)}
	for _, d := range Sheets(a) {
		if d.Sort != Directory {
			continue
		}
		s, err := makeDirectory(a, d)
		if err != nil {
			return nil, err
		}
		out.Pages = append(out.Pages, s.Pages...)
	}
	return out, nil
}

func directoriesRows(a *site.AsFound, _ Kind) (list, error) {
	var out list
	for _, d := range Sheets(a) {
		if d.Sort != Directory {
			continue
		}
		l, err := directoryRows(a, d)
		if err != nil {
			return list{}, err
		}
		panel := a.Name(d.Of)
		out.head = slices.Concat([]string{"panel"}, l.head)
		for _, r := range l.rows {
			out.add("panel "+panel+", "+r.key, r.said, slices.Concat([]string{panel}, r.cells)...)
		}
	}
	return out, nil
}

func makeOneLine(a *site.AsFound, k Kind) (*paper.Sheet, error) {
	s, err := begin(a, k, "Only what is on record is drawn. A line is no test: a panel may have feeders and sources that nobody found yet.")
	if err != nil {
		return nil, err
	}
	for _, r := range drawing.OneLineRows(a.Installation) {
		p, area := s.Room(r.Height(s.Free().W))
		r.Draw(&p.Group, area, nil)
	}
	s.Space(4)
	p, area := s.Room(drawing.OneLineKeyHeight)
	drawing.OneLineKey(&p.Group, area)
	return s, nil
}

func oneLineRows(a *site.AsFound, _ Kind) (list, error) {
	l := list{head: []string{"no", "name", "fed", "about"}}
	for i, r := range drawing.OneLineRows(a.Installation) {
		l.add(r.Name, r.Fed+"; "+r.About, strconv.Itoa(i+1), r.Name, r.Fed, r.About)
	}
	return l, nil
}
