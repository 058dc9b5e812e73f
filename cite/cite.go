// Package cite names a place in a published document, so that a number or a
// requirement can be looked up where it was printed.
//
// It holds no text of the documents, and it does not say which edition is
// adopted where a job stands: the authority having jurisdiction does.
//
// Start reading at [Place].
package cite

import "strings"

// Place is where in a published document something stands. Empty fields are left
// out when printed, apart from the edition: an edition nobody stated is said to
// be unknown, because requirements differ between editions.
type Place struct {
	Title   string `json:"title"`             // "National Electrical Code"
	Edition string `json:"edition,omitempty"` // "2020"
	Section string `json:"section,omitempty"` // "408.4(A)", "chapter 9"
	Table   string `json:"table,omitempty"`   // "8", "310.16"
}

// String prints "National Electrical Code (2020), chapter 9, table 8"; nothing
// for the zero Place.
func (p Place) String() string {
	if p == (Place{}) {
		return ""
	}
	edition := p.Edition
	if edition == "" {
		edition = "edition unknown"
	}
	title := p.Title
	if title == "" {
		title = "title unknown"
	}
	parts := []string{title + " (" + edition + ")"}
	if p.Section != "" {
		parts = append(parts, p.Section)
	}
	if p.Table != "" {
		parts = append(parts, "table "+p.Table)
	}
	return strings.Join(parts, ", ")
}
