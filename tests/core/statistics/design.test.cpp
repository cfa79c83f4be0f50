#include "core/statistics/design.hpp"

#include "catch.hpp"
#include "dice.hpp"

#include <random>

using namespace inkturn;
using namespace inkturn::test;
using dense::Index;
using dense::MatrixXd;
using dense::VectorXd;

namespace {

constexpr std::size_t groups = 9;
constexpr std::size_t topics = 3;

MatrixXd dealt(std::mt19937& dice, Index rows, Index columns) {
    MatrixXd numbers(rows, columns);
    for (Index j = 0; j < columns; ++j)
        for (Index i = 0; i < rows; ++i)
            numbers(i, j) = pick(dice, -9, 9);
    return numbers;
}

Design dealt_design(std::mt19937& dice, bool trend) {
    Design design(trend, topics);
    for (std::size_t group = 0; group < groups; ++group)
        if (pick(dice, 0, 3) > 0) {
            const auto topic = static_cast<std::size_t>(pick(dice, 0, topics));
            design.add(group, trend ? pick(dice, -3, 3) : 0,
                       topic < topics ? std::optional<std::size_t>(topic) : std::nullopt);
        }
    return design;
}

/// A row for each of the groups.
MatrixXd written_out(const Design& design) {
    return design.weighted(VectorXd::Ones(groups));
}

} // namespace

TEST_CASE("a design's sums are products with it written out") {
    std::mt19937 dice(171);
    for (int round = 0; round < 40; ++round) {
        const Design design = dealt_design(dice, round % 2 == 0);
        const MatrixXd whole = written_out(design);
        const MatrixXd by_group = dealt(dice, groups, 2);
        CHECK(design.groups_added_up(by_group).isApprox(MatrixXd(whole.transpose() * by_group)));
        const MatrixXd by_effect = dealt(dice, design.effects(), 2);
        MatrixXd reached = MatrixXd::Ones(groups, 2);
        design.add_reached(by_effect, reached);
        CHECK(reached.isApprox(MatrixXd(MatrixXd::Ones(groups, 2) + whole * by_effect)));
        const VectorXd weights = dealt(dice, groups, 1);
        const MatrixXd columns = dealt(dice, 4, groups);
        CHECK(design.columns_added_up(columns, weights)
                  .isApprox(MatrixXd(columns * weights.asDiagonal() * whole)));
    }
}

TEST_CASE("a design's covariance is the design on both sides of that of the effects") {
    std::mt19937 dice(172);
    for (int round = 0; round < 40; ++round) {
        const Design design = dealt_design(dice, round % 2 == 0);
        const MatrixXd root = dealt(dice, design.effects(), design.effects());
        const MatrixXd covariance = root * root.transpose();
        const MatrixXd whole = written_out(design);
        MatrixXd added = MatrixXd::Ones(groups, groups);
        design.add_covariance(covariance, 2, added);
        const MatrixXd expected = MatrixXd::Ones(groups, groups) + 2 * whole * covariance * whole.transpose();
        const VectorXd variances = design.variances(covariance);
        for (std::size_t row = 0; row < design.rows(); ++row) {
            const Index group = design.group(row);
            const Index below = dense::index(groups) - group;
            CHECK(added.col(group).tail(below).isApprox(expected.col(group).tail(below)));
            CHECK(2 * variances[dense::index(row)] + 1 == expected(group, group));
        }
    }
}

TEST_CASE("a factor gives the inverse, and of what has none no number") {
    std::mt19937 dice(173);
    const MatrixXd root = dealt(dice, 70, 70);
    const MatrixXd positive = root * root.transpose() + MatrixXd::Identity(70, 70);
    const dense::Factor factor(positive);
    CHECK((factor.inverse() * positive).isApprox(MatrixXd::Identity(70, 70), 1e-6));
    CHECK((factor.lower_inverse().transpose() * factor.lower_inverse()).isApprox(factor.inverse(), 1e-6));
    CHECK(std::isnan(dense::Factor(-positive).log_determinant()));
}
