package sheet_test

import "fmt"

// levelTexts goes over every category and coverage at rows of the table, just
// beside them, at the caps and at the borders of bands.
func levelTexts() []string {
	var out []string
	for _, category := range []string{"B", "1", "2", "3", "4"} {
		for _, coverage := range []string{"none", "low", "medium", "high", "0.6", "0.59999999", "0.9", "0.8999999999999999", "0.99", "1"} {
			for _, years := range []string{"3", "10", "29.9999999", "30", "62", "100", "9000"} {
				out = append(out, fmt.Sprintf("category=%s; DC=%s; MTTFD=%s; test_ratio=100; MTTFD_test=60; required=c", category, coverage, years))
			}
			for _, word := range []string{"low", "medium", "high"} {
				out = append(out, fmt.Sprintf("category=%s; DC=%s; MTTFD=; MTTFD_band=%s; test_ratio=100; MTTFD_test=60; required=c", category, coverage, word))
			}
		}
	}
	return append(out, "MTTFD=2.9999999999999996", "MTTFD=2.9999999", "MTTFD=3.0000000000000004", "MTTFD=61.99999999999999", "MTTFD=61.9999999", "MTTFD=62.00000000000001",
		"category=4; DC=high; MTTFD=2500", "category=4; DC=high; MTTFD=2499.9999", "category=4; DC=high; MTTFD=1e6", "category=4; DC=high; MTTFD=110; required=e", "DC=; DC_share=", "MTTFD=",
		"MTTFD_band=low", "DC_share=0.7", "CCF=64.9999999", "CCF=65", "CCF=", "category=2", "category=2; test_ratio=99.9999999; MTTFD_test=60", "category=2; tested_on_demand=yes; MTTFD_test=60",
		"category=2; test_ratio=5; tested_on_demand=yes; MTTFD_test=60", "category=2; test_ratio=5; tested_on_demand=no; MTTFD_test=60", "required=", "required=e; MTTFD=56")
}
