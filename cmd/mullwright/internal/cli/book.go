package cli

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"sort"
	"strings"
	"sync"

	"github.com/spf13/cobra"

	"mullwright/cmd/mullwright/internal/ask"
	"mullwright/cmd/mullwright/internal/book"
	"mullwright/cmd/mullwright/internal/picture"
	"mullwright/cmd/mullwright/internal/render"
	"mullwright/cmd/mullwright/internal/show"
	"mullwright/formulate"
	"mullwright/formulate/quantity"
	"mullwright/formulate/strict"
)

// batches is the maker's book: where --book says, or in their data folder.
func (e *env) batches() *book.Book {
	if e.bookDir != "" {
		return &book.Book{Dir: e.bookDir}
	}
	if e.DataDir == "" {
		return &book.Book{}
	}
	return &book.Book{Dir: filepath.Join(e.DataDir, "mullwright", "batches")}
}

// checkBook refuses a folder that was named and is not there, but for the
// commands that make it.
func (e *env) checkBook(cmd *cobra.Command) error {
	if e.bookDir == "" || cmd.Name() == "add" || cmd.Name() == "stock" || cmd.Name() == "rubout" {
		return nil
	}
	if info, err := os.Stat(e.bookDir); err != nil || !info.IsDir() {
		return usage(fmt.Errorf("--book: there is no folder %s; 'mullwright book add' with the same --book makes it", e.bookDir))
	}
	return nil
}

// read reads the book, once.
func (e *env) read(w *ask.Workshop) (*ask.Ledger, error) {
	if e.ledger != nil {
		return e.ledger, nil
	}
	r, err := e.batches().Read()
	if err != nil {
		return nil, err
	}
	l := ask.NewLedger(w, r.Entries)
	e.unread = append(append(strict.Faults(nil), r.Damaged...), l.Faults...)
	sort.SliceStable(e.unread, func(i, j int) bool { return e.unread[i].File < e.unread[j].File })
	e.ledger = l
	return l, nil
}

// useBook lets every answer rest on what the maker's own book has taught.
// Nothing is read before a material is asked for.
func (e *env) useBook(w *ask.Workshop) error {
	if e.ignoreBook {
		return nil
	}
	if err := e.readJars(w); err != nil {
		return err
	}
	var mu sync.Mutex
	known := map[string]formulate.Ingredient{}
	warned := false
	ledger := func() (*ask.Ledger, error) {
		l, err := e.read(w)
		if err == nil && len(e.unread) > 0 && !warned {
			warned = true
			fmt.Fprintf(e.Err, "mullwright: left out of the batch book, unread: %s; see 'mullwright book list'\n", files(e.unread))
		}
		return l, err
	}
	w.Prices = func() (map[string]quantity.PricePerGram, error) {
		mu.Lock()
		defer mu.Unlock()
		l, err := ledger()
		if err != nil {
			return nil, err
		}
		return l.Prices(), nil
	}
	w.Learned = func(in formulate.Ingredient) (formulate.Ingredient, error) {
		mu.Lock()
		defer mu.Unlock()
		id := in.Material.ID
		if own, ok := known[id]; ok {
			return own, nil
		}
		l, err := ledger()
		if err != nil {
			return in, err
		}
		if l.Holds(id) {
			r, err := l.Learn(id, e.jarOf(id), nil)
			if err != nil {
				return in, err
			}
			in = r.Pigment
		}
		in.OnHand = l.OnHand(id)
		known[id] = in
		return in, nil
	}
	return nil
}

// files counts the files that faults are of.
func files(faults strict.Faults) string {
	seen := map[string]bool{}
	for _, f := range faults {
		seen[f.File] = true
	}
	if len(seen) == 1 {
		return "1 file"
	}
	return fmt.Sprintf("%d files", len(seen))
}

// readJars reads --jar NAME=LOT.
func (e *env) readJars(w *ask.Workshop) error {
	e.lots = map[string]string{}
	for _, text := range e.jars {
		name, lot, ok := strings.Cut(text, "=")
		if !ok {
			return usage(fmt.Errorf("--jar: %q: want NAME=LOT, as in prussian-blue=A12", text))
		}
		m, err := w.PigmentNamed(strings.TrimSpace(name))
		if err != nil {
			return usage(fmt.Errorf("--jar: %w", err))
		}
		e.lots[m.ID] = strings.TrimSpace(lot)
	}
	return nil
}

// jarOf is the lot in use, nil where the maker did not say.
func (e *env) jarOf(id string) *string {
	if lot, ok := e.lots[id]; ok {
		return &lot
	}
	return nil
}

