package table

import (
	"strings"
	"testing"
)

const complete = `# title: A
# document: B
# edition: C
# table: D
# units: E
# transcribed: F
# checked: G
# left out: nothing
size,ohm_per_kft
12,1.588
`

func TestHeaderMustBeComplete(t *testing.T) {
	if _, err := read("whole", []byte(complete)); err != nil {
		t.Fatal(err)
	}
	for _, line := range strings.SplitAfter(complete, "\n") {
		if !strings.HasPrefix(line, "#") {
			continue
		}
		key, _, _ := strings.Cut(line, ":")
		for what, spoilt := range map[string]string{
			"left out": strings.Replace(complete, line, "", 1),
			"empty":    strings.Replace(complete, line, key+":\n", 1),
			"twice":    line + complete,
			"misnamed": strings.Replace(complete, line, "# about: x\n", 1),
		} {
			if sheet, err := read("part", []byte(spoilt)); err == nil {
				t.Errorf("%q %s, yet read as %+v", line, what, sheet)
			}
		}
	}
	for what, spoilt := range map[string]string{
		"no rows":    strings.Replace(complete, "12,1.588\n", "", 1),
		"ragged row": complete + "10\n",
	} {
		if _, err := read("part", []byte(spoilt)); err == nil {
			t.Errorf("%s: read", what)
		}
	}
}

func TestEverySheetReadsAndIsPlaced(t *testing.T) {
	if len(Sheets()) == 0 {
		t.Fatal("no tables")
	}
	for _, sheet := range Sheets() {
		if place := sheet.Place().String(); strings.Contains(place, "unknown (") || !strings.Contains(place, sheet.Document) {
			t.Errorf("%s: placed at %q", sheet.Name, place)
		}
	}
}
