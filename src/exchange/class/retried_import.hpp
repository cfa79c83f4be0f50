#pragma once

#include "exchange/class/retried_file.hpp"
#include "inkturn/retry/candidate.hpp"
#include "inkturn/store/store.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace inkturn {

struct RetriedOptions {
    RetriedFileOptions file;
    std::optional<std::string> of_class{};     ///< its members alone may be in the file
    std::optional<std::string> of_candidate{}; ///< this one alone
};

/// A re-attempt of a file that can be put on file.
struct RetriedOnce {
    std::string candidate;
    RetryId id;
    Reattempt reattempt;
    bool got;
    Marks missed; ///< 0 if it was got
};

/// What a file of re-attempts holds for the store.
struct ClassRetried {
    std::size_t rows = 0;
    std::vector<RetriedOnce> added; ///< by candidate, then in the order of the file
    std::size_t unchanged = 0;      ///< on file already
    std::size_t repeated = 0;       ///< lines from the phone that were there already
    std::size_t left_open = 0;      ///< retries whose rows say nothing, or that were not done
    std::vector<std::string> columns_ignored;
    std::vector<std::string> rows_left_out;
    FileDoubts doubts;    ///< if any is open, nothing must be stored
    ProblemList problems; ///< the same if there are any
};

/// Reads re-attempts and holds each against its candidate's retries, as they are once those before it in the
/// file are recorded. Nothing is stored. Throws Error where the class is not on file.
ClassRetried read_class_retried(const Store& store, Rows& rows, const RetriedOptions& options);

/// The same of lines that pages for the phone gave to copy back.
ClassRetried read_class_retried(const Store& store, std::string_view lines, const RetriedOptions& options);

std::string json_of(const ClassRetried& retried);

} // namespace inkturn
