// Package cli is the command line: it turns flags into a request, calls a
// decision and chooses a renderer. It knows no physics.
//
// Every question goes one way: --out is looked over before any work, help is shown
// where nothing was given, the question is filled from arguments, file and flags;
// then come answer (open, request, decide), --save, pictures and the answer itself.
// A command's file holds what is its own: its words, its fields, its decision and
// its renderer.
package cli

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"strings"

	"github.com/spf13/cobra"
	"golang.org/x/term"

	"mullwright/cmd/mullwright/internal/ask"
	"mullwright/cmd/mullwright/internal/render"
	"mullwright/formulate"
	"mullwright/formulate/material"
	"mullwright/formulate/shelf"
	"mullwright/formulate/strict"
)

// Exit codes, in one place.
const (
	ExitOK      = 0
	ExitFailure = 1 // the work could not be done
	ExitUsage   = 2 // the question was not understood
)

// Streams is the world outside: what a test replaces.
type Streams struct {
	In     io.Reader
	Out    io.Writer
	Err    io.Writer
	Getenv func(string) string
	// ConfigDir is the user's configuration folder, DataDir that for data; "" for
	// none.
	ConfigDir, DataDir string
	// Width is the terminal's width, 0 where Out is no terminal.
	Width int
	// ErrTerminal is set where Err is a terminal.
	ErrTerminal bool
}

// System is the real world.
func System() Streams {
	s := Streams{In: os.Stdin, Out: os.Stdout, Err: os.Stderr, Getenv: os.Getenv}
	if dir, err := os.UserConfigDir(); err == nil {
		s.ConfigDir = dir
	}
	s.DataDir = dataDir(runtime.GOOS, os.Getenv)
	s.ErrTerminal = term.IsTerminal(int(os.Stderr.Fd()))
	if w, _, err := term.GetSize(int(os.Stdout.Fd())); err == nil {
		s.Width = w
	}
	return s
}

// dataDir is the user's folder for data on a system, "" where none is known.
func dataDir(system string, getenv func(string) string) string {
	if dir := getenv("XDG_DATA_HOME"); filepath.IsAbs(dir) {
		return dir
	}
	home := getenv("HOME")
	switch {
	case system == "windows":
		return getenv("LocalAppData")
	case home == "":
		return ""
	case system == "darwin":
		return filepath.Join(home, "Library", "Application Support")
	}
	return filepath.Join(home, ".local", "share")
}

// env is what every command shares: the streams and the global flags.
type env struct {
	Streams
	format     string
	explain    bool
	catalogues []string
	exact      bool
	draws      int
	seed       uint64
	bookDir    string
	ignoreBook bool
	jars       []string

	workshop *ask.Workshop
	ledger   *ask.Ledger
	lots     map[string]string    // the jars, by pigment
	tested   []*material.Material // those whose figures rest on the maker's own tests
	unread   strict.Faults        // files of the book that could not be read
}

// usageError marks an error in the question rather than in the work.
type usageError struct{ err error }

func (u usageError) Error() string { return u.err.Error() }
func (u usageError) Unwrap() error { return u.err }

func usage(err error) error {
	if err == nil {
		return nil
	}
	return usageError{err}
}

// Main runs the program and returns its exit code.
func Main(args []string, s Streams) int {
	e := &env{Streams: s}
	root := newRoot(e)
	root.SetArgs(args)
	root.SetIn(s.In)
	root.SetOut(s.Out)
	root.SetErr(s.Err)
	err := knownCommand(root, args)
	if err == nil {
		err = root.Execute()
	}
	if err == nil {
		return ExitOK
	}
	code := exitCode(err)
	fmt.Fprintf(s.Err, "mullwright: %s\n", oneLine(err))
	return code
}

// knownCommand refuses a first word that names no command, before its flags are
// blamed.
func knownCommand(root *cobra.Command, args []string) error {
	if len(args) > 0 && args[0] == "help" {
		args = args[1:]
	}
	if len(args) == 0 || strings.HasPrefix(args[0], "-") || strings.HasPrefix(args[0], cobra.ShellCompRequestCmd) || args[0] == "completion" || args[0] == "help" {
		return nil
	}
	if found, _, err := root.Find(args[:1]); err == nil && found != root {
		return nil
	}
	return unknownCommand(root, args[0])
}

// Command is the whole command tree, for whoever documents it.
func Command(s Streams) *cobra.Command { return newRoot(&env{Streams: s}) }

// exitCode tells a question that was not understood from work that failed.
func exitCode(err error) int {
	var (
		u       usageError
		field   *ask.FieldError
		unknown *shelf.UnknownError
		ambig   *shelf.AmbiguousError
		faults  strict.Faults
	)
	switch {
	case errors.As(err, &u), errors.As(err, &field), errors.As(err, &unknown), errors.As(err, &ambig), errors.As(err, &faults):
		return ExitUsage
	}
	return ExitFailure
}

// oneLine puts a flag in front of a field's name, as it was typed.
func oneLine(err error) string {
	var field *ask.FieldError
	if errors.As(err, &field) && field.Field != "pigment" {
		return strings.Replace(err.Error(), field.Field+": ", "--"+field.Field+": ", 1)
	}
	return err.Error()
}

func (e *env) sampling() formulate.Sampling {
	return formulate.Sampling{Draws: e.draws, Seed: e.seed, Exact: e.exact}
}

// open opens the catalogues, once.
func (e *env) open() (*ask.Workshop, error) {
	if e.workshop != nil {
		return e.workshop, nil
	}
	w, err := ask.Open(e.ConfigDir, e.catalogues)
	if err != nil {
		return nil, err
	}
	if err := e.useBook(w); err != nil {
		return nil, err
	}
	e.workshop = w
	return w, nil
}

// width is the line length to write at.
func (e *env) width() int {
	if e.Width <= 0 {
		return render.Width
	}
	return min(max(e.Width, 50), 100)
}

// write sends a result out in the format asked for.
func (e *env) write(sheet *render.Sheet, view any) error {
	return render.Write(e.Out, render.Format(e.format), e.width(), sheet, view)
}
