package cli

import (
	"bufio"
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"os"
	"runtime"
	"sync/atomic"
	"time"

	"github.com/spf13/cobra"

	"mullwright/cmd/mullwright/internal/ask"
	"mullwright/cmd/mullwright/internal/render"
	"mullwright/formulate"
)

func newMany(e *env) *cobra.Command {
	var jobs int
	cmd := &cobra.Command{
		Use:     "many FILE.csv|-",
		Short:   "Many mulls at once, a result line for each input line",
		GroupID: "make",
		Long: `Many reads a CSV whose header names the fields of a mull (pigments,
pigment-mass, oil, body, pvc, ...; several pigments are separated by semicolons)
and writes one result line for each, in the same order, at the typical values.
A row that cannot be worked out gives its reason in the last column and does not
stop the others. An id column is handed through.

The answer is CSV, or one JSON object a line with --format json. The exit code
is 1 where any row failed.`,
		Example: `  mullwright many batches.csv
  mullwright many - < batches.csv > answers.csv`,
		Args: cobra.ExactArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			if jobs < 1 || jobs > 64 {
				return usage(fmt.Errorf("--jobs: %d is not from 1 to 64", jobs))
			}
			format := render.CSV
			switch render.Format(e.format) {
			case render.JSON:
				format = render.JSON
			case render.Markdown:
				return usage(errors.New("--format: many answers in csv or json"))
			}
			w, err := e.open()
			if err != nil {
				return err
			}
			in, size, done, err := e.source(args[0])
			if err != nil {
				return err
			}
			defer done()
			read := &counter{r: in}
			stop := e.progress(read, size)
			failed, err := many(e.Out, read, w, jobs, format)
			stop()
			if err != nil {
				return fmt.Errorf("%s: %w", args[0], err)
			}
			// The rows have no room to say so.
			if said := render.OwnTests(e.tested...); said != "" {
				fmt.Fprintf(e.Err, "mullwright: the answer %s\n", said)
			}
			if failed > 0 {
				return fmt.Errorf("%s: %d rows could not be worked out; the last column says why", args[0], failed)
			}
			return nil
		},
	}
	cmd.Flags().IntVar(&jobs, "jobs", runtime.GOMAXPROCS(0), "how many rows are worked out side by side")
	return cmd
}

// source opens a file, or standard input for "-".
func (e *env) source(name string) (r io.Reader, size int64, done func(), err error) {
	if name == "-" {
		return e.In, 0, func() {}, nil
	}
	f, err := os.Open(name)
	if err != nil {
		return nil, 0, nil, fmt.Errorf("%s: no such file, or it cannot be read", name)
	}
	if info, err := f.Stat(); err == nil {
		if info.IsDir() {
			f.Close()
			return nil, 0, nil, fmt.Errorf("%s is a folder, not a file", name)
		}
		size = info.Size()
	}
	return f, size, func() { f.Close() }, nil
}

// counter counts what has been read.
type counter struct {
	r io.Reader
	n atomic.Int64
}

func (c *counter) Read(p []byte) (int, error) {
	n, err := c.r.Read(p)
	c.n.Add(int64(n))
	return n, err
}

// progress shows how far a file is on a terminal, once it takes over a second.
func (e *env) progress(c *counter, size int64) (stop func()) {
	if !e.ErrTerminal || size == 0 {
		return func() {}
	}
	quit, gone := make(chan struct{}), make(chan struct{})
	go func() {
		defer close(gone)
		tick := time.NewTicker(time.Second)
		defer tick.Stop()
		shown := false
		for {
			select {
			case <-quit:
				if shown {
					fmt.Fprint(e.Err, "\r\x1b[K")
				}
				return
			case <-tick.C:
				shown = true
				fmt.Fprintf(e.Err, "\r%3d %% read", 100*c.n.Load()/size)
			}
		}
	}()
	return func() { close(quit); <-gone }
}

const blockSize = 256 << 10

// block is a run of whole rows and where it begins.
type block struct {
	line int // of its first row
	rows []byte
	out  chan worked
}

type worked struct {
	text   []byte
	failed int
}

