package observation

import "slices"

// Source is something that can put voltage on the property: the utility, a
// generator, solar panels, a battery. The subject is empty for a new one.
type Source struct {
	Name       string   `json:"name"`
	Of         SourceOf `json:"of"`
	Building   Thing    `json:"building,omitempty"`   // where it stands
	Disconnect string   `json:"disconnect,omitempty"` // what opens it, and where that is
	Starts     Known    `json:"starts,omitempty"`     // it can start by itself
	Note       string   `json:"note,omitempty"`
}

// SourceOf is the sort of a source.
type SourceOf string

// The sorts of source.
const (
	Utility     SourceOf = "utility"
	Temporary   SourceOf = "temporary" // supply of the building site
	Generator   SourceOf = "generator"
	Solar       SourceOf = "solar"
	Battery     SourceOf = "battery"
	OtherSource SourceOf = "other"
)

// SourcesOf lists the sorts in the order a form offers them.
var SourcesOf = []SourceOf{Utility, Temporary, Generator, Solar, Battery, OtherSource}

// Kind is "source.1".
func (Source) Kind() string { return "source.1" }

// Check wants a name and a known sort.
func (s Source) Check() error {
	if !slices.Contains(SourcesOf, s.Of) {
		return unusable("of", string(s.Of), "Choose what kind of source it is from the list.")
	}
	return firstFault(needText("name", s.Name, "Give the source a name: utility, generator at the garage ..."),
		s.Starts.check("starts"), checkText("disconnect", s.Disconnect), checkText("note", s.Note))
}
