package observation

// Building is a building of the property.
type Building struct {
	Name string `json:"name"`
}

// Kind is "building.1".
func (Building) Kind() string { return "building.1" }

// Check wants a name.
func (b Building) Check() error {
	return needText("name", b.Name, "Give the building a name or a letter.")
}
