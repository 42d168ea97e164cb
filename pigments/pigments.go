package pigments

import (
	"embed"
	"io/fs"

	"mullwright/formulate/shelf"
)

//go:embed data
var embedded embed.FS

// New returns a shelf of the shipped pigments, to which a maker's own files
// may be added.
func New() *shelf.Shelf { return shelf.New("pigment", data()) }

// data is the folder of entries. Only an impossible name makes Sub fail.
func data() fs.FS {
	files, _ := fs.Sub(embedded, "data")
	return files
}
