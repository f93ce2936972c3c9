// Package page serves a local page on which a brief can be played with: its
// quantities as controls, the station drawn and judged while one is dragged,
// solved again when it is let go.
//
// The page talks to this machine only. It is served to the loopback address,
// to requests that name it exactly, never across origins, under a content
// policy that lets it load nothing but its own few embedded files. What a
// request names is looked up in memory; no part of it reaches the file system.
//
// A request holds the whole state: the station whose geometry it starts from,
// by its number, and what was changed in the brief. Stations are kept in
// memory, the latest few; the answer to a number that is gone is to solve.
package page
