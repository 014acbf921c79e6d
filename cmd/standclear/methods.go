package main

import (
	"os"
	"path/filepath"

	"standclear/hazards/estimate"
	"standclear/hazards/file"
	"standclear/limits/source"
	"standclear/templates"
)

// folder is a folder with methods of the house, and where a file names it.
type folder struct {
	path string
	at   source.Pos
}

// foldersOf are the folders that an assessment names, which stand inside its own.
func foldersOf(path string, a *file.Assessment) []folder {
	var list []folder
	for i, name := range a.Head.Basis.Methods {
		at := a.Head.Basis.Node().Get("methods").Items[i].Pos
		list = append(list, folder{filepath.Join(filepath.Dir(path), name), at})
	}
	return list
}

// methods gives the methods built in and those of the folders. The error lists
// every problem of them.
func methods(folders []folder) (estimate.Shelf, error) {
	shelf := estimate.Shelf{Library: library()}
	list, problems := estimate.Load(templates.FS, shelf.Library)
	if len(problems) > 0 {
		panic("embedded data: " + problems[0].Pos.String() + ": " + problems[0].Message)
	}
	shelf.Methods = list
	for _, f := range folders {
		more, found := shelf.Add(os.DirFS(f.path), filepath.ToSlash(f.path))
		for i := range found {
			if found[i].Pos.Line == 0 && f.at.Line > 0 { // about the folder as a whole
				found[i].Message, found[i].Pos = found[i].Pos.File+": "+found[i].Message, f.at
			}
		}
		shelf, problems = more, append(problems, found...)
	}
	if len(problems) > 0 {
		return shelf, &failure{code: exitInput, problems: problems, texts: textsOf(problems)}
	}
	return shelf, nil
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
