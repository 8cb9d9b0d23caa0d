package fretboard

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
)

// maxTuningBytes stops a wrong file early: 144 lines need far less.
const maxTuningBytes = 64 << 10

// ReadTuning reads a list of intervals above the open string, one a line,
// rising: a plain number is in cents (701.955), a fraction is a ratio (3/2).
// Empty lines and what follows a # are skipped. The octave closes the list,
// written or not. The errors name the lines, all at once.
func ReadTuning(r io.Reader) (Temperament, error) {
	var logs []float64
	var words []string
	var errs []error
	sc := bufio.NewScanner(io.LimitReader(r, maxTuningBytes+1))
	line, size := 0, 0
	for sc.Scan() {
		line++
		size += len(sc.Bytes()) + 1
		s, _, _ := strings.Cut(sc.Text(), "#")
		if s = strings.TrimSpace(s); s == "" {
			continue
		}
		l, err := parseInterval(s)
		if err != nil {
			errs = append(errs, fmt.Errorf("line %d: %w", line, err))
			if len(errs) == 10 {
				errs = append(errs, errors.New("more lines follow that were not read: is this a list of intervals?"))
				return Temperament{}, errors.Join(errs...)
			}
			continue
		}
		logs = append(logs, l)
		words = append(words, fmt.Sprintf("%s (line %d)", s, line))
	}
	if err := sc.Err(); err != nil && !errors.Is(err, bufio.ErrTooLong) {
		return Temperament{}, err
	} else if err != nil || size > maxTuningBytes {
		return Temperament{}, fmt.Errorf("the list of intervals is over %d bytes: is this the right file?", maxTuningBytes)
	}
	if len(errs) > 0 {
		return Temperament{}, errors.Join(errs...)
	}
	return fromLogs(logs, func(i int) string { return words[i] }, "above 0 and up to 1200 cents, or above 1/1 and up to 2/1")
}

// parseInterval returns an interval in octaves.
func parseInterval(s string) (float64, error) {
	bad := fmt.Errorf("%q is no interval: write cents (701.955) or a ratio (3/2)", s)
	num, den, ratio := strings.Cut(s, "/")
	a, err := strconv.ParseFloat(strings.TrimSpace(num), 64)
	if err != nil || math.IsInf(a, 0) || math.IsNaN(a) {
		return 0, bad
	}
	if !ratio {
		return a / 1200, nil
	}
	b, err := strconv.ParseFloat(strings.TrimSpace(den), 64)
	if err != nil || !(a > 0 && b > 0) || math.IsInf(b, 0) {
		return 0, bad
	}
	return math.Log2(a / b), nil
}
