// Command standclear turns the description of a robot cell in which people and
// robot share space into a risk assessment: a live workbook and a summary.
package main

import (
	"errors"
	"fmt"
	"io"
	"os"

	"github.com/spf13/cobra"

	"standclear/limits/source"
)

// Version of the program; it is printed in every output.
const Version = "0.1.0"

// Exit codes.
const (
	exitDone     = 0 // done, and nothing open
	exitFindings = 1 // done, and there are findings, open points or differences
	exitInput    = 2 // the input cannot be used; nothing was written
	exitWrite    = 3 // cannot write, or an internal error
)

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// run carries out one command line and gives the exit code.
func run(args []string, stdout, stderr io.Writer) (code int) {
	defer func() {
		if p := recover(); p != nil {
			fmt.Fprintf(stderr, "standclear: %v\n", panicked{p})
			code = exitWrite
		}
	}()
	out := &checked{w: stdout}
	root := rootCommand()
	root.SetArgs(args)
	root.SetOut(out)
	root.SetErr(stderr)
	err := root.Execute()
	if out.err != nil { // half an answer is none
		err = writeFailure(out.err)
	}
	var known *failure
	switch {
	case err == nil:
		return exitDone
	case errors.As(err, &known):
		known.print(stderr)
		return known.code
	}
	fmt.Fprintf(stderr, "standclear: %v\nTry `standclear --help`.\n", err)
	return exitInput
}

// checked remembers the first failure of a writer, since printing does not look
// at every one.
type checked struct {
	w   io.Writer
	err error
}

// Write writes until something fails.
func (c *checked) Write(data []byte) (int, error) {
	if c.err != nil {
		return 0, c.err
	}
	n, err := c.w.Write(data)
	c.err = err
	return n, err
}

func rootCommand() *cobra.Command {
	root := &cobra.Command{
		Use:   "standclear",
		Short: "Risk assessment of a robot cell that people share, as a live workbook and a summary",
		Long: `standclear reads one assessment file of a robot cell that people and robot share, works out
contacts, distances and safety functions, judges rows and evidence, and writes a live workbook,
a summary and JSON. It drafts; a competent, where required licensed, person decides.`,
		Example: `  standclear demo -o out
  standclear check cell.yaml
  standclear build cell.yaml -o out
  standclear calc light-curtain T="0.311 s" d="30 mm" available="700 mm" C_RO="0 mm" under=no behind=no`,
		SilenceUsage:  true,
		SilenceErrors: true,
	}
	root.AddCommand(demoCommand(), newCommand(), checkCommand(), suggestCommand(), buildCommand(), calcCommand(), estimateCommand(), sheetsCommand(), explainCommand(), versionCommand())
	return root
}

// failure ends a command with a code; it says what it says, or nothing.
type failure struct {
	code     int
	message  string
	problems []source.Problem
	texts    map[string][]byte
}

// Error gives the message.
func (f *failure) Error() string { return f.message }

func (f *failure) print(w io.Writer) {
	if len(f.problems) > 0 {
		source.Render(w, f.problems, func(file string) []byte { return f.texts[file] })
		n := "1 problem"
		if len(f.problems) > 1 {
			n = fmt.Sprintf("%d problems", len(f.problems))
		}
		fmt.Fprintf(w, "standclear: %s; nothing was written\n", n)
		return
	}
	if f.message != "" {
		fmt.Fprintf(w, "standclear: %s\n", f.message)
	}
}

// findings ends a command that did its work and found something.
var findings = &failure{code: exitFindings}

func inputFailure(format string, args ...any) error {
	return &failure{code: exitInput, message: fmt.Sprintf(format, args...)}
}

// panicked is an internal error: a mistake of the program, not of its input.
type panicked struct{ value any }

// Error asks for a report.
func (p panicked) Error() string {
	return fmt.Sprintf("internal error: %v; nothing was written, please report this with the input that led to it", p.value)
}

func writeFailure(err error) error {
	return &failure{code: exitWrite, message: "cannot write: " + err.Error()}
}
