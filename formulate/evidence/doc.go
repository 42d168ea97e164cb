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
//
// 1,000,000 draws of three inputs with five results and three percentiles of
// each (BenchmarkMillionDraws) take 0.11 s of a server processor's time, on as
// many cores as there are; the [DefaultDraws] take about a millisecond. Square
// roots of primes are not quite independent of each other: with the default
// draws the strongest correlation among the first 24 inputs is 0.05, among all
// 96 it is 0.30, so the inputs that matter most should come first.
//
// # Few repeats
//
// Readings x₁ … xₙ of one thing have the mean x̄ = Σxᵢ/n, the standard deviation
// s = √(Σ(xᵢ − x̄)²/(n − 1)) and the standard uncertainty s/√n of the mean; a
// share p of the Student t distribution with n − 1 degrees of freedom gives the
// interval x̄ ± t·s/√n ([Repeat], [Student]). Two readings alone give a factor of
// 12.7 at 95 %: the interval is honest and nearly useless, a third cuts it to
// 4.3. One reading that lies far out is tested by [Grubbs] or, for few, by
// [Dixon]; neither says why it lies there. Both, and the interval, take the
// readings as normally distributed and independent.
//
// Uncertainties combine by the law of propagation, in closed form for a product
// ([Product]) and by central differences for any smooth model ([Propagate]),
// with the degrees of freedom of Welch and Satterthwaite. Sources: JCGM 100:2008
// (the GUM); Grubbs 1950 and 1969; Dixon 1950 and 1951 with the critical values
// of Rorabacher 1991.
//
// # Learning from the maker's own tests
//
// The logarithm of a test is
//
//	ln y = λ + e   e ~ N(0, σtest²)   the hand's scatter, or a body's
//	λ    = μ + l   l ~ N(0, σlot²)    this jar beside others
//	μ    ~ N(ln m, s₀²)               the pigment, from the catalogue
//
// so that s₀² + σlot² is the catalogue's variance, which is that of one more jar
// ([Split]). All is normal, so the update has a closed form: a lot's tests make a
// weighted mean, that mean informs μ with the variance σlot² + σtest²/n, and λ is
// what the other lots foretell of it, updated by its own tests ([Update]). Tests
// of one jar can narrow what is known of other jars no further than σlot allows,
// and scatter that all the tests share, such as a body that is named wrongly every
// time, is learned as if it were the pigment's. The spreads are taken as known.
// How far one more test would narrow a range does not depend on its outcome
// ([Posterior.Gains]); a test that lies far from what was foretold is named before
// it is believed ([Posterior.Contradicts]).
//
// With 10,000 invented pigments the 80 % range holds the truth 79 to 81 % of the
// time after 1, 3 and 5 batches. With a catalogue whose median is off by two of
// its spreads and whose spreads are half of what they should be, it holds 42, 50
// and 56 %: a sure and wrong prior is slowly unlearned.
//
// # What the package does not do
//
// It does not estimate σlot or σtest from the maker's tests, knows nothing of
// units or of what a quantity means, reads and writes no file, and prints
// nothing.
package evidence
