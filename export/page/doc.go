// Package page lets a brief be played with in a browser: its quantities as
// controls, the station in space and judged while one is dragged, solved again when
// it is let go.
//
// A Page answers questions and knows nothing of how they come: package serve brings
// them over HTTP on this machine, and cmd/armwright-worker, as WebAssembly, from a
// worker of the browser itself.
//
// A question holds the whole state: the brief opened, the station whose geometry it
// starts from, both by their numbers, and what was changed in the brief. Both are kept
// in memory, the latest few; the answer to a station's number that is gone is to solve,
// to a brief's to open it again. No part of a question reaches a file system.
package page
