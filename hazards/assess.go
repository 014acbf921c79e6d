package hazards

import (
	"crypto/sha256"
	"encoding/hex"
	"sync"

	"standclear/hazards/estimate"
	"standclear/hazards/file"
	"standclear/hazards/identify"
	"standclear/hazards/place"
	"standclear/limits/expr"
	"standclear/limits/sheet"
	"standclear/limits/source"
	"standclear/limits/table"
	"standclear/templates"
)

// Options of an assessment.
type Options struct {
	Name      string              // base name of outputs
	Version   string              // version of the program
	Methods   []*estimate.Method  // methods of risk estimation; nil: those built in
	Findings  *FindingTexts       // rules of the trade; nil: those built in
	Places    []*place.Place      // places with their local rules; nil: those built in
	Catalogue *identify.Catalogue // hazards that are asked about; nil: those built in
	Files     []file.Read         // what it was built from, the assessment first; nil: that alone
}

// builtIn fills in what the options leave to the embedded data.
func (o *Options) builtIn(lib *sheet.Library) []source.Problem {
	var all []source.Problem
	if o.Methods == nil {
		list, problems := estimate.Load(templates.FS, lib)
		o.Methods, all = list, append(all, problems...)
	}
	if o.Findings == nil {
		texts, problems := builtInFindings()
		o.Findings, all = texts, append(all, problems...)
	}
	if o.Places == nil {
		list, problems := builtInPlaces()
		o.Places, all = list, append(all, problems...)
	}
	if o.Catalogue == nil {
		list, problems := builtInCatalogue()
		o.Catalogue, all = list, append(all, problems...)
	}
	return all
}

// The embedded data does not change, so that it is read once.
var (
	builtInFindings  = sync.OnceValues(func() (*FindingTexts, []source.Problem) { return LoadFindingTexts(templates.FS) })
	builtInCatalogue = sync.OnceValues(func() (*identify.Catalogue, []source.Problem) { return identify.Load(templates.FS) })
	builtInPlaces    = sync.OnceValues(func() ([]*place.Place, []source.Problem) { return place.Load(templates.FS) })
)

// Prefetch begins to read the embedded data, so that it is at hand once an
// assessment is loaded.
func Prefetch() {
	go builtInCatalogue()
	go builtInFindings()
	go builtInPlaces()
}

// Assess works out everything there is to say about an assessment. data are the
// bytes the assessment was loaded from. The problems are input errors that only
// the library can tell, all at once; the result is nil unless there are none.
func Assess(a *file.Assessment, data []byte, lib *sheet.Library, opt Options) (*Result, []source.Problem) {
	if problems := opt.builtIn(lib); len(problems) > 0 {
		return nil, problems
	}
	sum := sha256.Sum256(data)
	r := &Result{File: a, Library: lib, Name: opt.Name, Version: opt.Version, InputSHA256: hex.EncodeToString(sum[:]), Files: opt.Files,
		facts: map[string]int{}, contacts: map[string]int{}, checks: map[string]int{}, nominal: map[string]int{}}
	if r.Files == nil {
		r.Files = []file.Read{{Name: opt.Name + ".yaml", Data: data}}
	}
	w := &work{a: a, ix: a.Index(), lib: lib, areas: lib.Table("contact-areas"), regions: lib.Table("contact-regions"), r: r}
	if w.areas == nil || w.regions == nil || w.areas.Column("region") < 0 || w.regions.Column("least_gap") < 0 {
		w.ps.Addf(a.Pos(), "the library has no tables contact-areas and contact-regions")
		return nil, w.ps.List()
	}
	w.names(opt)
	w.facts()
	w.contacts()
	w.checks()
	w.rows()
	if w.ps.Len() > 0 {
		return nil, w.ps.List()
	}
	w.evidence()
	w.govern()
	w.advise()
	w.points()
	w.suggest(opt.Catalogue)
	w.r.Findings = Findings(w.r, opt.Findings)
	w.r.Review = Reviews(w.r, opt.Places)
	w.states(opt.Findings)
	w.handOver(opt.Places)
	w.ladders()
	w.speeds()
	w.against()
	w.open()
	w.sources()
	w.fingerprints()
	w.counts()
	return w.r, nil
}

// work is an assessment while it is worked out, one step in each file.
type work struct {
	a       *file.Assessment
	ix      *file.Index
	lib     *sheet.Library
	areas   *table.Table // body areas
	regions *table.Table // body regions
	r       *Result
	ps      source.Problems

	methods []*estimate.Method // all that could be in use
	known   map[string]*exact  // facts by path
	lenders map[string]*Check  // checks of the file by id, as far as they are worked out
	tried   map[*Check][][]expr.Value
	besides map[string]*Check // checks by other editions of their sheets
	beside  string            // edition that is worked out beside, "" for the one that counts
}
