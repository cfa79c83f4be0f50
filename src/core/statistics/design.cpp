#include "design.hpp"

#include <algorithm>

namespace inkturn {

using namespace dense;

Design::Design(bool trend, std::size_t topics) : trend_(trend), effects_((trend ? 2 : 1) + index(topics)) {}

void Design::add(std::size_t group, double time, std::optional<std::size_t> topic) {
    const Index column = topic ? first_topic() + index(*topic) : 0;
    rows_.push_back(
        {index(group),
         time,
         column,
         {Entry{0, 1.0}, Entry{trend_ ? 1 : 0, trend_ ? time : 0}, Entry{column, topic ? 1.0 : 0}}});
}

Design Design::before(std::size_t group) const {
    Design some(*this);
    some.rows_.erase(std::remove_if(some.rows_.begin(), some.rows_.end(),
                                    [&](const Row& row) { return row.group >= index(group); }),
                     some.rows_.end());
    return some;
}

Design Design::from(std::size_t group) const {
    Design some(*this);
    some.rows_.erase(std::remove_if(some.rows_.begin(), some.rows_.end(),
                                    [&](const Row& row) { return row.group < index(group); }),
                     some.rows_.end());
    return some;
}

MatrixXd Design::weighted(const VectorXd& weights) const {
    MatrixXd by_group = MatrixXd::Zero(weights.size(), effects_);
    for (const Row& row : rows_)
        for (const auto& [effect, number] : row.entries)
            by_group(row.group, effect) += weights[row.group] * number;
    return by_group;
}

double Design::reach(const Row& row, const double* by_effect) {
    double sum = 0;
    for (const auto& [effect, number] : row.entries)
        sum += number * by_effect[effect];
    return sum;
}

VectorXd Design::reached(const VectorXd& by_effect) const {
    VectorXd by_row(index(rows_.size()));
    for (std::size_t i = 0; i < rows_.size(); ++i)
        by_row[index(i)] = reach(rows_[i], by_effect.data());
    return by_row;
}

void Design::add_reached(const MatrixXd& by_effect, MatrixXd& by_group) const {
    for (Index j = 0; j < by_effect.cols(); ++j)
        for (const Row& row : rows_)
            by_group(row.group, j) += reach(row, by_effect.data() + j * effects_);
}

VectorXd Design::added_up(const VectorXd& by_row) const {
    VectorXd by_effect = VectorXd::Zero(effects_);
    for (std::size_t i = 0; i < rows_.size(); ++i)
        for (const auto& [effect, number] : rows_[i].entries)
            by_effect[effect] += number * by_row[index(i)];
    return by_effect;
}

MatrixXd Design::groups_added_up(const MatrixXd& by_group) const {
    MatrixXd by_effect = MatrixXd::Zero(effects_, by_group.cols());
    for (Index j = 0; j < by_group.cols(); ++j)
        for (const Row& row : rows_)
            for (const auto& [effect, number] : row.entries)
                by_effect(effect, j) += number * by_group(row.group, j);
    return by_effect;
}

MatrixXd Design::columns_added_up(const MatrixXd& columns, const VectorXd& weights) const {
    MatrixXd by_effect = MatrixXd::Zero(columns.rows(), effects_);
    for (const Row& row : rows_) {
        const auto column = columns.col(row.group);
        by_effect.col(row.topic) += weights[row.group] * column;
        if (trend_)
            by_effect.col(1) += weights[row.group] * row.time * column;
    }
    for (Index topic = first_topic(); topic < effects_; ++topic)
        by_effect.col(0) += by_effect.col(topic);
    return by_effect;
}

MatrixXd Design::information(const VectorXd& diagonal) const {
    MatrixXd sum = MatrixXd::Zero(effects_, effects_);
    for (std::size_t i = 0; i < rows_.size(); ++i)
        for (const auto& [effect, number] : rows_[i].entries)
            for (const auto& [other, other_number] : rows_[i].entries)
                sum(effect, other) += diagonal[index(i)] * number * other_number;
    return sum;
}

VectorXd Design::variances(const MatrixXd& covariance) const {
    VectorXd by_row = VectorXd::Zero(index(rows_.size()));
    for (std::size_t i = 0; i < rows_.size(); ++i)
        for (const auto& [effect, number] : rows_[i].entries)
            by_row[index(i)] += number * reach(rows_[i], covariance.data() + effect * effects_);
    return by_row;
}

void Design::add_covariance(MatrixXd covariance, double weight, MatrixXd& by_groups) const {
    covariance *= weight;
    for (Index topic = first_topic(); topic < effects_; ++topic)
        covariance.col(topic) += covariance.col(0); // what a row without a time takes
    MatrixXd columns = MatrixXd::Zero(by_groups.rows(), effects_);
    add_reached(covariance, columns);
    for (const Row& row : rows_) {
        const Index below = by_groups.rows() - row.group;
        auto to = by_groups.col(row.group).tail(below);
        to += columns.col(row.topic).tail(below);
        if (trend_)
            to += row.time * columns.col(1).tail(below);
    }
}

} // namespace inkturn
