#include "rules/statistics/distributions.hpp"

#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/distributions/fisher_f.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <cmath>
#include <numbers>

namespace tenth::statistics {
namespace {

// A tail too thin for a double is 0; nothing here throws for arguments that the header admits.
using Policy =
    boost::math::policies::policy<boost::math::policies::overflow_error<boost::math::policies::ignore_error>,
                                  boost::math::policies::underflow_error<boost::math::policies::ignore_error>>;
using Student = boost::math::students_t_distribution<double, Policy>;
using Fisher = boost::math::fisher_f_distribution<double, Policy>;
using ChiSquared = boost::math::chi_squared_distribution<double, Policy>;

}  // namespace

double student_point(double tail, double freedom) {
  return quantile(complement(Student(freedom), tail));
}

double fisher_point(double tail, double above, double below) {
  return quantile(complement(Fisher(above, below), tail));
}

double chi_squared_point(double tail, double freedom) {
  return quantile(complement(ChiSquared(freedom), tail));
}

double student_beyond(double t, double freedom) {
  return 2 * cdf(Student(freedom), -std::abs(t));
}

double fisher_beyond(double f, double above, double below) {
  return cdf(complement(Fisher(above, below), f));
}

double normal_below(double z) {
  return std::erfc(-z / std::numbers::sqrt2) / 2;
}

}  // namespace tenth::statistics
