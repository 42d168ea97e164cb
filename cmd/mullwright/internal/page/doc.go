// Package page is the bench page: the questions of the command line as forms in a
// browser, their answers as HTML.
//
// A form is laid out by hand, but its inputs are the fields of package ask, and a
// test holds that every field has its place. An answer is the sheet of package
// render and the pictures of package show: the same numbers as on the command
// line, to the last digit, which another test holds.
//
// Everything it shows is embedded in the program; it fetches nothing, and the
// content policy of every answer says so to the browser. It answers only to names
// that belong to the address it listens on ([Hosts]), so that no page of another
// site can reach it through a name of its own, and a form that writes must bring
// back a token. Calculations are bounded in number and in time. On another address
// than the loopback one it is open to all who can reach the machine.
//
// It keeps no state but the open catalogues and the book, and works nothing out.
package page
