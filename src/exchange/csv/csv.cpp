#include "exchange/csv/csv.hpp"

#include "exchange/csv/encoding.hpp"
#include "inkturn/base/ascii.hpp"
#include "inkturn/base/utf8.hpp"

#include <algorithm>
#include <array>
#include <cstring>

namespace inkturn {
namespace {

constexpr std::size_t max_record_bytes = 1'048'576;
constexpr std::array<char, 3> delimiters{',', ';', '\t'};
constexpr std::array<const char*, 3> delimiter_names{"commas", "semicolons", "tabs"};

struct Place {
    std::size_t line;
    std::size_t column;
};

std::string without_doubled_quotes(std::string_view text) {
    std::string plain;
    for (std::size_t i = 0; i < text.size(); ++i) {
        plain += text[i];
        if (text[i] == '"')
            ++i;
    }
    return plain;
}

} // namespace

/// The current text is at start_ to end_ of a buffer, with a NUL behind it to stop scans; the record being
/// read is always whole in it, from start_ on.
struct CsvReader::State {
    State(std::istream& in, const CsvOptions& options, std::string_view start_of_file)
        : source(in, options, start_of_file), delimiter(options.delimiter.value_or('\0')) {
        buffer.push_back('\0');
        set_specials();
    }

    TextSource source;
    std::vector<char> buffer;
    std::size_t start = 0; ///< of the record
    std::size_t next = 0;  ///< behind the record and its line break
    std::size_t end = 0;
    bool ended = false; ///< no text is left beyond the buffer's
    std::size_t line = 1;
    std::size_t line_breaks = 0; ///< in the record
    std::size_t open_quote = 0;  ///< where a quote was last opened, when the text ended before it closed
    bool in_quotes = false;
    bool is_begun = false; ///< whether a record has been read
    char delimiter;        ///< NUL: to be sniffed
    std::array<bool, 256> special{};

    std::vector<std::string_view> fields;
    std::vector<std::size_t> doubled; ///< the fields with doubled quotes in them
    std::vector<std::string> undoubled;

    const char* at(std::size_t position) const { return buffer.data() + position; }

    void set_specials() {
        for (const char c : {'\0', '\n', '\r', '"', delimiter})
            special[static_cast<unsigned char>(c)] = true;
    }

    /// The place of a character of the record.
    Place place(const char* where) const {
        Place found{line, 1};
        for (const char* c = at(start); c != where; ++c) {
            if (*c == '\n')
                found = {found.line + 1, 1};
            else if (!continues_character(*c))
                ++found.column;
        }
        return found;
    }

    [[noreturn]] void fail(const char* where, std::string message) const {
        const Place at_fault = place(where);
        throw UnreadableFile({at_fault.line, at_fault.column, std::move(message)});
    }

    [[noreturn]] void fail_open_quote() const { fail(at(open_quote), "the quote opened here is not closed"); }

    void fail_at_fault() const {
        if (!source.fault())
            return;
        if (source.fault()->whole_file)
            throw UnreadableFile({0, 0, source.fault()->message});
        fail(at(end), source.fault()->message);
    }

    /// Reads more text into the buffer, after the record's.
    void fill() {
        if (end - start > max_record_bytes) {
            if (in_quotes)
                fail_open_quote();
            fail(at(start), "the row that starts here is longer than a mebibyte: is this a CSV file?");
        }
        std::memmove(buffer.data(), at(start), end - start);
        end -= start;
        open_quote -= start;
        start = 0;
        const std::string_view piece = source.next();
        ended = piece.empty();
        if (buffer.size() < end + piece.size() + 1)
            buffer.resize(end + piece.size() + 1);
        std::copy(piece.begin(), piece.end(), buffer.begin() + static_cast<std::ptrdiff_t>(end));
        end += piece.size();
        buffer[end] = '\0';
    }

