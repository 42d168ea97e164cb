// Package show turns answers into pictures: it hands the figures of a result,
// in the units people read, to package picture. It words what stands beside
// them and works nothing out; a number in a picture is the number of the text.
//
// A card says what the sheet of package render says, so it is made from that
// sheet.
package show
