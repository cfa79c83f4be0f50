#include "exchange/class/retried_lines.hpp"

#include "inkturn/base/long_ago.hpp"
#include "inkturn/base/text.hpp"
#include "inkturn/base/utf8.hpp"
#include "inkturn/retry/returned_line.hpp"

#include <algorithm>
#include <set>
#include <utility>

namespace inkturn {
namespace {

/// A row may hold several lines, and words about them.
class LinesInRow {
  public:
    LinesInRow(std::string_view row, std::size_t number, const RetriedFileOptions& options, RetriedFile& file,
               std::set<std::string>& lines)
        : row_(row), number_(number), options_(options), file_(file), lines_(lines) {}

    void read() {
        std::size_t start = row_.find(line_begins);
        if (start == std::string_view::npos)
            start = row_.find(line_ends) != std::string_view::npos || contains(row_, "=") ? 0 : row_.size();
        while (start < row_.size()) {
            const std::size_t next = row_.find(line_begins, start + 1);
            const std::string_view rest = row_.substr(start, next - start);
            const std::size_t end = rest.find(line_ends);
            take(trimmed(rest.substr(0, end == std::string_view::npos ? end : end + line_ends.size())),
                 start);
            start = next;
        }
    }

  private:
    Problem at(std::size_t start, std::string message = {}) const {
        return {number_, character_count(row_.substr(0, start)) + 1, std::move(message)};
    }

    void take(std::string_view text, std::size_t start) {
        ++file_.rows;
        try {
            const ReturnedLine line = parse_returned_line(text);
            if (!lines_.emplace(text).second) {
                ++file_.repeated;
                return;
            }
            for (const LineRetry& retry : line.retries)
                add(line.candidate, retry, start);
        } catch (const Error& error) {
            file_.problems.add({number_, at(start).column, error.what(), error.remedy(), error.about()});
        }
    }

    void add(const std::string& candidate, const LineRetry& retry, std::size_t start) {
        RetriedEntry entry{candidate, retry.id, retry.paper, {}, retry.day, {}, false, false, at(start)};
        check_day_of(retry, start);
        for (const Entry& typed : retry.entries)
            entry.marks.push_back({typed.part, typed.marks, {}, at(start)});
        file_.entries.push_back(std::move(entry));
    }

    void check_day_of(const LineRetry& retry, std::size_t start) {
        if (retry.day > options_.today)
            throw Error("retry " + to_text(retry.id) + " is dated " + iso(retry.day) + ", after today, " +
                        iso(options_.today) + ": correct the day on the page");
        if (is_long_ago(retry.day, options_.today))
            file_.doubts.raise(DoubtKind::date,
                               at(start, "retry " + to_text(retry.id) + " is dated " + day_text(retry.day) +
                                             ", more than a year back"));
    }

    std::string_view row_;
    std::size_t number_;
    const RetriedFileOptions& options_;
    RetriedFile& file_;
    std::set<std::string>& lines_; ///< met so far
};

} // namespace

bool holds_returned_lines(std::string_view text) {
    return contains(text, line_begins) || contains(text, line_ends);
}

RetriedFile read_retried_lines(std::string_view text, const RetriedFileOptions& options) {
    RetriedFile file;
    file.doubts = FileDoubts(options.accepted);
    std::set<std::string> lines;
    for (std::size_t number = 1; !text.empty(); ++number) {
        const std::size_t end = text.find('\n');
        LinesInRow(text.substr(0, end), number, options, file, lines).read();
        text = end == std::string_view::npos ? std::string_view() : text.substr(end + 1);
    }
    return file;
}

} // namespace inkturn
