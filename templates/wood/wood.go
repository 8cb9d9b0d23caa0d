// Package wood holds what the wood does: how far it moves with its moisture and
// how much a glue line carries. The tables are those of the USDA Forest Products
// Laboratory's Wood Handbook; each file names its table and pages. The pilot holes
// of wood screws come from published charts.
package wood

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"sort"
	"strconv"
	"strings"
	"sync"
)

//go:embed movement.csv
var movementCSV string

//go:embed strength.csv
var strengthCSV string

// Source is the work that the tables come from.
const Source = "Wood Handbook, USDA Forest Products Laboratory (FPL-GTR-190 tables 4-3 and 13-5, FPL-GTR-282 table 5-3b)"

// Species is a wood by its table rows. A number that a table does not give is 0.
type Species struct {
	Name       string
	Radial     float64 // dimensional change per 1 % of moisture, radial
	Tangential float64 // tangential
	Density    float64 // kg/m³ at 12 % moisture
	Shear      float64 // kPa, parallel to the grain at 12 %: an average of clear wood, no design value
}

// Movement returns the change in mm of a width across the grain when the
// moisture changes by dMC per cent: width · C · ΔMC (Handbook Eq. 13-2, for 6 to
// 14 % moisture). The tangential coefficient is taken, the larger.
func (s Species) Movement(width, dMC float64) float64 { return width * s.Tangential * dMC }

var load = sync.OnceValue(func() map[string]Species {
	all := map[string]Species{}
	for _, r := range rows(movementCSV) {
		all[r["species"]] = Species{Name: r["species"], Radial: number(r["C_R"]), Tangential: number(r["C_T"])}
	}
	for _, r := range rows(strengthCSV) {
		name := r["species"]
		// The two tables name some woods apart: "Maple, sugar (hard)".
		if base, _, ok := strings.Cut(name, " ("); ok && all[base].Name != "" {
			name = base
		}
		s := all[name]
		s.Name, s.Density, s.Shear = name, number(r["density_12_kg_m3"]), number(r["shear_kPa"])
		all[s.Name] = s
	}
	return all
})

// rows reads a table with comment lines and a head.
func rows(text string) []map[string]string {
	c := csv.NewReader(strings.NewReader(text))
	c.Comment = '#'
	all, err := c.ReadAll()
	if err != nil || len(all) == 0 {
		return nil // a test reads every row
	}
	var out []map[string]string
	for _, r := range all[1:] {
		m := map[string]string{}
		for i, k := range all[0] {
			if i < len(r) {
				m[k] = r[i]
			}
		}
		out = append(out, m)
	}
	return out
}

func number(s string) float64 {
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		return 0
	}
	return v
}

// Lookup returns a species by its name in the tables ("Walnut, black"). The
// error names those that come closest: the ones that share a word.
func Lookup(name string) (Species, error) {
	all := load()
	if s, ok := all[name]; ok {
		return s, nil
	}
	var near []string
	words := strings.FieldsFunc(strings.ToLower(name), func(r rune) bool { return r == ' ' || r == ',' })
	for k := range all {
		for _, w := range words {
			if strings.Contains(strings.ToLower(k), w) {
				near = append(near, strconv.Quote(k))
				break
			}
		}
	}
	sort.Strings(near)
	if len(near) == 0 {
		return Species{}, fmt.Errorf("no wood %q in the tables", name)
	}
	return Species{}, fmt.Errorf("no wood %q in the tables; there are %s", name, strings.Join(near, ", "))
}

// Names returns the names of all species, sorted.
func Names() []string {
	var n []string
	for k := range load() {
		n = append(n, k)
	}
	sort.Strings(n)
	return n
}
