// Package ask holds what a maker asks, as text, and turns it into a request of
// package formulate. The command line, a formula file and the page fill the
// same fields, so that one question has one set of rules whoever asks it.
package ask
