package cli

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
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

// useBook lets every answer rest on what the maker's own book has taught, and on
// the jar in use. Nothing is read before a material is asked for.
func (e *env) useBook(w *ask.Workshop) error {
	var mu sync.Mutex
	known := map[string]formulate.Ingredient{}
	warned := false
	none := ask.NewLedger(w, nil)
	ledger := func() (*ask.Ledger, error) {
		if e.ignoreBook {
			return none, nil
		}
		l, err := e.read(w)
		if err == nil && len(e.unread) > 0 && !warned {
			warned = true
			fmt.Fprintf(e.Err, "mullwright: left out of the batch book, unread: %s; see 'mullwright book list'\n", files(e.unread))
		}
		return l, err
	}
	if err := e.readJars(w, ledger); err != nil {
		return err
	}
	w.Fits = func(entry *book.Entry) error {
		mu.Lock()
		l, err := ledger()
		mu.Unlock()
		if err != nil {
			return err
		}
		return l.Fits(entry)
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
		if jar := e.jarOf(id); l.Holds(id) || jar != nil {
			r, err := l.Learn(id, jar, nil)
			if err != nil {
				return in, err
			}
			in = r.Pigment
		}
		in.OnHand = l.OnHand(id)
		known[id] = in
		if in.Material.Tests != "" {
			e.tested = append(e.tested, in.Material)
		}
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

// newJar stands for a jar that nothing was tested of.
const newJar = "new"

// readJars reads --jar NAME=LOT, each a jar that the book or a catalogue file
// holds tests of.
func (e *env) readJars(w *ask.Workshop, ledger func() (*ask.Ledger, error)) error {
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
		lot = strings.TrimSpace(lot)
		l, err := ledger()
		if err != nil {
			return err
		}
		if jars := l.Jars(m); lot != newJar && !slices.Contains(jars, lot) {
			return usage(fmt.Errorf("--jar: no test of a jar %q of %s is written down; %s", lot, m.ID, jarsText(m.ID, jars)))
		}
		e.lots[m.ID] = lot
	}
	return nil
}

// jarsText says which jars may be named.
func jarsText(id string, jars []string) string {
	if len(jars) == 0 {
		return "none is of any of its jars; leave --jar out"
	}
	words := make([]string, len(jars))
	for i, lot := range jars {
		words[i] = lot
		if lot == "" {
			words[i] = `"" (not named)`
		}
	}
	return fmt.Sprintf("known: %s; or say %s=%s for a jar without tests", strings.Join(words, ", "), id, newJar)
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
you are using where you have had several, NAME=new for one without tests.

An entry that lies too far from what is published, where 1 in 1000 would lie by
chance (a predictive z beyond 3.29), is most often a slip: 'add' refuses it unless
you are --sure, and where it stands in the book it is not used unless its file
says sure = true. 'strike' takes an entry out of account and deletes nothing.`,
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
	cmd.AddCommand(newBookAdd(e), newBookList(e), newBookShow(e), newBookRepeat(e), newBookLearn(e), newBookStrike(e), newBookStock(e), newBookExport(e))
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
of. Lots and dates are your own words.

An entry whose oil the catalogue gives a chance under 1 in 1000 (a predictive z
beyond 3.29) is refused: it is most often a slip. Say --sure where it is right.`,
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

// keep writes an entry into the book, which is then read anew.
func (e *env) keep(entry book.Entry) (book.Entry, error) {
	entry, err := e.batches().Add(entry)
	e.ledger = nil
	return entry, err
}

// add writes an entry and shows it with what it taught.
func (e *env) add(w *ask.Workshop, entry book.Entry) error {
	entry, err := e.keep(entry)
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
	if read := l.Entry(entry.File); read != nil {
		entry = read // it knows whether it is struck
	}
	page := render.BookPage{Dir: e.batches().Dir, Entry: render.BookLine{Entry: entry, Oil: l.OilPerPowder(entry)}}
	for _, f := range e.unread {
		if f.File == entry.File {
			page.Unread = append(page.Unread, f)
		}
	}
	if len(page.Unread) > 0 || entry.StruckBy != 0 {
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
	if err != nil {
		return nil, nil, nil, err
	}
	if read := l.Entry(entry.File); read != nil {
		entry = read // it knows whether it is struck
	}
	return w, l, entry, nil
}

func newBookStrike(e *env) *cobra.Command {
	var date, remark string
	cmd := &cobra.Command{
		Use:   "strike NUMBER",
		Short: "Take an entry out of account, or bring it back",
		Long: `Takes an entry out of account: it teaches nothing and uses up no stock. Nothing
is deleted or changed; the strike is an entry of its own, which names the other.
To bring an entry back, strike its strike.`,
		Example: `  mullwright book strike 5 --remark "the scale was in ounces"
  mullwright book strike 6`,
		Args: anEntry,
		RunE: func(cmd *cobra.Command, args []string) error {
			_, l, entry, err := e.find(args[0])
			if err != nil {
				return err
			}
			if l.Carrying(entry.Number) > 1 {
				return usage(fmt.Errorf("more than one file carries the number %d; rename one of them first", entry.Number))
			}
			if entry.StruckBy != 0 {
				return usage(fmt.Errorf("entry %d is struck already, by entry %d; 'mullwright book strike %d' brings it back", entry.Number, entry.StruckBy, entry.StruckBy))
			}
			strike, err := e.keep(book.Entry{Date: date, Remark: remark, Strike: &book.Strike{Entry: entry.Number}})
			if err != nil {
				return err
			}
			b := render.BookStrike{Dir: e.batches().Dir, Strike: &strike, Struck: entry}
			return e.write(render.StrikeSheet(b), render.StrikeView(b))
		},
	}
	cmd.Flags().StringVar(&date, "date", "", "when, in your words")
	cmd.Flags().StringVar(&remark, "remark", "", "why, in your words")
	return cmd
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
which next test would narrow most, and names entries that do not fit, and which
of those are not used.`,
		Example: `  mullwright book learn
  mullwright book learn prussian-blue --jar prussian-blue=A12 --explain`,
		Args:              cobra.MaximumNArgs(1),
		ValidArgsFunction: e.completePigments,
		RunE: func(cmd *cobra.Command, args []string) error {
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
				if _, err := e.keep(entry); err != nil {
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
