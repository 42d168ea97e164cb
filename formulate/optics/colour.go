package optics

import (
	"fmt"
	"math"

	"github.com/lucasb-eyer/go-colorful"

	"mullwright/formulate/quantity"
	"mullwright/formulate/trace"
)

// Lab are CIE 1976 L*, a*, b*: lightness 0 to 100, a* green to red, b* blue to
// yellow.
type Lab struct{ L, A, B float64 }

// Chroma returns C* = √(a*² + b*²), in CIELAB units.
func (c Lab) Chroma() float64 { return math.Hypot(c.A, c.B) }

// Hue returns the hue angle in degrees, 0 (red) to 360, by 90 yellow, 180
// green and 270 blue. It means little where the chroma is small.
func (c Lab) Hue() float64 {
	h := math.Atan2(c.B, c.A) * 180 / math.Pi
	if h < 0 {
		h += 360
	}
	return h
}

// LabRelation turns tristimulus values into CIELAB.
var LabRelation = trace.Relation{
	Name:     "CIE 1976 L*a*b*",
	Equation: "L* = 116·f(Y/Yn) − 16, a* = 500·(f(X/Xn) − f(Y/Yn)), b* = 200·(f(Y/Yn) − f(Z/Zn)); f(t) = ∛t for t > (6/29)³, else t/(3·(6/29)²) + 4/29",
	Source:   "CIE 1976; constants as in IEC 61966-2-1 (1999)",
}

// LabOf returns CIELAB of tristimulus values under a white:
//
//	L* = 116·f(Y/Yn) − 16, a* = 500·(f(X/Xn) − f(Y/Yn)), b* = 200·(f(Y/Yn) − f(Z/Zn))
//	f(t) = ∛t for t > (6/29)³, else t/(3·(6/29)²) + 4/29
//
// The colour library counts L*, a* and b* in hundredths; here they are whole.
func LabOf(c, white XYZ) Lab {
	l, a, b := colorful.XyzToLabWhiteRef(c.X, c.Y, c.Z, [3]float64{white.X, white.Y, white.Z})
	return Lab{100 * l, 100 * a, 100 * b}
}

// XYZOf returns the tristimulus values of CIELAB under a white.
func XYZOf(c Lab, white XYZ) XYZ {
	x, y, z := colorful.LabToXyzWhiteRef(c.L/100, c.A/100, c.B/100, [3]float64{white.X, white.Y, white.Z})
	return XYZ{x, y, z}
}

// ScreenRelation turns tristimulus values into a screen colour.
var ScreenRelation = trace.Relation{
	Name:     "sRGB",
	Equation: "linear RGB = M⁻¹·XYZ; V = 12.92·C for C ≤ 0.0031308, else 1.055·C^(1/2.4) − 0.055",
	Source:   "IEC 61966-2-1 (1999)",
}

// Screen is a colour as an sRGB screen shows it.
type Screen struct {
	R, G, B uint8
	// Outside is set where the colour lies beyond what such a screen can show;
	// R, G and B are then the nearest channel by channel.
	Outside bool
}

// Hex writes the colour as #rrggbb.
func (s Screen) Hex() string { return fmt.Sprintf("#%02x%02x%02x", s.R, s.G, s.B) }

// ScreenOf returns the sRGB colour of tristimulus values seen by the 2 degree
// observer under D65 (IEC 61966-2-1). A channel that is out by less than half
// of one of the 255 steps rounds into range and is not called outside.
func ScreenOf(c XYZ) Screen {
	raw := colorful.Xyz(c.X/100, c.Y/100, c.Z/100)
	const half = 0.5 / 255
	outside := false
	for _, v := range []float64{raw.R, raw.G, raw.B} {
		outside = outside || v < -half || v > 1+half
	}
	r, g, b := raw.Clamped().RGB255()
	return Screen{R: r, G: g, B: b, Outside: outside}
}

// XYZOfScreen returns the tristimulus values a screen colour stands for.
func XYZOfScreen(s Screen) XYZ {
	x, y, z := colorful.Color{R: float64(s.R) / 255, G: float64(s.G) / 255, B: float64(s.B) / 255}.Xyz()
	return XYZ{100 * x, 100 * y, 100 * z}
}

// EncodeScreen returns the sRGB channel value, 0 to 1, of a linear one.
func EncodeScreen(linear quantity.Ratio) quantity.Ratio {
	return quantity.Ratio(colorful.LinearRgb(float64(linear), 0, 0).R)
}

// DifferenceRelation is the colour difference in use.
var DifferenceRelation = trace.Relation{
	Name:     "CIEDE2000",
	Equation: "ΔE₀₀ with kL = kC = kH = 1",
	Source:   "Sharma, Wu and Dalal (2005)",
}

// CIEDE2000 returns the colour difference ΔE₀₀ (kL = kC = kH = 1). About 1 is
// just seen side by side; the formula is meant for differences up to about 5.
// Source: Sharma, Wu and Dalal, 2005. The colour library works in hundredths.
func CIEDE2000(p, q Lab) Difference {
	return Difference(100 * inLibrary(p).DistanceCIEDE2000(inLibrary(q)))
}

// CIE76 returns the straight distance in CIELAB.
func CIE76(p, q Lab) Difference {
	return Difference(math.Sqrt((p.L-q.L)*(p.L-q.L) + (p.A-q.A)*(p.A-q.A) + (p.B-q.B)*(p.B-q.B)))
}

// inLibrary hands a Lab colour to the colour library. Its colours are sRGB
// values that may lie outside 0 to 1, so nothing is lost on the way.
func inLibrary(c Lab) colorful.Color { return colorful.Lab(c.L/100, c.A/100, c.B/100) }

// A Colour is what a spectrum looks like: under D65 to the 2 degree observer.
type Colour struct {
	XYZ    XYZ
	Lab    Lab
	Screen Screen
}

// ColourOf returns the colour of a spectrum.
func ColourOf(s Spectrum) Colour {
	xyz := Tristimulus(s, TwoDegree, D65)
	return Colour{XYZ: xyz, Lab: LabOf(xyz, White(TwoDegree, D65)), Screen: ScreenOf(xyz)}
}
