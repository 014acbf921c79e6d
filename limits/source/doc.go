// Package source reads YAML files strictly and remembers where everything stands.
//
// Parse turns a file into Nodes that know their line, column and bytes; Decode fills Go values from Nodes; both put
// what is wrong into Problems, all at once, so that a person mends a file in one go. Render shows the list with the
// source line and a caret. YAML has many ways to say something other than what the reader sees (yes for true, 1_000,
// a second document, an anchor); all of them are refused.
package source
