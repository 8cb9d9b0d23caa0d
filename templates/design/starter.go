package design

import (
	_ "embed"
	"slices"
)

//go:embed starter.toml
var starter []byte

// Starter returns a commented design that reads, solves and checks as it stands,
// for a builder to put his own measures in.
func Starter() []byte { return slices.Clone(starter) }
