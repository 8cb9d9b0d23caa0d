// Package strings is the physics of a steel string: tension, pitch, and an
// estimate of how far nut and saddle must move so that fretted notes ring true.
//
//	string    String: mass per length, tension, pitch, with stiffness
//	pitch     ParsePitch, PitchName: "E2" and Hz
//	set       Set: the strings of an instrument from gauges, cores, masses
//	estimate  Compensate: nut and saddle shifts, and what stays out of tune; Table
//
// Lengths in mm, pitches in Hz, tensions in newtons, mass per length in kg/m.
// The compensation is an estimate: leave room to adjust, and set the saddle by
// ear or meter.
package strings

import (
	"fmt"
	"math"
)

// Steel as used where the caller gives nothing.
const (
	// SteelDensity in kg/m³: 7850, plain carbon steel (common practice).
	SteelDensity = 7850
	// SteelYoung in Pa: 200 GPa, Young's modulus of carbon steel (from memory of
	// engineering handbooks, which give 190 to 210).
	SteelYoung = 200e9
)

// NewtonsPerPoundForce is exact: 0.45359237 kg times the standard gravity
// 9.80665 m/s².
const NewtonsPerPoundForce = 0.45359237 * 9.80665

// String is one string.
type String struct {
	Diameter float64 // outside, mm
	Core     float64 // of the wire that carries the tension, mm; 0: plain, the same as Diameter
	Mass     float64 // per length, kg/m; 0: a plain steel wire of Diameter
	Young    float64 // of the core, Pa; 0: SteelYoung
	Pitch    float64 // of the open string, Hz
}

// Check returns nil for a string that can be worked with.
func (s String) Check() error {
	switch {
	case !(s.Diameter > 0 && s.Diameter <= 10):
		return fmt.Errorf("diameter %g mm: allowed are above 0 and up to 10 mm", s.Diameter)
	case !(s.Core >= 0 && s.Core <= s.Diameter):
		return fmt.Errorf("core %g mm: it cannot be thicker than the string, %g mm", s.Core, s.Diameter)
	case s.Core > 0 && s.Core < s.Diameter && s.Mass == 0:
		return fmt.Errorf("a wound string needs its mass per length: %g mm over a core of %g mm does not say it", s.Diameter, s.Core)
	case !(s.Mass >= 0 && s.Mass <= 0.2):
		return fmt.Errorf("mass %g kg/m: allowed are 0 to 0.2", s.Mass)
	case !(s.Young >= 0 && s.Young <= 1e12):
		return fmt.Errorf("Young's modulus %g Pa: allowed are 0 to 1e12", s.Young)
	case !(s.Pitch > 0 && s.Pitch <= 5000):
		return fmt.Errorf("pitch %g Hz: allowed are above 0 and up to 5000", s.Pitch)
	}
	return nil
}

// WireMass returns the mass per length of a solid wire, kg/m, from its diameter
// in mm and its density in kg/m³: ρ·π·d²/4.
func WireMass(diameter, density float64) float64 {
	d := diameter / 1000
	return density * math.Pi * d * d / 4
}

// MassPerLength returns the mass per length, kg/m.
func (s String) MassPerLength() float64 {
	if s.Mass > 0 {
		return s.Mass
	}
	return WireMass(s.Diameter, SteelDensity)
}

func (s String) core() float64 {
	if s.Core > 0 {
		return s.Core
	}
	return s.Diameter
}

func (s String) young() float64 {
	if s.Young > 0 {
		return s.Young
	}
	return SteelYoung
}

// stretch returns E·A of the core in newtons.
func (s String) stretch() float64 {
	d := s.core() / 1000
	return s.young() * math.Pi * d * d / 4
}

// bend returns E·I of the core in N·m²: the winding carries no bending.
func (s String) bend() float64 {
	d := s.core() / 1000
	return s.young() * math.Pi * d * d * d * d / 64
}

// Tension returns the tension in newtons that gives an ideal string of mass mu
// (kg/m) and a length in mm the pitch f in Hz: T = μ·(2·L·f)². OpenStax,
// University Physics 1, section 16.3, from v = √(T/μ).
func Tension(mu, length, f float64) float64 {
	v := 2 * length / 1000 * f
	return mu * v * v
}

// Frequency returns the pitch in Hz of an ideal string under tension t in
// newtons: f = √(T/μ)/(2·L).
func Frequency(mu, length, t float64) float64 {
	return math.Sqrt(t/mu) / (2 * length / 1000)
}

// Ends is how a string is held at the ends of its sounding length.
type Ends uint8

const (
	// Clamped ends keep their slope: the published model, and an upper bound.
	Clamped Ends = iota
	// Carried ends turn with the string, which runs on under tension past its
	// support, as over a saddle or a fret: half the effect of clamped ends, closer
	// to what guitars need (common practice: 1.5 to 2 mm treble, 3 to 5 mm bass).
	Carried
	// Hinged ends turn freely: the lower bound.
	Hinged
)

// stiffening returns by what a stiff string of length l (mm) under tension t
// sounds higher than an ideal one, as a ratio: 1 + kε + (k² + π²/2)·ε² with
// ε = √(EI/T)/L.
//
// k = 2, clamped ends: Morse, Vibration and Sound, 1948, as used by Varieschi and
// Gower, "Intonation and compensation of fretted string instruments", American
// Journal of Physics 78, 2010, arXiv:0906.0127 (the formula from memory of both).
// k = 0, hinged ends: the same book's √(1 + π²ε²). k = 1, derived: near a clamped
// end the string follows a straight line that starts √(EI/T) inside the support.
// Where the string runs on past the support, its tail resists turning with the
// moment √(EI·T) per radian, as much as the sounding side does, and the line
// starts half as far inside. The tests hold all three against the exact frequency
// equation.
func (s String) stiffening(l, t float64, ends Ends) float64 {
	k := [...]float64{Clamped: 2, Carried: 1, Hinged: 0}[ends]
	e := math.Sqrt(s.bend()/t) / (l / 1000)
	return 1 + k*e + (k*k+math.Pi*math.Pi/2)*e*e
}

// TensionAt returns the tension in newtons that tunes the open string of a
// length in mm, its stiffness taken into account. s must pass Check, length > 0.
func (s String) TensionAt(length float64, ends Ends) float64 {
	mu := s.MassPerLength()
	ideal := Tension(mu, length, s.Pitch)
	t := ideal
	for i := 0; i < 50; i++ { // a contraction: stiffness adds some percent at most
		k := s.stiffening(length, t, ends)
		next := ideal / (k * k)
		if math.Abs(next-t) <= 1e-14*ideal {
			return next
		}
		t = next
	}
	return t
}
