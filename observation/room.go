package observation

import "strconv"

// Room is a room, or a stretch outdoors, of a building. Order is its place on
// the walk through the building; floor 0 is the main floor.
type Room struct {
	Building Thing  `json:"building"`
	Name     string `json:"name"`
	Floor    int    `json:"floor"`
	Order    int    `json:"order"`
}

// Kind is "room.1".
func (Room) Kind() string { return "room.1" }

// Check wants a building and a name.
func (r Room) Check() error {
	if r.Building == "" {
		return unusable("building", "", "Say which building the room is in.")
	}
	if r.Floor < -5 || r.Floor > 50 {
		return unusable("floor", strconv.Itoa(r.Floor), "Type the floor as a small number: 0 is the main floor, -1 the one below.")
	}
	return needText("name", r.Name, "Give the room a name or a number.")
}
