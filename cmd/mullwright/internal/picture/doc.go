// Package picture draws answers: charts, sheets of colour chips, the weighing
// card and labels.
//
// # One list, three writers
//
// A picture is a [Drawing], a list of rectangles, paths, circles and lines of
// text. WriteSVG, WritePNG and [WritePDF] show the same list, so a screen
// picture, an image and a printed page cannot disagree. Charts count in pixels
// and are laid out for the width they are shown at, so that letters keep their
// size on a phone; cards and labels count in millimetres and print at true
// size.
//
// The SVG is written here rather than by a plotting library: it is a few dozen
// lines, its text stays text, it carries a title and a description, needs no
// font file and gives the same bytes on every run and machine (lengths have at
// most two decimals). The plotting libraries tried were larger than the whole
// program, named fonts the reader may lack, or loaded a script from outside.
// Images use the vector rasteriser and the Go typeface of golang.org/x/image;
// documents use go-pdf.
//
// # What goes in
//
// Each function takes a plain view struct: names and figures as they are to be
// printed, places as numbers. Nothing is worked out here but where things go.
//
// # How it looks
//
// White paper, dark ink, one deep blue for the answer and one ochre brown for
// the second thing; a limit is red and always dashed or framed and named, so
// nothing rests on hue alone. Ranges are pale, middles dark. Chips stand on
// white, or on the ground they are meant for, and a cut corner says that the
// screen cannot show the colour.
//
// # What it does not do
//
// It reads no result but the colours of formulate/optics, keeps no state,
// fetches nothing, and draws no third dimension.
package picture
