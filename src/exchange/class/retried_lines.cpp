#include "exchange/class/retried_lines.hpp"

#include "inkturn/base/ascii.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/long_ago.hpp"
#include "inkturn/base/text.hpp"
#include "inkturn/base/utf8.hpp"
#include "inkturn/paper/label.hpp"
#include "inkturn/retry/returned_line.hpp"

#include <algorithm>
#include <set>
#include <string>
#include <utility>
#include <vector>

namespace inkturn {
namespace {

/// A text without what a mail program or a keyboard puts into a line: blanks, ends of rows, and `>` where a
/// row begins.
struct Packed {
    explicit Packed(std::string_view text) {
        bool row_begins = true;
        std::size_t row = 0;
        for (std::size_t i = 0; i < text.size();) {
            const std::size_t blank = blank_length(text.substr(i));
            const bool ends_row = text[i] == '\n' || text[i] == '\r';
            if (blank == 0 && !ends_row && !(row_begins && text[i] == '>')) {
                signs += text[i];
                from.push_back(i);
                rows.push_back(row);
                row_begins = false;
            }
            row += static_cast<std::size_t>(text[i] == '\n');
            row_begins = row_begins || ends_row;
            i += std::max<std::size_t>(blank, 1);
        }
        lower = lower_case(signs);
    }

    std::string signs;
    std::string lower;             ///< the same in lower case
    std::vector<std::size_t> from; ///< where in the text each of them stands
    std::vector<std::size_t> rows; ///< in which row, from 0
};

bool ends_line(std::string_view word) {
    return contains(lower_case(word), line_ends);
}

/// Whether a word can be a piece of a line that lost its start.
bool is_piece(std::string_view word) {
    const std::string_view inner = word.substr(0, word.find_last_not_of(",;.") + 1);
    return ends_line(word) || (contains(inner, "=") && inner.find_first_of(",;") != std::string_view::npos);
}

/// `4=8`: marks as they are typed.
bool is_entry(std::string_view word) {
    const std::size_t equals = word.find('=');
    return equals != std::string_view::npos && equals + 1 < word.size() &&
           (word[equals + 1] == '-' || (word[equals + 1] >= '0' && word[equals + 1] <= '9')) &&
           read_label(word.substr(0, equals));
}

/// Whether one of the row's words, between blanks, is so.
bool has_word(std::string_view row, bool (*is_so)(std::string_view word)) {
    std::size_t start = 0;
    for (std::size_t i = 0; i < row.size();) {
        const std::size_t blank = blank_length(row.substr(i));
        if (blank > 0 && is_so(row.substr(start, i - start)))
            return true;
        i += std::max<std::size_t>(blank, 1);
        start = blank > 0 ? i : start;
    }
    return is_so(row.substr(start));
}

bool is_retry_id(std::string_view word) {
    try {
        parse_retry_id(word);
        return true;
    } catch (const Error&) {
        return false;
    }
}

/// `1q4t2 4=8`: a row with marks, or one that begins as a command for a re-attempt does.
bool is_typed_by_hand(std::string_view row) {
    std::string_view rest = trimmed(row);
    const std::size_t blank = std::min(rest.find_first_of(" \t"), rest.size());
    const std::string_view first = rest.substr(0, blank);
    return has_word(row, is_entry) || (is_retry_id(first) && blank < rest.size());
}

std::vector<std::string_view> rows_of(std::string_view text) {
    std::vector<std::string_view> rows;
    while (!text.empty()) {
        const std::size_t end = text.find('\n');
        rows.push_back(text.substr(0, end));
        text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
    }
    return rows;
}

/// Lines among the words of a message; one may run over several rows.
class LinesInText {
  public:
    LinesInText(std::string_view text, const RetriedFileOptions& options, RetriedFile& file)
        : text_(text), rows_(rows_of(text)), packed_(text), options_(options), file_(file) {}

    void read() {
        std::size_t row = 0; // the first that holds nothing of the lines so far
        for (std::size_t start = packed_.lower.find(line_begins); start != std::string::npos;) {
            take_pieces(row, packed_.rows[start]);
            const std::size_t end = end_of(start);
            row = packed_.rows[end - 1] + 1;
            take(line_between(start, end), place_of(start));
            start = packed_.lower.find(line_begins, end);
        }
        take_pieces(row, rows_.size());
    }