// anEntry wants the number of one entry.
func anEntry(cmd *cobra.Command, args []string) error {
	if len(args) != 1 {
		return fmt.Errorf("want the number of one entry, as in '%s 12'; see 'mullwright book list'", cmd.CommandPath())
	}
	return nil
}

func newBook(e *env) *cobra.Command {
	cmd := &cobra.Command{
		Use:     "book",
		Short:   "Your batch book: what was really weighed, and what it taught",
		GroupID: "own",
		Long: `The batch book keeps what was really weighed, the oil it took and the body it
reached, your rub-outs, and what is on hand. Each entry is a TOML file of its
own, to be read, mended by hand and kept under version control; the program only
ever adds. It is kept in mullwright/batches in your data folder, or where --book
says. Nothing is made before the first 'book add'.

Once it holds a batch or a rub-out of a pigment, every command uses your own
figures for it and says so. --ignore-book leaves them out; --jar says which jar
you are using where you have had several.`,
		Example: `  mullwright book add prussian-blue=60g --oil linseed-oil=48.3g --body buttery --lot A12
  mullwright book learn prussian-blue
  mullwright book repeat 1 --tubes 3x40ml`,
		PersistentPreRunE: func(cmd *cobra.Command, args []string) error {
			if e.ignoreBook {
				return usage(errors.New("--ignore-book leaves your book out of other answers; 'book' is about nothing else"))
			}
			return cmd.Root().PersistentPreRunE(cmd, args)
		},
		RunE: func(cmd *cobra.Command, args []string) error { return cmd.Help() },
	}
	cmd.AddCommand(newBookAdd(e), newBookList(e), newBookShow(e), newBookRepeat(e), newBookLearn(e), newBookStock(e), newBookExport(e))
	return cmd
}

func newBookAdd(e *env) *cobra.Command {
	var q ask.BookAdd
	cmd := &cobra.Command{
		Use:   "add PIGMENT=MASS...",
		Short: "Write down a batch as it was made, or a rub-out",
		Long: `Writes down a batch: the final weights, not the planned ones, all pours of oil
together, and the body the paste reached as you judged it. Only a batch of one
powder whose body is named teaches how much oil that jar takes; any other is
kept all the same.

With --rubout it writes down a rub-out instead: the oil absorption of one
pigment, as 'mullwright rubout' worked it out, and how many tests it is the mean
of. Lots and dates are your own words.`,
		Example: `  mullwright book add prussian-blue=60g --oil linseed-oil=48.3g --body buttery \
      --lot A12 --date "2 March" --loss 4.1g --remark "second mull stiffer"
  mullwright book add prussian-blue --rubout 43.5g/100g --tests 3 --lot A12
  mullwright book add yellow-ochre=40g raw-umber=20g --oil walnut-oil=31ml --body soft`,
		ValidArgsFunction: e.completePigments,
		RunE: orHelp(func(cmd *cobra.Command, args []string) error {
			q.Pigments = args
			w, err := e.open()
			if err != nil {
				return err
			}
			entry, err := q.Entry(w)
			if err != nil {
				return usage(err)
			}
			return e.add(w, entry)
		}),
	}
	ask.BindFlags(cmd.Flags(), q.Fields())
	return cmd
}

// add writes an entry and shows it with what it taught.
func (e *env) add(w *ask.Workshop, entry book.Entry) error {
	entry, err := e.batches().Add(entry)
	if err != nil {
		return err
	}
	l, err := e.read(w)
	if err != nil {
		return err
	}
	page, err := e.page(w, l, &entry)
	if err != nil {
		return err
	}
	page.New = true
	return e.write(render.BookPageSheet(page), render.BookPageView(page, e.explain))
}

// page works out what an entry comes to.
func (e *env) page(w *ask.Workshop, l *ask.Ledger, entry *book.Entry) (render.BookPage, error) {
	page := render.BookPage{Dir: e.batches().Dir, Entry: render.BookLine{Entry: entry, Oil: l.OilPerPowder(entry)}}
	for _, f := range e.unread {
		if f.File == entry.File {
			page.Unread = append(page.Unread, f)
		}
	}
	if len(page.Unread) > 0 {
		return page, nil
	}
	var of, lot string
	switch {
	case entry.Batch != nil:
		b, err := l.Batch(entry)
		if err != nil {
			return page, err
		}
		if page.Batch, err = formulate.BatchOf(formulate.BatchRequest{Batch: b, Sampling: e.sampling()}); err != nil {
			return page, fmt.Errorf("%s: %w", entry.File, err)
		}
		if len(b.Pigments)+len(b.Extenders) == 1 && page.Batch.Critical {
			of, lot = b.Pigments[0].Material.ID, b.Pigments[0].Lot
		}
	case entry.RubOut != nil:
		of, lot = entry.RubOut.ID, entry.RubOut.Lot
	}
	if of == "" {
		return page, nil
	}
	mull, err := ask.LearnMull(w, e.sampling())
	if err != nil {
		return page, err
	}
	page.Learn, err = l.Learn(of, &lot, mull)
	return page, err
}

