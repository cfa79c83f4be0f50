#include "dense.hpp"

#include <Eigen/Cholesky>

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace inkturn::dense {

MatrixXd product(const MatrixXd& left, const MatrixXd& right) {
    return left * right;
}

VectorXd times(const MatrixXd& left, const VectorXd& right) {
    return left * right;
}

MatrixXd inner(const MatrixXd& left, const MatrixXd& right) {
    return left.transpose() * right;
}

MatrixXd sandwich(const MatrixXd& left, const MatrixXd& right) {
    return product(product(left, right), left.transpose());
}

MatrixXd outer(const VectorXd& column, const VectorXd& row) {
    MatrixXd all(column.size(), row.size());
    for (Index j = 0; j < row.size(); ++j)
        all.col(j) = column * row[j];
    return all;
}

Factor::Factor(MatrixXd positive) : lower_(std::move(positive)) {
    const Eigen::LLT<Eigen::Ref<MatrixXd>> in_place(lower_);
    if (in_place.info() != Eigen::Success)
        lower_.setConstant(std::numeric_limits<double>::quiet_NaN());
}

double Factor::log_determinant() const {
    double sum = 0;
    for (Index i = 0; i < lower_.rows(); ++i)
        sum += std::log(lower_(i, i));
    return 2 * sum;
}

MatrixXd Factor::inverse() const {
    return back(forward(MatrixXd::Identity(lower_.rows(), lower_.cols())));
}

VectorXd Factor::solve(const VectorXd& right) const {
    return back(forward(right));
}

MatrixXd Factor::forward(MatrixXd right) const {
    lower_.triangularView<Eigen::Lower>().solveInPlace(right);
    return right;
}

MatrixXd Factor::back(MatrixXd right) const {
    lower_.transpose().triangularView<Eigen::Upper>().solveInPlace(right);
    return right;
}

MatrixXd Factor::lower_inverse() const {
    constexpr Index width = 32; // of the columns solved together: nothing is above their first row
    const Index size = lower_.rows();
    MatrixXd inverse = MatrixXd::Zero(size, size);
    for (Index first = 0; first < size; first += width) {
        const Index rows = size - first;
        MatrixXd columns = MatrixXd::Identity(rows, std::min(width, rows));
        lower_.bottomRightCorner(rows, rows).triangularView<Eigen::Lower>().solveInPlace(columns);
        inverse.block(first, first, rows, columns.cols()) = columns;
    }
    return inverse;
}

} // namespace inkturn::dense
