// Package words holds the fixed wording of everything that leaves the house.
// The texts are data, templates/words/words.yaml; writers name them by key.
package words

import (
	"fmt"
	"io/fs"
	"sync"

	"standclear/limits/source"
	"standclear/templates"
)

// File is where the wording stands in the templates.
const File = "words/words.yaml"

// Word is one word of a closed vocabulary, as a reader sees it.
type Word struct {
	source.Item
	Word   string `yaml:"word,required" means:"as printed in tables"`
	Means  string `yaml:"means,required" means:"what it says, in a sentence or less"`
	Footer string `yaml:"footer" means:"as printed at the foot of every page"`
}

// Vocabulary gives plain words for the words of the contract.
type Vocabulary source.Map[Word]

// Of gives a word; what is not in the vocabulary stands for itself.
func (v Vocabulary) Of(key string) Word {
	for i := range v {
		if v[i].Key == key {
			return v[i].Value
		}
	}
	return Word{Word: key, Means: key}
}

// Has tells whether the vocabulary holds the word.
func (v Vocabulary) Has(key string) bool {
	for i := range v {
		if v[i].Key == key {
			return true
		}
	}
	return false
}

// Texts are texts by key.
type Texts source.Map[string]

// Find gives a text, false when there is none.
func (t Texts) Find(key string) (string, bool) {
	for i := range t {
		if t[i].Key == key {
			return t[i].Value, true
		}
	}
	return "", false
}

// Words is all the wording.
type Words struct {
	Verdicts  Vocabulary // of checks
	Document  Vocabulary // states of the document
	Rows      Vocabulary // states of hazard rows
	Points    Vocabulary // states of validation points
	Open      Vocabulary // kinds of open points
	Standings Vocabulary // of published values
	Origins   Vocabulary // of inputs
	Steps     Vocabulary // of measures
	Decisions Vocabulary // about residual risk
	Actions   Vocabulary // that a risk level asks for
	Classes   Vocabulary // of contacts
	Headings  Texts
	Labels    Texts
	Sentences Texts
	Cautions  []string
}

// statement is the file as written.
type statement struct {
	source.Item
	Verdicts  source.Map[Word]   `yaml:"verdicts,required"`
	Document  source.Map[Word]   `yaml:"document,required"`
	Rows      source.Map[Word]   `yaml:"rows,required"`
	Points    source.Map[Word]   `yaml:"points,required"`
	Open      source.Map[Word]   `yaml:"open,required"`
	Standings source.Map[Word]   `yaml:"standings,required"`
	Origins   source.Map[Word]   `yaml:"origins,required"`
	Steps     source.Map[Word]   `yaml:"steps,required"`
	Decisions source.Map[Word]   `yaml:"decisions,required"`
	Actions   source.Map[Word]   `yaml:"actions,required"`
	Classes   source.Map[Word]   `yaml:"classes,required"`
	Headings  source.Map[string] `yaml:"headings,required"`
	Labels    source.Map[string] `yaml:"labels,required"`
	Sentences source.Map[string] `yaml:"sentences,required"`
	Cautions  []string           `yaml:"cautions,required"`
}

// Load reads the wording from a folder laid out as templates/ is.
func Load(fsys fs.FS) (*Words, []source.Problem) {
	var ps source.Problems
	data, err := fs.ReadFile(fsys, File)
	if err != nil {
		ps.Addf(source.Pos{File: File, Line: 1, Col: 1}, "cannot read: %v", err)
		return nil, ps.List()
	}
	var st statement
	source.Decode(source.Parse(File, data, &ps), &st, &ps)
	if ps.Len() > 0 {
		return nil, ps.List()
	}
	return &Words{
		Verdicts: Vocabulary(st.Verdicts), Document: Vocabulary(st.Document), Rows: Vocabulary(st.Rows),
		Points: Vocabulary(st.Points), Open: Vocabulary(st.Open), Standings: Vocabulary(st.Standings),
		Origins: Vocabulary(st.Origins), Steps: Vocabulary(st.Steps), Decisions: Vocabulary(st.Decisions),
		Actions: Vocabulary(st.Actions), Classes: Vocabulary(st.Classes),
		Headings: Texts(st.Headings), Labels: Texts(st.Labels), Sentences: Texts(st.Sentences), Cautions: st.Cautions,
	}, nil
}

// Default gives the embedded wording. It panics when that cannot be read, which
// is a fault of the program and is tested.
var Default = sync.OnceValue(func() *Words {
	w, problems := Load(templates.FS)
	if len(problems) > 0 {
		panic(fmt.Sprintf("words: %s: %s", problems[0].Pos, problems[0].Message))
	}
	return w
})

// Heading gives a heading.
func (w *Words) Heading(key string) string { return must(w.Headings, "heading", key) }

// Label gives a label, with values put in where it has room for them.
func (w *Words) Label(key string, args ...any) string {
	return put(must(w.Labels, "label", key), args)
}

// Sentence gives a sentence, with values put in where it has room for them.
func (w *Words) Sentence(key string, args ...any) string {
	return put(must(w.Sentences, "sentence", key), args)
}

func put(text string, args []any) string {
	if len(args) == 0 {
		return text
	}
	return fmt.Sprintf(text, args...)
}

// must gives a text. A key that is not there is a fault of the program; it shows
// in the output rather than stopping it, and tests look for it.
func must(t Texts, kind, key string) string {
	if text, ok := t.Find(key); ok {
		return text
	}
	return "⟨" + kind + " " + key + "⟩"
}