func newBookList(e *env) *cobra.Command {
	var lot string
	var last int
	cmd := &cobra.Command{
		Use:   "list [PIGMENT]",
		Short: "List the entries, all or those of one pigment",
		Example: `  mullwright book list
  mullwright book list prussian-blue --lot A12
  mullwright book list --last 20`,
		Args:              cobra.MaximumNArgs(1),
		ValidArgsFunction: e.completePigments,
		RunE: func(cmd *cobra.Command, args []string) error {
			if last < 0 {
				return usage(fmt.Errorf("--last: %d is not a count", last))
			}
			l, err := e.list(args, cmd.Flags().Changed("lot"), lot, last)
			if err != nil {
				return err
			}
			return e.write(render.BookListSheet(l), render.BookListView(l))
		},
	}
	cmd.Flags().StringVar(&lot, "lot", "", "only this lot")
	cmd.Flags().IntVar(&last, "last", 0, "only so many, the last ones")
	return cmd
}

// list picks entries of the book.
func (e *env) list(args []string, byLot bool, lot string, last int) (render.BookList, error) {
	out := render.BookList{Dir: e.batches().Dir}
	w, err := e.open()
	if err != nil {
		return out, err
	}
	l, err := e.read(w)
	if err != nil {
		return out, err
	}
	id := ""
	if len(args) == 1 {
		m, err := w.Material(args[0])
		if err != nil {
			return out, err
		}
		id = m.ID
	}
	out.All, out.Unread = len(l.Entries), e.unread
	for i := range l.Entries {
		x := &l.Entries[i]
		if (id == "" || x.Names(id)) && (!byLot || x.Of(lot)) {
			out.Entries = append(out.Entries, render.BookLine{Entry: x, Oil: l.OilPerPowder(x)})
		}
	}
	if more := len(out.Entries) - last; last > 0 && more > 0 {
		out.Entries = out.Entries[more:]
	}
	return out, nil
}

func newBookShow(e *env) *cobra.Command {
	return &cobra.Command{
		Use:     "show NUMBER",
		Short:   "Show one entry with all it comes to",
		Example: "  mullwright book show 12",
		Args:    anEntry,
		RunE: func(cmd *cobra.Command, args []string) error {
			w, l, entry, err := e.find(args[0])
			if err != nil {
				return err
			}
			page, err := e.page(w, l, entry)
			if err != nil {
				return err
			}
			return e.write(render.BookPageSheet(page), render.BookPageView(page, e.explain))
		},
	}
}

// find opens the book at an entry.
func (e *env) find(what string) (*ask.Workshop, *ask.Ledger, *book.Entry, error) {
	w, err := e.open()
	if err != nil {
		return nil, nil, nil, err
	}
	l, err := e.read(w)
	if err != nil {
		return nil, nil, nil, err
	}
	entry, err := e.batches().Find(what)
	var missing *book.MissingError
	if errors.As(err, &missing) {
		err = usage(err)
	}
	return w, l, entry, err
}

func newBookRepeat(e *env) *cobra.Command {
	var q ask.BookRepeat
	cmd := &cobra.Command{
		Use:   "repeat NUMBER",
		Short: "Scale an old batch to a new amount",
		Long: `Scales an old batch to a new amount, from the weights that were final then, and
says how to pour its oil. Where stock is counted it says what would run short.`,
		Example: `  mullwright book repeat 12 --tubes 3x40ml
  mullwright book repeat 12 --pigment-mass 150g --format json`,
		Args: anEntry,
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := ask.Conflicts(q.Fields()); err != nil {
				return usage(err)
			}
			_, l, entry, err := e.find(args[0])
			if err != nil {
				return err
			}
			req, err := q.Request(l, entry, e.sampling())
			if err != nil {
				return usage(err)
			}
			res, err := formulate.Repeat(req)
			if err != nil {
				return usage(err)
			}
			return e.write(render.RepeatSheet(entry, res), render.RepeatView(entry, res))
		},
	}
	ask.BindFlags(cmd.Flags(), q.Fields())
	return cmd
}

