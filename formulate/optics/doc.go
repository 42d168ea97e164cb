// Package optics says how a film of paint looks: how much light it gives back
// over a ground, when it hides, what a mixture or a stack of glazes does, and
// which colour a spectrum is.
//
// # The two-flux model
//
// Diffuse light goes down and up through a film of thickness X that absorbs (K)
// and scatters (S) alike everywhere. Everything holds for one wavelength.
//
//	hiding film        K/S = (1 − R∞)²/(2R∞),  R∞ = 1 + K/S − √((K/S)² + 2K/S)
//	film               R₀ = sinh(bSX)/D, T = b/D, D = a·sinh(bSX) + b·cosh(bSX)
//	                   a = 1 + K/S, b = √(a² − 1)
//	film over a ground R = R₀ + T²Rg/(1 − R₀Rg)
//	two layers         R = R₁ + T₁²R₂/(1 − R₁'R₂), T = T₁T₂/(1 − R₁'R₂)
//	mixture            K = Σ cᵢKᵢ, S = Σ cᵢSᵢ
//
//	R∞  reflectance of a film that hides        0 to 1
//	R₀  reflectance over perfect black          0 to 1 (R₁' from below)
//	T   transmittance                           0 to 1
//	Rg  reflectance of the ground               0 to 1
//	K,S absorption and scattering coefficient   per film
//	X   thickness                               films
//
// One film is whatever layer K and S were found on or stated for. Thickness
// enters only as KX and SX, so twice the film is twice X, and thinning with a
// medium scales K and S by the pigment's share of the volume. Sources: Kubelka
// and Munk, 1931; Kubelka, JOSA 38, 1948 and 44, 1954.
//
// Readings over two or more grounds give R₀ and T, and these K and S. A film
// that lets nothing through gives K/S only.
//
// # The surface
//
// The step from binder to air turns light back on both sides (Saunderson):
//
//	Rm = k₁ + (1 − k₁)(1 − k₂)R/(1 − k₂R)
//
// k₁ = ((n − 1)/(n + 1))², 0.0375 at n = 1.48; k₂ is 0.6 in theory and 0.4 to
// 0.65 in use. The first k₁ falls away where the instrument does not see the
// gloss. Constants that were fitted without the correction are used without it.
//
// # Hiding
//
// The contrast ratio is the luminance over black by that over white; 0.98
// counts as hiding (ISO 6504-1, which keeps its method to films of Y about 70
// or more). Dark paints hide by K, light ones by S. Fresnel's reflection
// ((n − m)/(n + m))² ranks how strongly a grain of index n can scatter in a
// medium of index m: in oil and in dry gum nearly alike, in water and air far
// more. It is no hiding power: grain size and crowding rule that.
//
// # From spectrum to colour
//
// Tristimulus values are sums by 5 nm from 380 to 780 nm with the CIE tables
// (1931 and 1964 observers, D65 and D50); readings are joined by straight
// lines and held beyond their ends. CIELAB, sRGB and CIEDE2000 come from a
// colour library that counts L*, a*, b* in hundredths; here they are whole.
// Colours to show are under D65 for the 2 degree observer. Many cadmium,
// phthalocyanine and ultramarine colours lie outside sRGB: that is said, and
// the nearest is shown.
//
// # Errors
//
// In CIELAB units (CIE 1976 distance) unless said:
//
//	masstone from relative K and S, 18 paints against a published list   median 2.0, worst 6.8
//	one pigment from several makers' oils (Kovacs-Vajna, about 2010-17)  median 13; earths and opaque oxides 3 to 10, transparent organics 20 to 40
//	dry powder against an acrylic paint, 15 pairs                        mean 16
//	two patches of one pigment on the chart (Deborah, 2022), 28 pairs    median 4, 90th percentile 25
//	gloss counted in against gloss left out, 76 paints                   median 17, thickness differing too
//
// The first three and the last were worked out once from published spectra and
// lists whose licence does not let them be carried here.
//
// # Validity
//
// The model holds for diffuse light, matt or corrected surfaces and films much
// thicker than a grain. Scattering falls below proportion as grains crowd, with
// no threshold; above the critical pigment volume, air in the film raises
// hiding. For translucent films K and S are not proportional to concentration
// (Gorji Bandpay and others, 2018), and oil mock-ups did not follow the number
// of layers simply, because oil rises to the surface (Pozo-Antonio and others,
// 2022). So a modelled glaze shows the way a colour goes, not the colour.
//
// # What it does not do
//
// It knows no micrometres, no grams to cover an area, no ageing, no gloss, no
// fluorescence and no grain size, and it does not foretell the colour of an oil
// paint from a dry powder. It holds no data on pigments.
package optics
