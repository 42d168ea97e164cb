package cli

import (
	"errors"
	"fmt"
	"io/fs"
	"strings"

	"mullwright/cmd/mullwright/internal/ask"
	"mullwright/cmd/mullwright/internal/newfile"
)

// isFormula reports whether an argument names a formula file rather than a
// material.
func isFormula(arg string) bool { return strings.HasSuffix(arg, ".toml") }

// fromArgs fills a question from the command line: arguments are materials, or
// one formula file over which the flags are laid. base is where the answer
// goes, given what the flags filled; both list the same fields.
func fromArgs(args []string, table string, materials *[]string, base, given []ask.Field) error {
	return fromArgsBy(args, materials, base, given, func(file, text string) error { return ask.Load(file, text, table, base) })
}

// fromArgsBy is fromArgs with the reading of the formula file left to load.
func fromArgsBy(args []string, materials *[]string, base, given []ask.Field, load func(file, text string) error) error {
	file := ""
	for _, a := range args {
		if isFormula(a) {
			if file != "" {
				return usage(fmt.Errorf("two formula files are given, %s and %s; give one", file, a))
			}
			file = a
			continue
		}
		*materials = append(*materials, a)
	}
	if err := ask.Conflicts(given); err != nil {
		return usage(err)
	}
	if file != "" {
		text, err := ask.ReadFile(file)
		if err != nil {
			return err
		}
		if err := load(file, text); err != nil {
			return err
		}
	}
	ask.Override(base, given)
	return nil
}

// saveEntry writes a catalogue entry of the maker's own to a file that does not
// exist yet, and says so; failed is what kept it from being made.
func (e *env) saveEntry(path, text string, failed error) error {
	if failed != nil {
		return usage(failed)
	}
	if err := writeNew(path, []byte(text)); err != nil {
		return err
	}
	fmt.Fprintf(e.Err, "wrote %s (catalogue file)\n", path)
	return nil
}

// saveFormula writes the question to a file that does not exist yet, where one is
// named.
func saveFormula(path, table string, fields []ask.Field) error {
	if path == "" {
		return nil
	}
	text, err := ask.Save(table, fields)
	if err != nil {
		return err
	}
	return writeNew(path, []byte(text))
}

// writeNew writes a file whole or not at all, and never over another.
func writeNew(path string, data []byte) error {
	err := newfile.Write(path, data)
	switch {
	case errors.Is(err, fs.ErrExist):
		return taken(path)
	case err != nil:
		return fmt.Errorf("%s cannot be written: %w", path, err)
	}
	return nil
}

func taken(path string) error {
	return fmt.Errorf("%s is there already; it is left as it is, choose another name", path)
}
