// Package doubt asks how much an answer is worth when what goes into it is not
// known exactly: how often a part passes its limit, which part fails first, what
// that hangs on, and what facts seen after a failure say of what may have failed.
//
// Everything is drawn from sixteen independently scrambled Sobol sets, so that an
// answer carries an error of its own: the spread of the sets. A figure is the same to
// the bit for any number of workers, and for inputs given in another order: an input
// has its dimension by its id.
//
// A chance is a count out of so many trials of assumptions. It says nothing of what
// was left out of them.
package doubt
