package cli

import (
	"context"
	"fmt"
	"net"
	"os"
	"os/exec"
	"os/signal"
	"runtime"
	"runtime/debug"
	"strings"
	"syscall"

	"github.com/spf13/cobra"

	"mullwright/cmd/mullwright/internal/page"
)

// defaultPageAddr is this machine alone, on a port that the system chooses.
const defaultPageAddr = "127.0.0.1:0"

// roomToAnswer is how far memory may grow before it is tidied, in per cent of
// what is in use. An answer needs a megabyte for a moment; at Go's usual 100 the
// tidying of 200 answers a second made one in a hundred of them ten times slower.
const roomToAnswer = 400

func newPage(e *env) *cobra.Command {
	var addr string
	var open bool
	cmd := &cobra.Command{
		Use:     "page [--addr ADDRESS:PORT] [--open]",
		Short:   "The bench page: the same questions in a browser, beside the slab",
		GroupID: "tool",
		Long: `Page answers the same questions in a browser, for a phone or tablet beside the
slab: choose pigments by looking, set amount and body by slider, see the oil dial
and the card change. It prints its address and runs until it is interrupted.

Everything it shows is inside this program; it fetches nothing. It listens on
this machine alone unless --addr says otherwise. On another address everyone who
can reach this machine can use it: --addr 0.0.0.0:8040 lets phones in the same
room ask it.`,
		Example: `  mullwright page --open
  mullwright page --addr 127.0.0.1:8040
  mullwright page --addr 0.0.0.0:8040`,
		Args: cobra.NoArgs,
		RunE: func(cmd *cobra.Command, args []string) error {
			if e.Getenv("GOGC") == "" {
				debug.SetGCPercent(roomToAnswer)
			}
			bench, err := page.New(e.openDesk, e.sampling())
			if err != nil {
				return err
			}
			if _, _, err := net.SplitHostPort(addr); err != nil {
				return usage(fmt.Errorf("--addr: %q is not an address; want ADDRESS:PORT, as in %s or 0.0.0.0:8040", addr, defaultPageAddr))
			}
			l, err := net.Listen("tcp", addr)
			if err != nil {
				return fmt.Errorf("--addr: cannot listen on %q: %w", addr, cause(err))
			}
			hosts := page.HostsOf(l.Addr())
			if !hosts.Local() {
				fmt.Fprintf(e.Err, "mullwright: %s is open to everyone who can reach this machine, without a password and unencrypted\n", l.Addr())
			}
			at := "http://" + hosts.Call() + "/"
			fmt.Fprintf(e.Out, "%s\n", at)
			fmt.Fprintln(e.Err, "The bench page is open; interrupt (Ctrl-C) to close it.")
			if open {
				if err := openBrowser(at); err != nil {
					fmt.Fprintf(e.Err, "mullwright: no browser could be opened (%v); open the address yourself\n", err)
				}
			}
			ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
			defer stop()
			return bench.Serve(ctx, l)
		},
	}
	cmd.Flags().StringVar(&addr, "addr", defaultPageAddr, "address and port to listen on; port 0 is one that is free")
	cmd.Flags().BoolVar(&open, "open", false, "open it in a browser")
	return cmd
}

// cause is an error of the network without what the message around it says.
func cause(err error) error {
	if op, ok := err.(*net.OpError); ok && op.Err != nil {
		return op.Err
	}
	return err
}

// openBrowser hands an address to whatever opens addresses on this system.
func openBrowser(at string) error {
	name, args := "xdg-open", []string{at}
	switch runtime.GOOS {
	case "darwin":
		name = "open"
	case "windows":
		name, args = "rundll32", []string{"url.dll,FileProtocolHandler", at}
	}
	c := exec.Command(name, args...)
	if err := c.Start(); err != nil {
		return fmt.Errorf("%s", strings.TrimPrefix(err.Error(), "exec: "))
	}
	go c.Wait()
	return nil
}
