package main

type benchCommand struct {
	Fold benchFoldCommand `cmd:"" help:"Read a long journal from disk; record one more reading."`
}
