package tool

// speedBands are the highest speeds of a router by the diameter of its bit, as
// one published chart has them ("Choosing Proper Router Bit Speeds", About.com
// Woodworking), and the range that other published charts give for the same
// bits. They all differ: advice, not limits.
var speedBands = []struct {
	upTo  float64 // mm
	most  int     // rpm
	other [2]int
}{
	{25.4, 24000, [2]int{22000, 24000}},
	{50.8, 18000, [2]int{18000, 22000}},
	{63.5, 16000, [2]int{12000, 16000}},
	{88.9, 12000, [2]int{8000, 12000}},
}

// Speed is a band of router speeds in revolutions a minute.
type Speed struct {
	Most  int
	Other [2]int // what other charts give
}

// Speed returns the band for the tool's cutter; ok is false over 88.9 mm, where
// no chart reaches.
func (t Tool) Speed() (s Speed, ok bool) {
	for _, b := range speedBands {
		if t.Cutter <= b.upTo {
			return Speed{b.most, b.other}, true
		}
	}
	return Speed{}, false
}
