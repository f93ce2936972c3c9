package fit

// builder makes a station's geometry into what it is built of.
type builder struct{ designer }
