#include "cli/terminal.hpp"

#include "inkturn/base/time.hpp"
#include "view/text/table.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <cstring>
#include <iomanip>
#include <optional>
#include <ostream>
#include <streambuf>
#include <string>
#include <sys/ioctl.h>
#include <unistd.h>
#include <vector>

namespace inkturn {
namespace {

constexpr double megabyte = 1e6;
constexpr double min_share_foreseen = 0.01; ///< less says nothing of how long the rest takes
constexpr std::size_t min_columns = 20;
constexpr std::size_t max_table_columns = 200;

/// Without the sequences that set a style, such as bold; nothing if there is one that does anything else.
std::optional<std::string> without_styles(const std::string& text) {
    std::string plain;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text[i] != '\x1b') {
            plain += text[i];
            continue;
        }
        const std::size_t end = text.find_first_not_of("[0123456789;", i + 1);
        if (end == std::string::npos || text[end] != 'm')
            return std::nullopt;
        i = end;
    }
    return plain;
}

/// Columns of the last line, without styles.
std::size_t columns_of_last(const std::string& lines) {
    const std::string last = lines.substr(lines.rfind('\n') + 1);
    return columns(without_styles(last).value_or(last));
}

/// Adds a piece, on a line of its own where it would not fit; `joint` stands before it on the same line.
void add_piece(std::string& lines, const std::string& piece, const char* joint, std::size_t width,
               std::size_t indent) {
    const bool fits = lines.empty() || columns_of_last(lines) + columns_of_last(joint + piece) <= width;
    lines += lines.empty() ? "" : fits ? joint : "\n" + std::string(indent, ' ');
    lines += piece;
}

/// Where a path may be broken: after each slash.
std::vector<std::string> parts_of_path(const std::string& path) {
    std::vector<std::string> pieces;
    for (std::size_t start = 0; start < path.size();) {
        const std::size_t end = std::min(path.find('/', start), path.size() - 1) + 1;
        pieces.push_back(path.substr(start, end - start));
        start = end;
    }
    return pieces;
}

/// Broken at blanks, and a word that is too long for a line, such as a path, at its slashes.
std::string broken(const std::string& text, std::size_t width, std::size_t indent) {
    std::string lines;
    for (std::size_t start = 0; start < text.size();) {
        const std::size_t end = std::min(text.find(' ', start), text.size());
        const std::string word = text.substr(start, end - start);
        const bool is_long = indent + columns_of_last(word) > width;
        const char* joint = " ";
        for (const std::string& piece : is_long ? parts_of_path(word) : std::vector{word}) {
            add_piece(lines, piece, joint, width, indent);
            joint = "";
        }
        start = end + 1;
    }
    return lines;
}

} // namespace

bool stdin_is_terminal() {
    return ::isatty(STDIN_FILENO) == 1;
}
bool stdout_is_terminal() {
    return ::isatty(STDOUT_FILENO) == 1;
}
bool stderr_is_terminal() {
    return ::isatty(STDERR_FILENO) == 1;
}

bool stdout_takes_styles() {
    const char* no_colour = std::getenv("NO_COLOR");
    const char* terminal = std::getenv("TERM");
    return stdout_is_terminal() && !(no_colour && *no_colour) && terminal &&
           std::strcmp(terminal, "dumb") != 0;
}

std::size_t text_columns() {
    winsize size{};
    if (::ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) != 0 || size.ws_col == 0)
        return Table::full_width;
    return std::clamp<std::size_t>(size.ws_col, min_columns, Table::full_width);
}

/// Passes text on line by line, or up to where it is flushed.
class TerminalLayout::Wrapping : public std::streambuf {
  public:
    Wrapping(std::streambuf* out, std::size_t width) : out_(out), width_(width) {}

  protected:
    int_type overflow(int_type c) override {
        if (traits_type::eq_int_type(c, traits_type::eof()))
            return traits_type::not_eof(c);
        line_ += traits_type::to_char_type(c);
        return line_.back() == '\n' && !pass_on() ? traits_type::eof() : c;
    }