    /// Moves the start past line breaks; false if nothing follows them.
    bool pass_empty_lines() {
        for (;;) {
            const char* c = at(start);
            const bool carriage_return = c[0] == '\r';
            if (c[carriage_return] == '\n') {
                start += carriage_return ? 2 : 1;
                ++line;
            } else if (c[carriage_return] != '\0' || (ended && carriage_return)) {
                return true;
            } else if (ended) {
                return false;
            } else {
                fill();
            }
        }
    }

    /// Passes a first line `sep=;`, as spreadsheets write it, and takes its delimiter if none was given.
    void pass_stated_delimiter() {
        constexpr std::string_view start_of_line = "sep=";
        const std::size_t longest = start_of_line.size() + 3;
        while (end - start < longest && !ended)
            fill();
        const std::string_view text(at(start), std::min(end - start, longest));
        if (text.size() <= start_of_line.size() || lower_case(text.substr(0, 4)) != start_of_line)
            return;
        const char stated = text[4];
        const std::string_view after = text.substr(5);
        const std::size_t line_break = after.substr(0, 1) == "\n" ? 1 : after.substr(0, 2) == "\r\n" ? 2 : 0;
        const bool is_known = std::find(delimiters.begin(), delimiters.end(), stated) != delimiters.end();
        if (!is_known || (line_break == 0 && !after.empty()))
            return;
        if (delimiter == '\0') {
            delimiter = stated;
            set_specials();
        }
        start += 5 + line_break;
        ++line;
    }

    /// By the first line that has any.
    void choose_delimiter() {
        constexpr int max_lines = 20;
        std::size_t offset = 0;
        std::array<std::size_t, 3> counts{};
        for (int lines = 0; lines < max_lines && counts == std::array<std::size_t, 3>{}; ++lines)
            counts = count_delimiters(offset);
        const auto most = std::max_element(counts.begin(), counts.end());
        for (auto other = counts.begin(); other != counts.end(); ++other)
            if (other != most && *other == *most && *most > 0)
                fail(at(start), tie_message(static_cast<std::size_t>(most - counts.begin()),
                                            static_cast<std::size_t>(other - counts.begin())));
        delimiter = delimiters[static_cast<std::size_t>(most - counts.begin())];
        set_specials();
    }

    static std::string tie_message(std::size_t a, std::size_t b) {
        return std::string("the header has as many ") + delimiter_names[a] + " as " + delimiter_names[b] +
               ": use --delimiter to say which one separates the fields";
    }

    /// How often each delimiter occurs outside quotes in the line that is `offset` behind the record's start,
    /// which then moves to the next line.
    std::array<std::size_t, 3> count_delimiters(std::size_t& offset) {
        std::array<std::size_t, 3> counts{};
        bool quoted = false;
        for (;; ++offset) {
            while (start + offset == end && !ended)
                fill();
            if (start + offset == end)
                return counts;
            const char c = *at(start + offset);
            if (c == '\n' && !quoted) {
                ++offset;
                return counts;
            }
            quoted = quoted != (c == '"');
            const auto found = std::find(delimiters.begin(), delimiters.end(), c);
            if (!quoted && found != delimiters.end())
                ++counts[static_cast<std::size_t>(found - delimiters.begin())];
        }
    }

    /// Splits the record into fields; false if it goes beyond the buffer's text and there is more.
    bool split() {
        fields.clear();
        doubled.clear();
        line_breaks = 0;
        in_quotes = false;
        const char* c = at(start);
        for (;;) {
            c = *c == '"' ? quoted_field(c) : bare_field(c);
            if (c == nullptr)
                return false;
            if (*c != delimiter)
                return end_record(c);
            ++c;
        }
    }

    /// Appends the field that starts here and goes to its end.
    const char* bare_field(const char* c) {
        const char* const first = c;
        while (!special[static_cast<unsigned char>(*c)])
            ++c;
        if (*c == '"')
            fail(c, "a quote inside a field that does not start with one: put the field in quotes and double "
                    "the quote");
        fields.emplace_back(first, static_cast<std::size_t>(c - first));
        return c;
    }

