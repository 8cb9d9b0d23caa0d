package job

import (
	"fmt"

	"routwright/templates/design"
)

// JackStop says where the tape goes on the bit of the jack, from the flat outside of
// its cradle; empty without a cradle.
func (j *Job) JackStop() string {
	if j.Jack == nil || j.Jigs.Cradle == nil {
		return ""
	}
	return fmt.Sprintf("%s mm from the flat outside, %s mm of it in the body: tape on the shank", design.MM(j.Jigs.Cradle.Deep+j.Jack.Length), design.MM(j.Jack.Length))
}
