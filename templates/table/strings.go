package table

import (
	"routwright/templates/job"
	"routwright/templates/strings"
)

// stringTable lists tension and compensation of every string, the highest first.
func stringTable(j *job.Job) Table {
	t := Table{Name: "strings", Head: strings.Head}
	for _, r := range j.Strings {
		t.Rows = append(t.Rows, r.Cells(num))
	}
	return t
}
