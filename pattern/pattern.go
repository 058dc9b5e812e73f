// Package pattern holds the combinatorics of finding conductors: resistor values
// that an ohmmeter can tell apart, check letters for the tape of an opening, and
// halving with joins for the panel isolation test.
//
// It knows no building, no panel and no reading as recorded: everything goes in
// as numbers or names and comes out as numbers or names, and the same input gives
// the same output forever. It measures nothing, and nothing here says that a
// conductor is dead: that takes the absence-of-voltage test.
//
// Start reading at [ResistorSet], then [Letters] and [Joins].
package pattern