    /// The same for a field in quotes; null if the buffer's text ends before the field does.
    const char* quoted_field(const char* const opening) {
        bool has_doubled = false;
        const char* closing = opening;
        for (;;) {
            const auto left = static_cast<std::size_t>(at(end) - (closing + 1));
            closing = static_cast<const char*>(std::memchr(closing + 1, '"', left));
            if (closing == nullptr || (closing + 1 == at(end) && !ended))
                return cut_in_quotes(opening);
            if (closing[1] != '"')
                break;
            has_doubled = true;
            ++closing;
        }
        if (has_doubled)
            doubled.push_back(fields.size());
        fields.emplace_back(opening + 1, static_cast<std::size_t>(closing - opening - 1));
        line_breaks += static_cast<std::size_t>(std::count(opening, closing, '\n'));
        if (!special[static_cast<unsigned char>(closing[1])])
            fail(closing + 1,
                 "text after a closing quote: double every quote that is inside a field in quotes");
        return closing + 1;
    }

    const char* cut_in_quotes(const char* opening) {
        in_quotes = true;
        open_quote = static_cast<std::size_t>(opening - buffer.data());
        if (ended) {
            fail_at_fault();
            fail_open_quote();
        }
        return nullptr;
    }

    bool end_record(const char* c) {
        const char* line_end = c;
        if (*c == '\r')
            ++line_end;
        if (*line_end == '\0') {
            if (!ended)
                return false;
            fail_at_fault();
        }
        if (*c == '\r' && *line_end != '\n')
            fail(c, "a carriage return without a line feed: save the file with LF or CRLF line ends");
        if (*line_end == '\n') {
            ++line_end;
            ++line_breaks;
        }
        next = static_cast<std::size_t>(line_end - buffer.data());
        return true;
    }

    void undouble_quotes() {
        if (undoubled.size() < doubled.size())
            undoubled.resize(doubled.size());
        for (std::size_t i = 0; i < doubled.size(); ++i) {
            undoubled[i] = without_doubled_quotes(fields[doubled[i]]);
            fields[doubled[i]] = undoubled[i];
        }
    }

    const char* field_start(std::size_t field) const {
        const char* c = at(start);
        for (bool quoted = false; field > 0; ++c) {
            quoted = quoted != (*c == '"');
            if (*c == delimiter && !quoted)
                --field;
        }
        return c;
    }
};

CsvReader::CsvReader(std::istream& in, const CsvOptions& options, std::string_view start)
    : state_(std::make_unique<State>(in, options, start)) {}

CsvReader::~CsvReader() = default;

bool CsvReader::next() {
    State& s = *state_;
    s.start = s.next;
    s.line += s.line_breaks;
    s.line_breaks = 0;
    if (!s.pass_empty_lines()) {
        s.next = s.start;
        s.fail_at_fault();
        return false;
    }
    if (!s.is_begun) {
        s.is_begun = true;
        s.pass_stated_delimiter();
        if (!s.pass_empty_lines()) {
            s.next = s.start;
            s.fail_at_fault();
            return false;
        }
    }
    if (s.delimiter == '\0')
        s.choose_delimiter();
    while (!s.split())
        s.fill();
    s.undouble_quotes();
    return true;
}

const std::vector<std::string_view>& CsvReader::cells() const {
    return state_->fields;
}

std::size_t CsvReader::line(std::size_t i) const {
    return i == 0 ? state_->line : state_->place(state_->field_start(i)).line;
}

bool CsvReader::encoding_is_doubtful() const {
    return state_->source.may_be_utf_8();
}

std::size_t CsvReader::column(std::size_t i) const {
    return state_->place(state_->field_start(i)).column;
}

} // namespace inkturn