// many works the rows out in blocks, jobs at a time, and writes them in order.
// Memory is bounded by the blocks in flight.
func many(out io.Writer, in io.Reader, w *ask.Workshop, jobs int, format render.Format) (failed int, err error) {
	r := bufio.NewReaderSize(in, blockSize)
	header, line, err := readHeader(r)
	if err != nil {
		return 0, err
	}
	if _, err := ask.NewRows(w, header); err != nil {
		return 0, usage(err)
	}
	work := make(chan *block)
	queue := make(chan *block, 2*jobs)
	for range jobs {
		go func() {
			rows, _ := ask.NewRows(w, header)
			var p formulate.Pointer
			for b := range work {
				b.out <- workBlock(b, rows, &p, format)
			}
		}()
	}
	readErr := make(chan error, 1)
	quit := make(chan struct{})
	go func() {
		defer close(queue)
		defer close(work)
		readErr <- cutBlocks(r, line, func(b *block) bool {
			select {
			case queue <- b:
			case <-quit:
				return false
			}
			work <- b
			return true
		})
	}()
	buf := bufio.NewWriterSize(out, blockSize)
	if format == render.CSV {
		buf.WriteString(render.ManyHeader)
	}
	for b := range queue {
		a := <-b.out
		failed += a.failed
		if err == nil {
			if _, err = buf.Write(a.text); err != nil {
				close(quit)
			}
		}
	}
	if err == nil {
		err = buf.Flush()
	}
	if rerr := <-readErr; err == nil {
		err = rerr
	}
	return failed, err
}

// readHeader reads the first row; line is that of the row after it.
func readHeader(r *bufio.Reader) (header []string, line int, err error) {
	text, err := r.ReadSlice('\n')
	if err != nil && err != io.EOF {
		return nil, 0, errors.New("the first line is too long for a header")
	}
	text = bytes.TrimPrefix(text, []byte("\xef\xbb\xbf"))
	header, err = csv.NewReader(bytes.NewReader(text)).Read()
	if err != nil {
		return nil, 0, usage(errors.New("no header line: the first line names the columns, as in pigments,pigment-mass,body"))
	}
	return header, 2, nil
}

// cutBlocks cuts the input into blocks of whole rows: at line ends outside
// quotes.
func cutBlocks(r io.Reader, line int, send func(*block) bool) error {
	var rest []byte
	for {
		buf := make([]byte, len(rest)+blockSize)
		copy(buf, rest)
		n, err := io.ReadFull(r, buf[len(rest):])
		buf = buf[:len(rest)+n]
		last := err == io.EOF || err == io.ErrUnexpectedEOF
		if err != nil && !last {
			return err
		}
		end := len(buf)
		if !last {
			if end = lastRowEnd(buf); end == 0 {
				if len(buf) > maxRow {
					return fmt.Errorf("line %d: a row of over a megabyte; is a quote left open?", line)
				}
				rest = buf
				continue
			}
		}
		if end > 0 {
			if !send(&block{line: line, rows: buf[:end], out: make(chan worked, 1)}) {
				return nil
			}
			line += bytes.Count(buf[:end], []byte{'\n'})
		}
		rest = buf[end:]
		if last {
			return nil
		}
	}
}

const maxRow = 1 << 20

// lastRowEnd is the end of the last whole row.
func lastRowEnd(b []byte) int {
	if bytes.IndexByte(b, '"') < 0 {
		return bytes.LastIndexByte(b, '\n') + 1
	}
	end, quoted := 0, false
	for i, c := range b {
		switch {
		case c == '"':
			quoted = !quoted
		case c == '\n' && !quoted:
			end = i + 1
		}
	}
	return end
}

func workBlock(b *block, rows *ask.Rows, p *formulate.Pointer, format render.Format) worked {
	r := csv.NewReader(bytes.NewReader(b.rows))
	r.ReuseRecord = true
	r.FieldsPerRecord = -1
	a := worked{text: make([]byte, 0, 5*len(b.rows))}
	for {
		record, err := r.Read()
		if err == io.EOF {
			return a
		}
		var res render.ManyRow
		var pe *csv.ParseError
		switch {
		case errors.As(err, &pe):
			res.Line, res.Err = b.line+pe.StartLine-1, fmt.Errorf("not a CSV row: %w", pe.Err)
		case err != nil:
			res.Line, res.Err = b.line, err
		default:
			at, _ := r.FieldPos(0)
			res.Line = b.line + at - 1
			var req *formulate.MullRequest
			if res.ID, req, res.Err = rows.Read(record); res.Err == nil {
				res.Point, res.Err = p.Point(req)
			}
		}
		if res.Err != nil {
			a.failed++
		}
		a.text = res.Append(a.text, format)
	}
}
