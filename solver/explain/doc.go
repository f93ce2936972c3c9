// Package explain says why a brief cannot be met: which of its demands contradict
// each other, and the changes that would mend it, cheapest first.
package explain
