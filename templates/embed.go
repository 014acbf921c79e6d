// Package templates holds the embedded data: calculation sheets, tables, contact
// data, methods, local rules, findings, wording and the demo cell. It holds no
// machinery; every rule of the trade that can be data is data here.
package templates

import "embed"

// FS is the embedded data.
//
//go:embed sheets tables contact methods words cells catalogue places
var FS embed.FS