    int sync() override { return pass_on() && out_->pubsync() == 0 ? 0 : -1; }

  private:
    bool pass_on() {
        const bool ends = !line_.empty() && line_.back() == '\n';
        std::string text = ends ? line_.substr(0, line_.size() - 1) : line_;
        const auto plain = without_styles(text); // the clock places its own lines
        if (plain && columns(*plain) > width_) {
            const std::size_t start = std::min({text.find_first_not_of(' '), text.size(), width_ / 2});
            text = text.substr(0, start) + broken(text.substr(start), width_ - start, start + 2);
        }
        if (ends)
            text += '\n';
        line_.clear();
        const auto size = static_cast<std::streamsize>(text.size());
        return out_->sputn(text.data(), size) == size;
    }

    std::streambuf* out_;
    std::size_t width_;
    std::string line_;
};

TerminalLayout::TerminalLayout(std::ostream& out, bool is_data) : out_(out) {
    if (is_data)
        return;
    winsize size{};
    if (!stdout_is_terminal() || ::ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) != 0 || size.ws_col < min_columns)
        return;
    Table::set_width(std::min<std::size_t>(size.ws_col, max_table_columns));
    if (size.ws_col >= Table::full_width)
        return;
    wrapping_ = std::make_unique<Wrapping>(out_.rdbuf(), size.ws_col);
    before_ = out_.rdbuf(wrapping_.get());
}

TerminalLayout::~TerminalLayout() {
    if (!before_)
        return;
    out_.flush();
    out_.rdbuf(before_);
}

ProgressLine::ProgressLine(std::ostream& err, std::string what, std::optional<std::size_t> whole, bool quiet)
    : err_(err), what_(std::move(what)), whole_(whole), is_shown_(!quiet && stderr_is_terminal()) {
    static const Clock::time_point first = began_;
    next_ = first + std::chrono::seconds(1);
}

bool ProgressLine::is_time() const {
    return is_shown_ && Clock::now() >= next_;
}

void ProgressLine::write(const std::string& how_far, double share_done) {
    const std::chrono::duration<double> passed = Clock::now() - began_;
    std::string line = what_ + how_far;
    if (share_done >= min_share_foreseen && share_done < 1)
        line += ", " + length_text(Seconds(std::lround(passed.count() * (1 - share_done) / share_done))) +
                " left";
    line = fitted(line, std::min(columns(line), text_columns() - 1)); // a wrapped line can't be taken back
    const std::size_t length = line.size();
    line.resize(std::max(length, columns_), ' ');
    err_ << '\r' << line << std::flush;
    columns_ = length;
    next_ = Clock::now() + std::chrono::milliseconds(200);
}

void ProgressLine::show(std::size_t bytes) {
    if (!is_time())
        return;
    const std::string of = whole_ ? " of " + decimal(static_cast<double>(*whole_) / megabyte, 1) : "";
    write(" " + decimal(static_cast<double>(bytes) / megabyte, 1) + of + " MB",
          whole_ ? static_cast<double>(bytes) / static_cast<double>(*whole_) : 0);
}

void ProgressLine::show_share(double share_done) {
    if (is_time())
        write(", " + std::to_string(static_cast<int>(100 * share_done)) + "%", share_done);
}

void ProgressLine::show_piece(const char* name, std::size_t piece, std::size_t pieces) {
    if (is_time())
        write(", " + std::string(name) + " " + std::to_string(piece) + " of " + std::to_string(pieces),
              static_cast<double>(piece - 1) / static_cast<double>(pieces));
}

void ProgressLine::show_last(const std::string& what) {
    if (columns_ > 0 || is_time())
        write(", " + what, 0);
}

ProgressLine::~ProgressLine() {
    if (columns_ > 0)
        err_ << '\r' << std::setw(static_cast<int>(columns_)) << ' ' << '\r' << std::flush;
}

} // namespace inkturn
