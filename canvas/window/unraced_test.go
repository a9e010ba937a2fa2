//go:build !race

package window

// raced: the race detector looks on, and all takes ten times as long.
const raced = false
