#pragma once

#include "dense.hpp"

#include <array>
#include <optional>
#include <vector>

namespace inkturn {

/// Which effects reach which groups: a matrix with a row for each group and a column for each effect. The
/// effects are the level, the trend if there is one, and topics; a row holds a 1, its time, and a 1 for its
/// topic.
class Design {
  public:
    Design(bool trend, std::size_t topics);
    /// A row; `group` is its position among all groups, above that of the row before.
    void add(std::size_t group, double time, std::optional<std::size_t> topic);

    std::size_t rows() const { return rows_.size(); }
    dense::Index group(std::size_t row) const { return rows_[row].group; }
    dense::Index effects() const { return effects_; }
    dense::Index first_topic() const { return trend_ ? 2 : 1; }

    /// Its rows of groups before a position, and those from it on.
    Design before(std::size_t group) const;
    Design from(std::size_t group) const;

    /// It with a row for each of the groups that have a weight, which its rows are multiplied by.
    dense::MatrixXd weighted(const dense::VectorXd& weights) const;

    /// The design times numbers by effect: what reaches each row.
    dense::VectorXd reached(const dense::VectorXd& by_effect) const;
    /// The same by column, added to the rows' groups.
    void add_reached(const dense::MatrixXd& by_effect, dense::MatrixXd& by_group) const;

    /// The design transposed times numbers by row: what they add up to for each effect.
    dense::VectorXd added_up(const dense::VectorXd& by_row) const;
    /// The same by column, of the rows' groups.
    dense::MatrixXd groups_added_up(const dense::MatrixXd& by_group) const;
    /// What the columns of groups add up to, each times its group's weight.
    dense::MatrixXd columns_added_up(const dense::MatrixXd& columns, const dense::VectorXd& weights) const;

    /// The design transposed, times a diagonal by row, times the design.
    dense::MatrixXd information(const dense::VectorXd& diagonal) const;

    /// Of the design, times a symmetric matrix, times the design transposed: the diagonal.
    dense::VectorXd variances(const dense::MatrixXd& covariance) const;
    /// The lower half of the same, times a weight, added to the rows' groups.
    void add_covariance(dense::MatrixXd covariance, double weight, dense::MatrixXd& by_groups) const;

  private:
    struct Entry {
        dense::Index effect;
        double number;
    };
    struct Row {
        dense::Index group;
        double time;
        dense::Index topic;           ///< column; 0 without a topic
        std::array<Entry, 3> entries; ///< those that it has not have the number 0
    };
    static double reach(const Row& row, const double* by_effect);

    bool trend_;
    dense::Index effects_;
    std::vector<Row> rows_;
};

} // namespace inkturn
