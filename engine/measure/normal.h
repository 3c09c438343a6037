// The normal distribution of one variable.
//
// cdf(x) = erfc(-x / sqrt 2) / 2. quantile(p) is its inverse: the rational start of Abramowitz & Stegun
// 26.2.23 (error below 4.5e-4), then two Halley steps.
// Range: p in (0, 1); p <= 0 gives -infinity, p >= 1 +infinity. Error: cdf(quantile(p)) = p within 1e-15
// in p up to 1/2, and within 1e-13 of p itself down to 1e-300.
// Source: Abramowitz & Stegun, Handbook of Mathematical Functions (1964), 26.2.
#pragma once

namespace trammel {

double normal_cdf(double x);
double normal_quantile(double p);

}  // namespace trammel
