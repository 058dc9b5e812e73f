package cite

import "testing"

func TestPlacePrinted(t *testing.T) {
	for name, c := range map[string]struct {
		place Place
		want  string
	}{
		"a table":         {Place{"National Electrical Code", "2020", "chapter 9", "8"}, "National Electrical Code (2020), chapter 9, table 8"},
		"a section":       {Place{Title: "National Electrical Code", Edition: "2023", Section: "408.4(A)"}, "National Electrical Code (2023), 408.4(A)"},
		"a whole":         {Place{Title: "ASTM B258", Edition: "2018"}, "ASTM B258 (2018)"},
		"no edition":      {Place{Title: "IEC 60063", Table: "1"}, "IEC 60063 (edition unknown), table 1"},
		"nothing at all":  {Place{}, ""},
		"title forgotten": {Place{Section: "300.15"}, "title unknown (edition unknown), 300.15"},
	} {
		if got := c.place.String(); got != c.want {
			t.Errorf("%s: %q, want %q", name, got, c.want)
		}
	}
}
