package cli

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"mullwright/cmd/mullwright/internal/ask"
	"mullwright/cmd/mullwright/internal/picture"
	"mullwright/cmd/mullwright/internal/show"
)

// screenDPI is how fine an image is drawn: twice what a plain screen shows, so
// that it stays sharp on a fine one and in print.
const screenDPI = 192

// A face is a sort of picture that a command can write, by the endings of its files.
type face struct {
	what    string
	endings []string
}

func svg(what string) face { return face{what, []string{".svg", ".png"}} }
func pdf(what string) face { return face{what, []string{".pdf"}} }

// outs is the --out flag of one command.
type outs struct {
	faces []face
	files []string
}

// outFlag gives a command an --out flag for what it can draw. The files are looked
// over before the command runs.
func outFlag(cmd *cobra.Command, faces ...face) *outs {
	o := &outs{faces: faces}
	cmd.Flags().StringArrayVar(&o.files, "out", nil, "write to a file: "+o.accepted()+"; repeat for more (never over another file)")
	var endings []string
	for _, f := range faces {
		for _, e := range f.endings {
			endings = append(endings, strings.TrimPrefix(e, "."))
		}
	}
	_ = cmd.MarkFlagFilename("out", endings...) // it fails only for a flag that is not there
	cmd.PreRunE = func(*cobra.Command, []string) error { return o.check() }
	return o
}

func (o *outs) accepted() string {
	var list []string
	for _, s := range o.faces {
		list = append(list, "the "+s.what+" as "+strings.Join(s.endings, " or "))
	}
	return strings.Join(list, ", ")
}

// face finds what an ending stands for.
func (o *outs) face(file string) (face, error) {
	ending := strings.ToLower(filepath.Ext(file))
	for _, s := range o.faces {
		if slices.Contains(s.endings, ending) {
			return s, nil
		}
	}
	return face{}, usage(fmt.Errorf("--out: %q is not a file that can be written here; accepted: %s", file, o.accepted()))
}

// check refuses files that cannot be written before any work is done.
func (o *outs) check() error {
	for i, f := range o.files {
		if _, err := o.face(f); err != nil {
			return err
		}
		if slices.Contains(o.files[:i], f) {
			return usage(fmt.Errorf("--out: %s is given twice", f))
		}
		if _, err := os.Lstat(f); err == nil {
			return taken(f)
		}
	}
	return nil
}

// draws makes the pages of each face, by its name.
type draws map[string]func() ([]*picture.Drawing, error)

// write draws every file asked for, then writes them, and says so.
func (o *outs) write(e *env, draw draws) error {
	type done struct {
		file, what string
		data       []byte
	}
	var all []done
	for _, f := range o.files {
		s, err := o.face(f)
		if err != nil {
			return err
		}
		pages, err := draw[s.what]()
		if err != nil {
			return err
		}
		data, err := encode(f, pages)
		if err != nil {
			return err
		}
		all = append(all, done{f, s.what, data})
	}
	for _, d := range all {
		if err := writeNew(d.file, d.data); err != nil {
			return err
		}
		fmt.Fprintf(e.Err, "wrote %s (%s)\n", d.file, d.what)
	}
	return nil
}

// encode writes pages in the format of the file's ending.
func encode(file string, pages []*picture.Drawing) ([]byte, error) {
	var b bytes.Buffer
	var err error
	switch strings.ToLower(filepath.Ext(file)) {
	case ".svg":
		err = pages[0].WriteSVG(&b)
	case ".png":
		err = pages[0].WritePNG(&b, screenDPI)
	case ".pdf":
		err = picture.WritePDF(&b, pages...)
	default:
		err = fmt.Errorf("%s: no format has this ending", file)
	}
	return b.Bytes(), err
}

// one makes a picture of data with the function that draws it.
func one[V any](data V, draw func(V) (*picture.Drawing, error)) ([]*picture.Drawing, error) {
	d, err := draw(data)
	return []*picture.Drawing{d}, err
}

// paperOf reads what a maker wants on paper.
func paperOf(p ask.Paper) (show.Paper, error) {
	out := show.Paper{Maker: p.Maker, Batch: p.Batch, Date: p.Date}
	if p.Page == "" {
		return out, nil
	}
	page, err := picture.PageNamed(p.Page)
	if err != nil {
		return out, usage(fmt.Errorf("--page: %w", err))
	}
	out.Page = page
	return out, nil
}

// none refuses --out where an answer has no picture.
func (o *outs) none(why string) error {
	if len(o.files) == 0 {
		return nil
	}
	return usage(fmt.Errorf("--out: %s", why))
}
