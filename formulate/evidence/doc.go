// Package evidence turns published values into ranges and ranges into answers.
//
// # Model
//
// Every physical value is positive and is taken as log-normal: x = m·exp(σ·z),
// z standard normal. The catalogue's low and high are the 10th and 90th
// percentile, m·exp(∓1.2816·σ). Readings of one source count once; sources are
// equal; their spread is the spread of the answer, never divided by their
// number, because lots differ and the maker's jar is one more lot.
//
// With one source the spread is the stated [Width] of the property, with k
// sources the pooled estimate
//
//	σ² = (Σ(ln xᵢ − mean)² + ν₀σ₀²)/(k − 1 + ν₀) + mean of the sources' own variances
//
// which is the usual conjugate (scaled inverse chi-square) shrinkage of a
// variance with ν₀ prior degrees of freedom (Gelman and others, Bayesian Data
// Analysis, chapter 2, from memory).
//
// # Draws
//
// A result's range is the same function run over draws of its uncertain inputs.
// Draw i of input j is the fractional part of i·√pⱼ + sⱼ, pⱼ the j-th prime and
// sⱼ a seeded shift (Richtmyer's sequence; Niederreiter, Bulletin of the AMS 84,
// 1978, from memory), turned into a normal deviate by the inverse error
// function. A draw depends on i and the seed alone, so the answer does not
// depend on the number of processors.
package evidence
