package made

// Handed is for tests.
var Handed = handed
