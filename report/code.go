package report

import (
	"crypto/sha256"
	"encoding/base32"
	"strings"

	"asfound/observation"
	"asfound/site"
)

// Path is the address that the QR code of a sheet holds: within this program,
// the sheet's name and the journal state it was made from.
func Path(name, state string) string { return "/sheet/" + name + "." + state }

// SplitCode takes the last part of a Path apart.
func SplitCode(code string) (name, state string, ok bool) {
	name, state, ok = strings.Cut(strings.TrimPrefix(code, "/sheet/"), ".")
	return name, state, ok && name != "" && state != ""
}

// Key is the short code printed beneath the QR code, for typing: four letters
// and figures for the sheet, then those of the journal state.
func Key(name, state string) string {
	letters, _, _ := strings.Cut(state, "-")
	return tag(name) + "-" + letters
}

// tagSigns is how many signs of a Key are for the sheet.
const tagSigns = 4

// tag shortens a name. Its 32 signs leave out i, l, o and u, which are taken for
// others when typed from paper.
func tag(name string) string {
	sum := sha256.Sum256([]byte(name))
	return base32.NewEncoding("0123456789abcdefghjkmnpqrstvwxyz").EncodeToString(sum[:])[:tagSigns]
}

// Find returns the sheet a typed Key names, and the letters of the journal state
// it was made from. Capitals, spaces, a stroke left out and figures typed as letters do not matter.
func Find(a *site.AsFound, typed string) (k Kind, state string, err error) {
	text := strings.ToLower(strings.Join(strings.Fields(typed), ""))
	sheet, state, ok := strings.Cut(text, "-")
	if !ok && len(text) > tagSigns { // the stroke left out
		sheet, state, ok = text[:tagSigns], text[tagSigns:], true
	}
	state, _, _ = strings.Cut(state, "-") // the number of events may be typed too
	sheet = strings.NewReplacer("o", "0", "i", "1", "l", "1").Replace(sheet)
	var found []Kind
	for _, k := range append(Sheets(a), rest(a)...) {
		if ok && tag(k.Name) == sheet {
			found = append(found, k)
		}
	}
	switch len(found) {
	case 1:
		return found[0], state, nil
	case 0:
		return Kind{}, "", observation.Unusable{Field: "code", Typed: typed,
			Say: "No sheet has that code. Type the letters under the square code, such as k7m2-x9q4wd, or choose the sheet from the list."}
	}
	return Kind{}, "", observation.Unusable{Field: "code", Typed: typed,
		Say: "Two sheets share that code. Scan the square code, or choose the sheet from the list."}
}
