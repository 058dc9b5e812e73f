package main

import (
	"errors"

	"asfound/scenario"
)

type benchPropertyCommand struct {
	Seeds int    `default:"10" help:"So many times, each with other mistakes of its people."`
	From  uint64 `default:"1" help:"Seed of the first."`
}

// Help is an example.
func (benchPropertyCommand) Help() string {
	return "Example: asfound bench property --seeds 3 --from 1"
}

// Run plays the demo property and prints the tables.
func (c benchPropertyCommand) Run(p *program) error {
	if c.Seeds < 1 {
		return misuse{"Give the number of seeds as 1 or more."}
	}
	done := make(chan error, 1)
	go func() {
		done <- scenario.Property(p.out, scenario.PropertyOptions{Seeds: c.Seeds, From: c.From, Now: p.now})
	}()
	select {
	case err := <-done:
		return err
	case <-p.ctx.Done():
		return errors.New("stopped before all seeds were played")
	}
}
