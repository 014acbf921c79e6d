package text

import (
	"fmt"
	"io"

	"standclear/hazards"
	"standclear/report/words"
)

// adviceLine writes below the reason of a verdict what would make it hold, where
// there is something to say.
func adviceLine(w io.Writer, list []hazards.Advice, model bool) {
	if s := words.Default().Advice(list, model); s != "" {
		fmt.Fprintf(w, "  \t\t%s\n", s)
	}
}
