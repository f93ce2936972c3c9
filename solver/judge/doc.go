// Package judge says what a frame is worth: every requirement with what governs it,
// who of the people fits, and all that reports and sheets tell of one station. Nothing
// is searched.
package judge
