// Kedge is the command line: the verbs that need no screen. It is static, uses
// no cgo and never links the window.
//
// A verb here reads its arguments, asks the solver, and prints. It decides
// nothing about a pull: figures are the solver's, sentences are words'.
//
// Exit statuses, for every verb (see [exitStatus]):
//
//	0  done; of check: every part was computed, has a limit, and no finding is above NOTICE
//	1  check: a DANGER
//	2  wrong use, or what was asked for is not there
//	3  a file was refused
//	4  check: a WARNING or CAUTION, or anything not computed, without a limit or not understood
//
// What is wrong is said on standard error, in a sentence: what, where, what to
// do. Standard output then stays empty.
package main
