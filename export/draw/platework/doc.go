// Package platework tells what is cut from plate for a station: the plates of its cam or
// linkage and those of its frame, as outlines with holes and marks, and as documents that a
// cutting machine reads (mm, 1:1).
package platework
