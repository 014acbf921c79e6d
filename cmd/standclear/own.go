package main

import (
	"os"
	"path"
	"path/filepath"
	"slices"

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
type ownFolders struct{ tables, sheets, contact, methods []folder }

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
	o := ownFolders{tables: list("tables", basis.Tables), sheets: list("sheets", basis.Sheets), methods: list("methods", basis.Methods)}
	if name := basis.ContactData; name != "" {
		o.contact = []folder{{name, filepath.Join(filepath.Dir(path), name), basis.At("contact_data")}}
	}
	return o
}

// stock loads the library and the methods built in and those of the folders, and
// keeps the files that it reads there. The error lists every problem of the folders.
func stock(o ownFolders, kept *file.Kept) (estimate.Shelf, error) {
	shelf := estimate.Shelf{Library: library()}
	var problems []source.Problem
	if len(o.tables)+len(o.sheets)+len(o.contact) > 0 {
		contact, missing := contactOf(o.contact, kept)
		lib, found := sheet.LoadOwn(templates.FS, sheet.OwnData{Tables: foldersOf(o.tables, kept), Sheets: foldersOf(o.sheets, kept), Contact: contact})
		shelf.Library, problems = lib, append(missing, placed(found, slices.Concat(o.tables, o.sheets, o.contact))...)
	}
	list, found := estimate.Load(templates.FS, shelf.Library)
	if len(problems) > 0 { // methods need a whole library
		return shelf, &failure{code: exitInput, problems: problems, texts: textsOf(problems)}
	}
	problems = append(problems, found...) // a table of the user may not fit a method
	shelf.Methods = list
	for _, f := range o.methods {
		more, found := shelf.Add(kept.FS(os.DirFS(f.path), f.name, ""), f.shown(), f.name)
		shelf, problems = more, append(problems, placed(found, []folder{f})...)
	}
	if len(problems) > 0 {
		return shelf, &failure{code: exitInput, problems: problems, texts: textsOf(problems)}
	}
	return shelf, nil
}

func foldersOf(list []folder, kept *file.Kept) []sheet.Own {
	var out []sheet.Own
	for _, f := range list {
		out = append(out, sheet.Own{FS: kept.FS(os.DirFS(f.path), f.name, ""), Dir: f.shown(), Name: f.name})
	}
	return out
}

// contactOf are files or folders with contact data.
func contactOf(list []folder, kept *file.Kept) (out []sheet.Own, missing []source.Problem) {
	for _, f := range list {
		info, err := os.Stat(f.path)
		dir, only := folder{path.Dir(f.name), filepath.Dir(f.path), f.at}, filepath.Base(f.path)
		switch {
		case err != nil:
			missing = append(missing, source.Problem{Pos: f.at, Message: f.shown() + ": there is no such file or folder", Expected: "a file or folder with contact data",
				Hint: "look at the path and the folder you are in"})
			continue
		case info.IsDir():
			dir, only = f, ""
		case filepath.Ext(only) != ".yaml":
			missing = append(missing, source.Problem{Pos: f.at, Message: f.shown() + " is not a YAML file", Expected: "a file whose name ends in .yaml"})
			continue
		}
		out = append(out, sheet.Own{FS: kept.FS(os.DirFS(dir.path), dir.name, only), Dir: dir.shown(), Name: dir.name})
	}
	return out, missing
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
