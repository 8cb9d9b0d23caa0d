package fretboard

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
)

// maxTuningBytes stops a wrong file early: 144 intervals need far less.
const maxTuningBytes = 64 << 10

// maxTuningErrors is how many faulty words of a list are told; a file with more
// is no list.
const maxTuningErrors = 10

// ReadTuning reads a list of intervals above the open string, rising, set apart
// by line ends, blanks, commas or semicolons: a plain number is in cents
// (701.955), a fraction is a ratio (3/2 or 3:2). What follows a # on a line is
// skipped, and so is a first interval of 0 (or 1/1), the open string itself. The
// octave closes the list, written or not. The errors name the lines, all at once.
func ReadTuning(r io.Reader) (Temperament, error) {
	data, err := io.ReadAll(io.LimitReader(r, maxTuningBytes+1))
	if err != nil {
		return Temperament{}, err
	}
	if len(data) > maxTuningBytes {
		return Temperament{}, fmt.Errorf("the list of intervals is over %d bytes: is this the right file?", maxTuningBytes)
	}
	data = bytes.TrimPrefix(data, []byte("\ufeff")) // byte order mark
	var logs []float64
	var words []string
	var errs []error
	ratios := false
	for i, line := range strings.Split(string(data), "\n") {
		line, _, _ = strings.Cut(line, "#")
		for _, w := range strings.FieldsFunc(line, func(c rune) bool { return strings.ContainsRune(" \t\r,;", c) }) {
			l, ratio, err := parseInterval(w)
			if err != nil {
				if errs = append(errs, fmt.Errorf("line %d: %w", i+1, err)); len(errs) == maxTuningErrors {
					errs = append(errs, errors.New("more follows that was not read: is this a list of intervals?"))
					return Temperament{}, errors.Join(errs...)
				}
				continue
			}
			if len(logs) == 0 && l == 0 && len(words) == 0 {
				words = append(words, w) // the open string: seen, so that a second one is an error
				continue
			}
			ratios = ratios || ratio
			logs = append(logs, l)
			words = append(words, fmt.Sprintf("%s (line %d)", w, i+1))
		}
	}
	words = words[len(words)-len(logs):]
	if len(errs) > 0 {
		return Temperament{}, errors.Join(errs...)
	}
	// Decimal ratios would pass as tiny intervals in cents.
	if n := len(logs); n > 0 && !ratios && logs[n-1] > 0 && logs[n-1] <= 2.0/1200 {
		return Temperament{}, errors.New("every interval is 2 cents or less: if these are ratios, write each as a fraction, 1.5/1 or 3/2")
	}
	return fromLogs(logs, func(i int) string { return words[i] }, "above 0 and up to 1200 cents, or above 1/1 and up to 2/1")
}

// parseInterval returns an interval in octaves and whether it is a ratio.
func parseInterval(s string) (octaves float64, ratio bool, err error) {
	bad := fmt.Errorf("%.40q is no interval: write cents (701.955) or a ratio (3/2)", s)
	num, den, ratio := strings.Cut(strings.Replace(s, ":", "/", 1), "/")
	a, err := strconv.ParseFloat(num, 64)
	if err != nil || math.IsInf(a, 0) || math.IsNaN(a) {
		return 0, false, bad
	}
	if !ratio {
		return a / 1200, false, nil
	}
	b, err := strconv.ParseFloat(den, 64)
	if err != nil || !(a > 0 && b > 0) || math.IsInf(b, 0) {
		return 0, false, bad
	}
	return math.Log2(a / b), true, nil
}
