// Mullwright works out oil paint, watercolour and ink from dry pigment.
package main

import (
	"os"

	"mullwright/cmd/mullwright/internal/cli"
)

func main() { os.Exit(cli.Main(os.Args[1:], cli.System())) }
