#pragma once

#include <chrono>
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

/// One line on standard error that shows how far long work has got and how long it will still take, from a
/// second after the first was begun on; nothing if that isn't a terminal, or nobody wants it.
class ProgressLine {
  public:
    /// `what` is done, such as `inkturn: reading`; `whole`: bytes, if known.
    ProgressLine(std::ostream& err, std::string what, std::optional<std::size_t> whole, bool quiet);
    ~ProgressLine(); ///< wipes the line
    ProgressLine(const ProgressLine&) = delete;
    ProgressLine& operator=(const ProgressLine&) = delete;
    void show(std::size_t bytes);
    void show_share(double share_done); ///< from 0 to 1
    /// The piece that is begun, from 1, of so many: `page`, `candidate`.
    void show_piece(const char* name, std::size_t piece, std::size_t pieces);
    /// What is done last, where the line is shown.
    void show_last(const std::string& what);

  private:
    using Clock = std::chrono::steady_clock;

    bool is_time() const; ///< not before a second has passed, then some times a second
    void write(const std::string& how_far, double share_done);

    std::ostream& err_;
    std::string what_;
    std::optional<std::size_t> whole_;
    bool is_shown_;
    Clock::time_point began_ = Clock::now();
    Clock::time_point next_;
    std::size_t columns_ = 0; ///< of the line on the screen
};

} // namespace inkturn
