#pragma once

#include "exchange/class_csv.hpp"
#include "exchange/csv_table.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>

namespace inkturn {

/// Calls the roll while a class's rows are read: takes each candidate and each sitting once. What is wrong
/// with a code or a date is put into the problems with its place.
class ClassRoll {
  public:
    /// All of them must outlive the roll.
    ClassRoll(CsvTable& table, const ClassCsvOptions& options, ClassCsv& csv)
        : table_(table), options_(options), csv_(csv) {}

    /// The position of the candidate whose code is in this column.
    std::size_t candidate(std::size_t column);

    /// The day in this column; nothing where there is none or it lies after today.
    std::optional<Day> day(std::size_t column);

    struct Found {
        std::size_t position; ///< in ClassCsv::sittings
        bool is_new;
    };
    Found sitting(std::size_t candidate, std::size_t paper, Day day);

  private:
    struct Key {
        std::size_t candidate;
        std::size_t paper;
        Day day;
        friend bool operator==(const Key& a, const Key& b) {
            return a.candidate == b.candidate && a.paper == b.paper && a.day == b.day;
        }
    };
    struct KeyHash {
        std::size_t operator()(const Key& key) const noexcept;
    };

    CsvTable& table_;
    const ClassCsvOptions& options_;
    ClassCsv& csv_;
    std::string code_; ///< the one looked for
    std::unordered_map<std::string, std::size_t> candidates_;
    std::unordered_map<Key, std::size_t, KeyHash> sittings_;
};

/// The value of one to three digits; -1 for anything else, which takes the core's parsers to judge.
inline int plain_number(std::string_view text) noexcept {
    if (text.empty() || text.size() > 3)
        return -1;
    int value = 0;
    for (const char c : text) {
        if (c < '0' || c > '9')
            return -1;
        value = value * 10 + (c - '0');
    }
    return value;
}

/// "7b, 8a and 12 more" of any labels.
std::string short_list(const std::vector<std::string_view>& labels);

void read_long_class(CsvTable& table, const ClassCsvOptions& options, const PaperSource& papers,
                     ClassCsv& csv);
void read_wide_class(CsvTable& table, const ClassCsvOptions& options, const PaperSource& papers,
                     ClassCsv& csv);

} // namespace inkturn
