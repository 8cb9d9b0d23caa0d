package render

import (
	"math"
	"strconv"
)

// AppendFixed appends v with that many decimals, 0 to 9, as strconv.AppendFloat
// with the format 'f' does, digit for digit, in half of the time: drawings are
// mostly numbers.
func AppendFixed(b []byte, v float64, decimals int) []byte {
	x := math.Abs(v) * tens[decimals]
	whole := math.Floor(x)
	half := x - whole - 0.5
	// The product is off by half of its last place at most: nearer to a half than
	// that, or too large to count in whole numbers, the long way.
	if !(x < 1e15) || math.Abs(half) <= x*0x1p-52+0x1p-52 {
		return strconv.AppendFloat(b, v, 'f', decimals, 64)
	}
	n := uint64(whole)
	if half > 0 {
		n++
	}
	if math.Signbit(v) {
		b = append(b, '-')
	}
	// From the last digit: at least one before the point.
	var digits [24]byte
	at := len(digits)
	for i := 0; n > 0 || i <= decimals; i++ {
		if i == decimals && i > 0 {
			at--
			digits[at] = '.'
		}
		at--
		digits[at] = byte('0' + n%10)
		n /= 10
	}
	return append(b, digits[at:]...)
}

var tens = [...]float64{1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9}
