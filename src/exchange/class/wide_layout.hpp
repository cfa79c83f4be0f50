#pragma once

#include "exchange/class/class_file.hpp"
#include "exchange/table/table.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace inkturn {

/// A column of a wide file.
struct WideColumn {
    std::size_t column;
    std::string heading;      ///< as written
    std::string label{};      ///< of a part, a question or a section
    std::optional<int> max{}; ///< that the heading states
    Problem place{};          ///< of the heading
};

/// The columns of one paper of a wide file.
struct WidePaperColumns {
    std::string id;
    std::shared_ptr<const Paper> on_file;
    std::vector<WideColumn> parts;     ///< those that the paper has, if it is on file
    std::vector<WideColumn> strangers; ///< parts that a paper on file has not
    std::vector<WideColumn> sums;      ///< of questions or sections, checked and left out
    std::optional<WideColumn> total;
    std::optional<std::size_t> date;
};

/// What the columns of a wide file hold.
struct WideLayout {
    std::size_t candidate = 0;
    std::optional<std::size_t> date;
    std::optional<std::size_t> only;
    std::optional<std::size_t> extra_time;
    std::vector<WidePaperColumns> papers;
    std::vector<WideColumn> ignored; ///< remarks, names
    std::vector<WideColumn> unknown; ///< doubted if they hold anything
    bool has_row = false;            ///< whether the table is at the first row below the header
};

/// Reads the header, which may have a row of papers or of questions above it, or one of sub-parts below.
/// Nothing if no rows can be read with it, which is then a problem.
std::optional<WideLayout> read_wide_layout(HeadedTable& table, const ClassFileOptions& options,
                                           const PaperSource& source, ClassFile& file);

} // namespace inkturn
