package site

import "asfound/list"

// ListColumns are the columns of a kind of list, in the order of its template.
func ListColumns(k ListKind) []list.Column { return listColumns[k] }

var (
	buildingColumn = list.Column{Name: "building", Also: []string{"bldg"}}
	floorColumn    = list.Column{Name: "floor", Also: []string{"level", "story", "storey"}}
	roomColumn     = list.Column{Name: "room", Also: []string{"area", "room name"}}
	useColumn      = list.Column{Name: "use", Also: []string{"type", "kind"}}
	noteColumn     = list.Column{Name: "note", Also: []string{"notes", "remark", "remarks", "comment", "comments"}}
)

func must(c list.Column) list.Column {
	c.Must = true
	return c
}

// listColumns name the columns, with what the trade writes over them besides.
var listColumns = map[ListKind][]list.Column{
	ListOpenings: {
		must(buildingColumn), floorColumn, must(roomColumn),
		{Name: "number", Also: []string{"no", "opening", "opening no", "tape"}, Must: true},
		useColumn,
		{Name: "gangs", Also: []string{"gang"}},
		{Name: "height", Also: []string{"height in", "height inches", "aff"}},
		{Name: "depth", Also: []string{"depth in", "depth inches", "setback"}},
		{Name: "cables", Also: []string{"cable count", "no of cables"}},
		noteColumn,
	},
	ListPanels: {
		must(buildingColumn), floorColumn, roomColumn,
		{Name: "name", Also: []string{"panel", "panel name"}, Must: true},
		{Name: "spaces", Also: []string{"number of spaces", "no of spaces"}, Must: true},
		{Name: "fed_from", Also: []string{"supply", "source"}},
		noteColumn,
	},
	ListCircuits: {
		buildingColumn,
		{Name: "panel", Also: []string{"panel name"}, Must: true},
		{Name: "space", Also: []string{"spaces", "space no", "ckt", "circuit", "circuit no", "no", "number"}, Must: true},
		{Name: "poles", Also: []string{"pole"}},
		{Name: "amps", Also: []string{"amp", "amperes", "rating", "breaker"}},
		{Name: "tied", Also: []string{"handle tie", "handle tied"}},
		{Name: "label", Also: []string{"description", "directory", "load"}},
		{Name: "lands"},
		{Name: "cable", Also: []string{"cable tag", "tag"}},
		{Name: "wire", Also: []string{"conductor", "wire color"}},
	},
	ListDrawn: {
		must(buildingColumn), floorColumn, must(roomColumn), useColumn,
		{Name: "count", Also: []string{"qty", "quantity"}},
		{Name: "mark", Also: []string{"number", "no", "symbol"}},
		{Name: "what", Also: []string{"description"}},
		{Name: "sheet", Also: []string{"drawing", "drawing no", "sheet no"}},
	},
}

// listReaders judge one record of each kind: more says that something of it is
// to be kept. They change nothing when they return an error.
var listReaders = map[ListKind]func(*taking, list.Record) (more bool, err error){
	ListOpenings: (*taking).opening,
	ListPanels:   (*taking).panel,
	ListCircuits: (*taking).circuit,
	ListDrawn:    (*taking).drawing,
}
