#pragma once
// What `measure` needs of statistics. Standards: JCGM 100:2008 (the GUM).

#include <vector>

namespace leeway {

// REQUIRES: not empty.
double mean(const std::vector<double>& values);

// Experimental standard deviation (JCGM 100, 4.2.2). REQUIRES: two values or more.
double standard_deviation(const std::vector<double>& values);

// Correlation coefficient (JCGM 100, C.3.6); NaN where one of the two does not vary.
// REQUIRES: as many of both, two or more.
double correlation(const std::vector<double>& a, const std::vector<double>& b);

double median(std::vector<double> values);

// The modified z-scores 0.6745 (x - median) / MAD (Iglewicz and Hoaglin, "How to Detect and Handle
// Outliers", ASQC 1993; NIST/SEMATECH e-Handbook 1.3.5.17). Where more than half of the values are
// the same, so that the median absolute deviation is 0, the mean absolute deviation takes its
// place: (x - median) / (1.2533 times it), from memory. All 0 where nothing varies. What they are
// divided by is at least `least_scale`: what is known of the values' standard uncertainty.
std::vector<double> modified_z_scores(const std::vector<double>& values, double least_scale = 0);

// y = intercept + slope x by least squares (JCGM 100, H.3).
struct Line {
  double intercept = 0;
  double slope = 0;
  double slope_uncertainty = 0;
  double degrees_of_freedom = 0;
  double p = 1;  // of a slope as far from 0 as this or farther, were there none (two-sided)
};

// REQUIRES: as many of both, three or more, and x that vary.
Line fitted_line(const std::vector<double>& x, const std::vector<double>& y);

// Student's t: the factor for a coverage probability, two-sided (JCGM 100, G.3). Infinite degrees
// of freedom give the normal distribution's.
double t_factor(double probability, double degrees_of_freedom);

}  // namespace leeway
