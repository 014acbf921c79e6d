package main

import (
	"os"
	"path/filepath"

	"standclear/hazards/estimate"
	"standclear/hazards/file"
	"standclear/limits/sheet"
	"standclear/limits/source"
	"standclear/templates"
)

// folder is a folder of the user, and where a file names it.
type folder struct {
	name string // as the assessment names it
	path string
	at   source.Pos
}

// shown is the path as it stands in problems.
func (f folder) shown() string { return filepath.ToSlash(f.path) }

// folders are folders named on the command line.
func folders(paths []string) []folder {
	var list []folder
	for _, path := range paths {
		list = append(list, folder{name: filepath.ToSlash(path), path: path})
	}
	return list
}

// ownFolders are the folders of the user by what they hold.
type ownFolders struct{ tables, sheets, methods []folder }

// ownOf are the folders that an assessment names, which stand inside its own.
func ownOf(path string, a *file.Assessment) ownFolders {
	basis := &a.Head.Basis
	list := func(key string, names []string) []folder {
		var out []folder
		for i, name := range names {
			out = append(out, folder{name, filepath.Join(filepath.Dir(path), name), basis.Node().Get(key).Items[i].Pos})
		}
		return out
	}
	return ownFolders{tables: list("tables", basis.Tables), sheets: list("sheets", basis.Sheets), methods: list("methods", basis.Methods)}
}

// stock loads the library and the methods built in and those of the folders. The
// error lists every problem of the folders.
func stock(o ownFolders) (estimate.Shelf, error) {
	shelf := estimate.Shelf{Library: library()}
	var problems []source.Problem
	if len(o.tables)+len(o.sheets) > 0 {
		lib, found := sheet.LoadWith(templates.FS, foldersOf(o.tables), foldersOf(o.sheets))
		shelf.Library, problems = lib, placed(found, append(o.tables, o.sheets...))
	}
	list, found := estimate.Load(templates.FS, shelf.Library)
	if len(problems) > 0 { // methods need a whole library
		return shelf, &failure{code: exitInput, problems: problems, texts: textsOf(problems)}
	}
	problems = append(problems, found...) // a table of the user may not fit a method
	shelf.Methods = list
	for _, f := range o.methods {
		more, found := shelf.Add(os.DirFS(f.path), f.shown())
		shelf, problems = more, append(problems, placed(found, []folder{f})...)
	}
	if len(problems) > 0 {
		return shelf, &failure{code: exitInput, problems: problems, texts: textsOf(problems)}
	}
	return shelf, nil
}

func foldersOf(list []folder) []sheet.Own {
	var out []sheet.Own
	for _, f := range list {
		out = append(out, sheet.Own{FS: os.DirFS(f.path), Dir: f.shown(), Name: f.name})
	}
	return out
}

// placed puts problems about a folder as a whole where the file names it.
func placed(problems []source.Problem, folders []folder) []source.Problem {
	for i := range problems {
		p := &problems[i]
		for _, f := range folders {
			if p.Pos.Line == 0 && p.Pos.File == f.shown() && f.at.Line > 0 {
				p.Message, p.Pos = p.Pos.File+": "+p.Message, f.at
			}
		}
	}
	return problems
}

// textsOf reads the files that problems are about, to show their lines.
func textsOf(problems []source.Problem) map[string][]byte {
	texts := map[string][]byte{}
	for _, p := range problems {
		if texts[p.Pos.File] != nil || p.Pos.Line == 0 {
			continue
		}
		if data, err := os.ReadFile(p.Pos.File); err == nil {
			texts[p.Pos.File] = data
		}
	}
	return texts
}
