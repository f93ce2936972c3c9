// Package serve serves a page to this machine over HTTP: to the loopback address, to
// requests that name it exactly, never across origins, under a content policy that
// lets the page load nothing but its own few embedded files. What a request names is
// looked up in memory; no part of it reaches the file system.
package serve
