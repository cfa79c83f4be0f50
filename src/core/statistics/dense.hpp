#pragma once

#include <Eigen/Core>

#include <cstddef>

/// The products and factors of dense matrices that the model of abilities is solved with. Each form is
/// written once and compiled once: Eigen is dear to compile.
namespace inkturn::dense {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

inline Index index(std::size_t position) {
    return static_cast<Index>(position);
}

MatrixXd product(const MatrixXd& left, const MatrixXd& right);
VectorXd times(const MatrixXd& left, const VectorXd& right);

/// The left transposed times the right.
MatrixXd inner(const MatrixXd& left, const MatrixXd& right);

/// left · right · left transposed.
MatrixXd sandwich(const MatrixXd& left, const MatrixXd& right);

/// A column times a row.
MatrixXd outer(const VectorXd& column, const VectorXd& row);

/// The Cholesky factor of a positive definite matrix.
class Factor {
  public:
    Factor() = default;
    /// Reads the lower half. Of a matrix that is not positive definite all is NaN.
    explicit Factor(MatrixXd positive);

    double log_determinant() const; ///< of the matrix
    MatrixXd inverse() const;       ///< of the matrix
    VectorXd solve(const VectorXd& right) const;

    const MatrixXd& lower() const { return lower_; }
    MatrixXd forward(MatrixXd right) const; ///< the factor's inverse times it
    MatrixXd back(MatrixXd right) const;    ///< the transposed factor's inverse times it
    MatrixXd lower_inverse() const;

  private:
    MatrixXd lower_; ///< above the diagonal is anything
};

} // namespace inkturn::dense
