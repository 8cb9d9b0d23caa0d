package design

import (
	"routwright/templates/design/toml"
	physics "routwright/templates/strings"
)

const pitchExamples = `a note with its octave such as "E2", "F#3", "Bb1", or a number in Hz`

// pitch decodes a number in Hz, or a text with a note.
func (d *decoder) pitch(f *field, v *toml.Value, key string) (Pitch, bool) {
	var words string
	switch v.Kind {
	case toml.Integer, toml.Float:
		if !d.finite(f, pitchType, v, key) {
			return 0, false
		}
		words = v.Raw
		if v.Float >= physics.LowestPitch && v.Float <= physics.HighestPitch {
			return Pitch(v.Float), true
		}
	case toml.String:
		if hz, err := physics.ParsePitch(v.Text); err == nil {
			return Pitch(hz), true
		}
		words = toml.Quote(v.Text)
	default:
		return 0, d.wrong(f, pitchType, v, key)
	}
	return 0, d.fail(v.At, key, words, f.of(pitchType, d.unit), `write the note and its octave; "A4" is 440 Hz`)
}
