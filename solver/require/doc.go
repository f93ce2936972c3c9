// Package require is what a station must keep: the table of requirements, the
// limits that a brief sets, and the rows that judging a geometry fills in.
package require