func newBookLearn(e *env) *cobra.Command {
	var out *outs
	cmd := &cobra.Command{
		Use:   "learn [PIGMENT]",
		Short: "What your own tests and batches taught, beside the catalogue",
		Long: `Sets the catalogue's range beside your own, pigment by pigment: the oil
absorption as your rub-outs narrow it, the oil at tube colour as your batches
do, and how far the first pour moved. With one pigment it goes jar by jar, says
which next test would narrow most, and names entries that do not fit.`,
		Example: `  mullwright book learn
  mullwright book learn prussian-blue --jar prussian-blue=A12 --explain`,
		Args:              cobra.MaximumNArgs(1),
		ValidArgsFunction: e.completePigments,
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := out.check(); err != nil {
				return err
			}
			if len(args) == 0 {
				if err := out.none("a picture is of one pigment; name it"); err != nil {
					return err
				}
			}
			w, err := e.open()
			if err != nil {
				return err
			}
			l, err := e.read(w)
			if err != nil {
				return err
			}
			mull, err := ask.LearnMull(w, e.sampling())
			if err != nil {
				return err
			}
			if len(args) == 1 {
				m, err := w.PigmentNamed(args[0])
				if err != nil {
					return err
				}
				r, err := l.Learn(m.ID, e.jarOf(m.ID), mull)
				if err != nil {
					return usage(err)
				}
				if err := out.write(e, draws{"narrowing": func() ([]*picture.Drawing, error) {
					d, shown, err := show.DrawNarrowing(r, 0)
					if err == nil && !shown {
						err = usage(fmt.Errorf("--out: the book holds no test of %s to show", m.ID))
					}
					return []*picture.Drawing{d}, err
				}}); err != nil {
					return err
				}
				return e.write(render.LearnSheet(r, e.explain), render.LearnView(r, e.explain))
			}
			list := render.LearnList{Dir: e.batches().Dir, Unread: e.unread}
			for _, id := range l.Pigments() {
				r, err := l.Learn(id, e.jarOf(id), mull)
				if err != nil {
					return err
				}
				list.Of = append(list.Of, r)
			}
			return e.write(render.LearnListSheet(list), render.LearnListView(list, e.explain))
		},
	}
	out = outFlag(cmd, svg("narrowing"))
	return cmd
}

func newBookStock(e *env) *cobra.Command {
	var q ask.BookStock
	cmd := &cobra.Command{
		Use:   "stock [NAME=AMOUNT...]",
		Short: "What is on hand, and what it cost: count it, or see what is left",
		Long: `Alone it lists what is on hand. With amounts it writes down a count; from then
on each batch goes off it, and a formula that needs more than there is says by
how much. --bought adds to a count, --price sets what a material costs; NAME=none
says that a jar is empty.`,
		Example: `  mullwright book stock prussian-blue=250g linseed-oil=1l --price prussian-blue=0.12/g
  mullwright book stock --bought prussian-blue=100g
  mullwright book stock`,
		RunE: func(cmd *cobra.Command, args []string) error {
			w, err := e.open()
			if err != nil {
				return err
			}
			q.Counted = args
			if len(q.Counted)+len(q.Bought)+len(q.Prices) > 0 {
				entry, err := q.Entry(w)
				if err != nil {
					return usage(err)
				}
				if _, err := e.batches().Add(entry); err != nil {
					return err
				}
			} else if q.Date != "" || q.Remark != "" {
				return usage(errors.New("a date or a remark, but nothing counted, bought or priced"))
			}
			l, err := e.read(w)
			if err != nil {
				return err
			}
			dir := e.batches().Dir
			return e.write(render.StockSheet(dir, l.Stock(), e.unread), render.StockView(dir, l.Stock(), e.unread))
		},
	}
	ask.BindFlags(cmd.Flags(), q.Fields())
	return cmd
}

func newBookExport(e *env) *cobra.Command {
	return &cobra.Command{
		Use:   "export",
		Short: "The whole book as CSV (one row a material) or JSON",
		Example: `  mullwright book export > book.csv
  mullwright book export --format json > book.json`,
		Args: cobra.NoArgs,
		RunE: func(cmd *cobra.Command, args []string) error {
			switch render.Format(e.format) {
			case render.Text:
				e.format = string(render.CSV)
			case render.Markdown:
				return usage(errors.New("--format: the book is exported as csv or json"))
			}
			l, err := e.list(nil, false, "", 0)
			if err != nil {
				return err
			}
			if len(e.unread) > 0 {
				fmt.Fprintf(e.Err, "mullwright: left out of the batch book, unread: %s; see 'mullwright book list'\n", files(e.unread))
			}
			return e.write(render.BookExport(l), render.BookListView(l))
		},
	}
}
