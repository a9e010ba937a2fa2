// Package flat reads what the program's own files of texts and figures are: TOML of
// the plain kind, one thing a line. A command that answers in a blink has no time for
// a TOML decoder, which takes 10 ms for the handbook alone. Whatever is not of that
// kind, faulty or not, is left to the decoder; tests of the packages that read with
// this one hold the two to the same result.
package flat
