#pragma once

#include <cstddef>
#include <iosfwd>
#include <memory>
#include <optional>
#include <string>

namespace inkturn {

bool stdin_is_terminal();
bool stdout_is_terminal();
bool stderr_is_terminal();

/// Whether styles such as bold may be written to standard output: a terminal, not a dumb one, NO_COLOR not
/// set.
bool stdout_takes_styles();

/// Columns for text on the terminal that is standard output, 20 to 80; 80 if unknown.
std::size_t text_columns();

/// Lays tables out for the terminal that standard output is, if it is one; below 80 columns lines that are
/// too long are broken at words, further ones indented by two. What a dumb terminal or a file gets stays as
/// it is.
class TerminalLayout {
  public:
    TerminalLayout(std::ostream& out, bool is_data); ///< data, such as JSON, stays as it is, too
    ~TerminalLayout();
    TerminalLayout(const TerminalLayout&) = delete;
    TerminalLayout& operator=(const TerminalLayout&) = delete;

  private:
    class Wrapping;
    std::ostream& out_;
    std::streambuf* before_ = nullptr;
    std::unique_ptr<Wrapping> wrapping_;
};

/// One line on standard error that shows how far a long read has got; nothing if that isn't a terminal.
class ProgressLine {
  public:
    /// `whole`: bytes, if known.
    ProgressLine(std::ostream& err, std::string what, std::optional<std::size_t> whole);
    ~ProgressLine(); ///< wipes the line
    ProgressLine(const ProgressLine&) = delete;
    ProgressLine& operator=(const ProgressLine&) = delete;
    void show(std::size_t bytes);
    void show_page(std::size_t page, std::size_t pages); ///< from 1

  private:
    std::ostream& err_;
    std::string what_;
    std::optional<std::size_t> whole_;
    std::size_t shown_ = 0;
};

} // namespace inkturn
