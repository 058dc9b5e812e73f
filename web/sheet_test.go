package web

import "testing"

func TestSheet(t *testing.T) {
	h := built(t)
	wants(t, h.get("/sheet/directory-A1"), "PDF to print", `src="sheet/directory-A1/page-1.svg"`)
	for file, kind := range map[string]string{"page-1.svg": "image/svg+xml", "sheet.pdf": "application/pdf", "sheet.csv": "text/csv; charset=utf-8"} {
		if r := h.send("GET", "/sheet/directory-A1/"+file, nil); r.Status != statusOK || r.Type != kind {
			t.Errorf("%s: status %d, type %s", file, r.Status, r.Type)
		}
	}
	if r := h.send("GET", "/sheet/directory-A1/sheet.exe", nil); r.Status != statusNotFound {
		t.Errorf("an unknown form: status %d", r.Status)
	}
}