  private:
    Problem place_of(std::size_t sign) const {
        const std::size_t row = packed_.rows[sign];
        const auto in_row = static_cast<std::size_t>(text_.data() + packed_.from[sign] - rows_[row].data());
        return {row + 1, character_count(rows_[row].substr(0, in_row)) + 1, {}};
    }

    /// The sign after the line that starts there: after its end, or where it was cut, after what its row
    /// holds of it.
    std::size_t end_of(std::size_t start) const {
        const std::size_t next = std::min(packed_.lower.find(line_begins, start + 1), packed_.signs.size());
        std::size_t in_row = start;
        while (in_row < next && packed_.rows[in_row] == packed_.rows[start])
            ++in_row;
        const std::size_t end = packed_.lower.find(line_ends, start);
        if (end >= next || (end > in_row && !is_one_line(start, end + line_ends.size())))
            return in_row;
        return end + line_ends.size();
    }

    /// Whether what runs over several rows is one line, and not the words of a message.
    bool is_one_line(std::size_t start, std::size_t end) const {
        if (is_unchanged(line_between(start, end)))
            return true;
        for (std::size_t i = start + 1; i < end; ++i) {
            const bool is_in_row = packed_.rows[i] == packed_.rows[i - 1];
            if (is_in_row && packed_.from[i] - packed_.from[i - 1] > 1)
                return false;
        }
        return true;
    }

    /// As the page made it, whatever a keyboard made of the words at its ends.
    std::string line_between(std::size_t start, std::size_t end) const {
        std::string line = packed_.signs.substr(start, end - start);
        line.replace(0, line_begins.size(), line_begins);
        const std::size_t last = line.size() - line_ends.size();
        if (packed_.lower.compare(start + last, line_ends.size(), line_ends) == 0)
            line.replace(last, line_ends.size(), line_ends);
        return line;
    }

    void take_pieces(std::size_t row, std::size_t end) {
        for (; row < end; ++row)
            if (has_word(rows_[row], is_piece))
                take(std::string(trimmed(rows_[row])), {row + 1, 1, {}});
            else if (is_typed_by_hand(rows_[row]))
                file_.problems.add(
                    {row + 1, 1,
                     "'" + std::string(trimmed(rows_[row])) +
                         "' is not a line from a page: leave it out, and record it on its own with "
                         "'inkturn retry'"});
    }

    void take(const std::string& text, const Problem& place) {
        ++file_.rows;
        try {
            const ReturnedLine line = parse_returned_line(text);
            if (!lines_.emplace(text).second) {
                ++file_.repeated;
                return;
            }
            for (const LineRetry& retry : line.retries)
                add(line.candidate, retry, place);
        } catch (const Error& error) {
            file_.problems.add({place.line, place.column, error.what(), error.remedy(), error.about()});
        }
    }

    void add(const std::string& candidate, const LineRetry& retry, const Problem& place) {
        RetriedEntry entry{candidate, retry.id, retry.paper, {}, retry.day, {}, false, false, place};
        check_day_of(retry, place);
        for (const Entry& typed : retry.entries)
            entry.marks.push_back({typed.part, typed.marks, {}, place});
        file_.entries.push_back(std::move(entry));
    }

    void check_day_of(const LineRetry& retry, const Problem& place) {
        if (retry.day > options_.today)
            throw Error("retry " + to_text(retry.id) + " is dated " + iso(retry.day) + ", after today, " +
                        iso(options_.today) + ": correct the day on the page");
        if (is_long_ago(retry.day, options_.today))
            file_.doubts.raise(DoubtKind::date, {place.line, place.column,
                                                 "retry " + to_text(retry.id) + " is dated " +
                                                     day_text(retry.day) + ", more than a year back"});
    }

    std::string_view text_;
    std::vector<std::string_view> rows_;
    Packed packed_;
    const RetriedFileOptions& options_;
    RetriedFile& file_;
    std::set<std::string> lines_; ///< met so far
};

} // namespace

bool holds_returned_lines(std::string_view text) {
    if (contains(Packed(text).lower, line_begins))
        return true;
    const std::vector<std::string_view> rows = rows_of(text);
    return std::any_of(rows.begin(), rows.end(),
                       [](std::string_view row) { return has_word(row, ends_line); });
}

RetriedFile read_retried_lines(std::string_view text, const RetriedFileOptions& options) {
    RetriedFile file;
    file.doubts = FileDoubts(options.accepted, {DoubtKind::date, DoubtKind::known_code, DoubtKind::early,
                                                DoubtKind::nothing_retried});
    LinesInText(text, options, file).read();
    return file;
}

} // namespace inkturn
