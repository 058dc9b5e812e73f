package observation

// Wall is a side of a room, as seen from the front of its building, or its
// ceiling or floor.
type Wall string

// The sides of a room; NoWall is not known.
const (
	NoWall    Wall = ""
	FrontWall Wall = "front"
	RightWall Wall = "right"
	BackWall  Wall = "back"
	LeftWall  Wall = "left"
	Overhead  Wall = "ceiling"
	Underfoot Wall = "floor"
)

// Walls lists the four walls as one walks along them to the right, facing each
// from inside: the right end of one is the left end of the next.
var Walls = []Wall{FrontWall, LeftWall, BackWall, RightWall}

func (w Wall) isWall() bool {
	return w == FrontWall || w == RightWall || w == BackWall || w == LeftWall
}
