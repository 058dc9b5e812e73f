package drawing_test

import (
	"flag"
	"os"
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"

	"asfound/drawing"
	"asfound/observation"
	"asfound/paper"
)

var update = flag.Bool("update", false, "write golden files")

func golden(t *testing.T, name string, got []byte) {
	t.Helper()
	file := filepath.Join("testdata", name)
	if *update {
		if err := os.WriteFile(file, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), string(got)); diff != "" {
		t.Errorf("%s changed (-want +got):\n%s", file, diff)
	}
}

func link(p observation.Point) string { return "/line/" + string(p.At) + "?space=1" }

func TestPanelFaceGolden(t *testing.T) {
	h := sampleHouse()
	in := h.fold.Installation()
	golden(t, "face.svg", paper.SVG(drawing.PanelFace(in, &h.tr, h.panel, link), paper.SVGOptions{}))
	golden(t, "face-narrow.svg", paper.SVG(drawing.NarrowPanelFace(in, &h.tr, h.panel, link), paper.SVGOptions{}))
}
