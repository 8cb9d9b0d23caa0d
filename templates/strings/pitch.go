package strings

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// ConcertPitch is the frequency of A4 in Hz: ISO 16.
const ConcertPitch = 440.0

// Lowest and highest pitch of an open string, Hz. They stop slips of the pen:
// what is strung on a neck lies between about 20 and 1000 (common practice).
const (
	LowestPitch  = 15.0
	HighestPitch = 2000.0
)

// semitones of the natural notes above C.
var semitones = map[byte]int{'C': 0, 'D': 2, 'E': 4, 'F': 5, 'G': 7, 'A': 9, 'B': 11}

var sharps = [12]string{"C", "C#", "D", "D#", "E", "F", "F#", "G", "G#", "A", "A#", "B"}

// ParsePitch reads the pitch of an open string: a note with its octave ("E2",
// "F#3", "Bb1", "A4" is 440 Hz; the octave's number rises at C), in twelve equal
// steps, or a number in Hz ("82.4", "82.4 Hz"). It returns Hz.
func ParsePitch(s string) (float64, error) {
	const forms = `a note with its octave, "E2", "F#3", "Bb1", or a frequency, "82.4 Hz"`
	t := strings.TrimSpace(s)
	if hz := strings.TrimSpace(strings.TrimSuffix(strings.ToLower(t), "hz")); hz != "" && strings.Trim(hz, "0123456789.") == "" {
		f, err := strconv.ParseFloat(hz, 64)
		if err != nil {
			return 0, fmt.Errorf("%.20q is no pitch: write %s", s, forms)
		}
		return f, withinPitch(s, f)
	}
	if t == "" {
		return 0, fmt.Errorf("an empty pitch: write %s", forms)
	}
	step, ok := semitones[strings.ToUpper(t[:1])[0]]
	rest := t[1:]
	for _, sign := range []struct {
		s  string
		by int
	}{{"#", 1}, {"♯", 1}, {"b", -1}, {"♭", -1}} {
		if r, cut := strings.CutPrefix(rest, sign.s); cut {
			rest, step = r, step+sign.by
			break
		}
	}
	octave, err := strconv.Atoi(rest)
	if !ok || err != nil || strings.HasPrefix(rest, "+") {
		return 0, fmt.Errorf("%.20q is no pitch: write %s", s, forms)
	}
	f := ConcertPitch * math.Exp2(float64(octave-4)+float64(step-9)/12)
	return f, withinPitch(s, f)
}

func withinPitch(s string, hz float64) error {
	if hz >= LowestPitch && hz <= HighestPitch {
		return nil
	}
	return fmt.Errorf("%.20q is %.4g Hz: an open string lies between %g and %g Hz", s, hz, LowestPitch, HighestPitch)
}

// PitchName returns the note nearest to a frequency in Hz, with the cents that
// it is sharp or flat where that is more than half a cent: "E2", "A4 +31 cents".
// hz must be above 0.
func PitchName(hz float64) string {
	steps := 12*math.Log2(hz/ConcertPitch) + 9 + 4*12 // above C0
	n := int(math.Round(steps))
	octave := int(math.Floor(float64(n) / 12))
	name := sharps[n-12*octave] + strconv.Itoa(octave)
	if c := 100 * (steps - float64(n)); math.Abs(c) > 0.5 {
		name += fmt.Sprintf(" %+.0f cents", c)
	}
	return name
}
