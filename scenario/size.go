package scenario

// Size is how large a made-up property is.
type Size int

// The sizes. FourPanels are the benchmark's jobs.
const (
	OnePanel   Size = iota // one house, 60 openings
	TwoPanels              // a house and a cabin, 150 openings
	FourPanels             // four buildings, about 310 openings on about 110 circuits
)

// shape is what the generator needs to know of a size.
type shape struct {
	panels   []panelShape
	openings int // exactly so many, or as they come when 0
	faults   faults
}

type panelShape struct {
	spaces       int
	mean, spread float64 // of the number of circuits
	rooms        int
	upstairs     int // rooms on a second floor, among them
}

type faults struct {
	joined, oneLeg, dead, foreign, misTied, color, junction int
	loads                                                   int
	bare                                                    bool // one dead opening has no splice at all
}

// shapes: FourPanels is the job generator of the tracing benchmark (assumed, no
// field data behind it); the others are cut from it.
var shapes = map[Size]shape{
	OnePanel: {
		panels:   []panelShape{{42, 20, 1, 8, 0}},
		openings: 60,
		faults:   faults{joined: 1, oneLeg: 1, dead: 1, misTied: 1, color: 1},
	},
	TwoPanels: {
		panels:   []panelShape{{42, 32, 1, 14, 5}, {30, 20, 1, 6, 0}},
		openings: 150,
		faults:   faults{joined: 2, oneLeg: 1, dead: 3, foreign: 1, misTied: 2, color: 2, junction: 1, loads: 1, bare: true},
	},
	FourPanels: {
		panels: []panelShape{{84, 52, 3, 20, 9}, {42, 26, 2, 8, 0}, {42, 20, 2, 6, 0}, {24, 12, 1.5, 4, 0}},
		faults: faults{joined: 4, oneLeg: 3, dead: 6, foreign: 3, misTied: 4, color: 3, junction: 2},
	},
}

// Of the circuits, and of where their openings are (assumed).
const (
	twoPoleShare   = 0.16 // two-pole, one opening
	dedicatedShare = 0.22 // single-pole, one opening
	leastOpenings  = 2    // of the others, and beside these
	moreOpenings   = 2.0  // on average
	homeShare      = 0.70 // in the circuit's own room
	nextShare      = 0.25 // in the room before or after it; else anywhere in the building
	wrongLabels    = 0.15 // labels beside breakers that lie
)

// roomNames are the rooms of Pellam Point, building by building.
var roomNames = [][]string{
	{"entry", "great room", "kitchen", "pantry", "dining", "main bedroom", "main bath", "laundry", "study", "main hall", "mechanical room",
		"den", "stair", "loft hall", "bedroom 2", "bedroom 3", "bath 2", "linen room", "sewing room", "attic room"},
	{"cabin living room", "cabin bedroom", "cabin bath", "utility", "porch", "cabin kitchen", "cabin loft", "wood store"},
	{"boat bay", "gear room", "sauna", "loft lounge", "dock", "change room"},
	{"vehicle bay", "wood shop", "office", "tool room"},
}

// buildingNames start with the letter that their openings' numbers start with.
var buildingNames = []string{"A, main house", "B, guest cabin", "C, boathouse", "D, workshop"}
