#include "cli/closing.hpp"

#include "view/text/text.hpp"

#include <algorithm>
#include <vector>

namespace inkturn {
namespace {

constexpr const char* broken_line = " \\\n      ";

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    for (std::size_t start = 0; start <= text.size();) {
        const std::size_t end = std::min(text.find('\n', start), text.size());
        lines.push_back(text.substr(start, end - start));
        start = end + 1;
    }
    return lines;
}

bool begins_with(const std::string& text, const char* beginning) {
    return text.rfind(beginning, 0) == 0;
}

bool is_sentence(const std::string& line) {
    return !line.empty() && line.front() != ' ';
}

bool is_command(const std::string& line) {
    return begins_with(line, "  inkturn");
}

/// A command's words, quoted ones whole, an option together with what follows it unless both are wider than
/// `width`.
std::vector<std::string> pieces_of(const std::string& command, std::size_t width) {
    std::vector<std::string> pieces;
    std::string piece;
    bool is_quoted = false;
    for (const char c : command) {
        is_quoted ^= c == '\'';
        const std::string last = piece.substr(piece.rfind(' ') + 1); // npos + 1 is 0
        if (c != ' ' || is_quoted || last.empty() || last.front() == '-') {
            piece += c;
            continue;
        }
        pieces.push_back(piece);
        piece.clear();
    }
    pieces.push_back(piece);
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        const std::size_t blank = pieces[i].find(' ');
        if (columns(pieces[i]) <= width || pieces[i].front() != '-' || blank == std::string::npos)
            continue;
        pieces.insert(pieces.begin() + static_cast<std::ptrdiff_t>(i) + 1, pieces[i].substr(blank + 1));
        pieces[i].erase(blank);
    }
    return pieces;
}

std::string broken_command(const std::string& line, std::size_t width) {
    constexpr std::size_t further_indent = 6;
    constexpr std::size_t mark = 2; // a blank and the backslash
    const std::size_t indent = line.find_first_not_of(' ');
    std::string text(indent, ' ');
    std::size_t taken = indent;
    for (const std::string& piece : pieces_of(line.substr(indent), width - further_indent - mark)) {
        const std::size_t needed = columns(piece);
        const bool begins = text.size() == indent;
        const bool fits = taken + 1 + needed + mark <= width;
        text += begins ? "" : fits ? " " : broken_line;
        taken = begins ? indent + needed : fits ? taken + 1 + needed : further_indent + needed;
        text += piece;
    }
    return text;
}

/// Where the last column of a table's row begins.
std::size_t last_column(const std::string& row) {
    const std::size_t name = row.find_first_not_of(' ');
    const std::size_t gap = row.find("  ", name);
    return gap == std::string::npos ? name : row.find_first_not_of(' ', gap);
}

/// The row of a table, further lines below its last column; where that is narrow, on lines of its own.
std::string broken_row(const std::string& line, std::size_t width) {
    constexpr std::size_t min_width = 24;
    constexpr std::size_t further_indent = 6;
    const std::size_t text = last_column(line);
    if (text + min_width <= width)
        return line.substr(0, text) + wrapped(line.substr(text), width - text, text);
    return line.substr(0, line.find_last_not_of(' ', text - 1) + 1) + '\n' +
           std::string(further_indent, ' ') +
           wrapped(line.substr(text), width - further_indent, further_indent);
}

bool is_broken(const std::string& command) {
    return command.size() > 1 && command.compare(command.size() - 2, 2, " \\") == 0;
}

/// Whether the next line is more of the row's last column.
bool goes_on_in(const std::string& row, const std::string& next) {
    return begins_with(row, "  ") && !is_command(row) && last_column(row) > row.find_first_not_of(' ') &&
           next.find_first_not_of(' ') == last_column(row);
}

/// The line with those that it goes on in: a sentence to its end, a command to that of its last line, a row
/// below its last column; `at` moves to the last.
std::string whole(const std::vector<std::string>& lines, std::size_t& at) {
    std::string line = lines[at];
    const auto has_next = [&] { return at + 1 < lines.size(); };
    while (is_broken(line) && has_next()) {
        const std::string& next = lines[++at];
        line.replace(line.size() - 1, 1, next, std::min(next.find_first_not_of(' '), next.size()));
    }
    while (has_next() && goes_on_in(line, lines[at + 1])) {
        const std::string& next = lines[++at];
        line += ' ' + next.substr(next.find_first_not_of(' '));
    }
    while (is_sentence(line) && line.back() != '.' && has_next() && is_sentence(lines[at + 1]) &&
           !begins_with(lines[at + 1], "Example"))
        line += ' ' + lines[++at];
    return line;
}

std::string broken(const std::string& line, std::size_t width) {
    if (is_sentence(line))
        return wrapped(line, width);
    return is_command(line) ? broken_command(line, width) : broken_row(line, width);
}

} // namespace

std::string laid_out(const std::string& closing, std::size_t width) {
    std::string text;
    const std::vector<std::string> lines = lines_of(closing);
    for (std::size_t i = 0; i < lines.size(); ++i) {
        text += i == 0 ? "" : "\n";
        if (columns(lines[i]) <= width) {
            text += lines[i];
            continue;
        }
        text += broken(whole(lines, i), width);
    }
    return text;
}

} // namespace inkturn
