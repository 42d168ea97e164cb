// Package colour holds measured colour of pigments, from data sets whose
// licence lets them be passed on, and nothing else. Each pigment has a file of
// its own that is read when that pigment is asked for.
//
// # What there is
//
//   - Paints: K and S of 19 acrylic paints against wavelength, 380 to 750 nm,
//     relative to the scattering of titanium white (Berns, 2016). They give
//     masstones and tints with titanium white, never a film of some thickness.
//   - Films: 223 patches of a colour chart, each one film read over four
//     grounds, 410 to 700 nm (Deborah, 2022, CC BY 4.0). They give glazes in
//     multiples of that film.
//   - Powders: dry powders, 383 to 789 nm (Kokaly and others, 2017, public
//     domain). They give one plain colour.
//
// A pigment may have several of each; of its films the one nearest the middle
// of them all, by CIELAB over the lightest ground, stands first. Nothing is
// filled in: a pigment without data is not found.
//
// # The chart's grounds
//
// The data set does not say what the four patches of a pigment were laid on.
// Green chromium oxide reads alike in all four and cobalt yellow runs from L*
// 51 to 87, so they are taken as one film over grounds from black to white.
// Two-flux films over fitted grounds miss the 26,760 readings by 0.0060 rms.
// The fit cannot settle all four grounds: a layer of paint could be counted to
// the ground or to the film. So the ends come from the chart itself: no reading
// lies under 0.027, so neither does the black ground; none lies above 0.909, so
// the white is put at 0.91. The greys, 0.204 and 0.491, are then fitted. Other
// ends fit as well (0 with 1.00: 0.0058; 0.10 with 0.91: 0.0062); they travel
// along as rivals, and what they change in a glaze is shown as its doubt.
//
// Modelled and measured films differ by a colour difference (CIEDE2000) of 0.9
// at the worst of a pigment's four grounds (median over films), 1.6 (90th
// percentile), 3.3 (worst). That says the fit is good where it was made.
// For ladders of a half, one, two and four films the doubt has a median of 1.1
// and a 90th percentile of 3.6; it is largest, up to 15, for half films of
// strong pigments that let nothing through in some bands.
//
// # Names
//
// The data sets name paints and powders by trade or by sample. Here they stand
// under the catalogue's identifiers by common name: a chart's "grape black" is
// vine-black, its "iron oxide yellow" mars-yellow, "brilliant yellow" and Hansa
// yellows arylide-yellow, natural cinnabar vermilion, ground calcite
// marble-dust. Makers' names and numbers were taken off the labels; the locator
// finds the record in its data set.
//
// # What it does not do
//
// It holds no colour of oil paint, of a maker's own batch or of an aged film,
// no lead or zinc white tint, and no data whose licence was not clear.
package colour
