package paper

import (
	"testing"

	"github.com/google/go-cmp/cmp"
)

// What is drawn and then moved is what is drawn there at once.
func TestMovedIsDrawnThere(t *testing.T) {
	draw := func(g *Group, x, y float64) {
		g.Line(x, y, x+10, y, Thin)
		g.Circle(x+1, y+1, 2, Pen{}, Graphite)
		sub := g.Link(Area{x, y, 10, 5}, "room/1", "a room")
		sub.Text(x+2, y+3, "Bath", Style{Turn: 90})
		sub.Hatch(Area{x, y, 4, 4})
	}
	var here, there Group
	draw(&here, 0, 0)
	draw(&there, 8, 16)
	before, _ := here.Marks[0].(Path)
	if diff := cmp.Diff(there.Marks, here.Moved(8, 16).Marks); diff != "" {
		t.Error(diff)
	}
	if after := here.Marks[0].(Path); !cmp.Equal(before, after) || after.Runs[0][0] != (Point{}) {
		t.Error("the group itself was moved")
	}
}
