#pragma once

#include <chrono>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include <termios.h>

namespace inkturn {

/// What woke a LiveTerminal.
struct Wake {
    enum class Why { time, key, redraw, end };
    Why why = Why::time;
    std::string key{};           ///< what one key sent: a character or an escape sequence
    std::optional<int> signal{}; ///< if why is end: the signal; nothing if the terminal was closed
};

/// A terminal that shows a few lines, redrawn again and again, and reads one key at a time. While it lives,
/// keys aren't echoed and it handles the signals that end or stop a program; afterwards, and while the
/// program is stopped, the terminal is as it was found. Only one may exist at a time.
class LiveTerminal {
  public:
    LiveTerminal();  ///< standard input and output must be a terminal
    ~LiveTerminal(); ///< wipes its lines away
    LiveTerminal(const LiveTerminal&) = delete;
    LiveTerminal& operator=(const LiveTerminal&) = delete;

    /// Replaces what was drawn before: printable lines, each cut to the width, then the message, wrapped.
    /// Lines that don't fit the terminal's rows are left out; the first is bold if `bold`. A terminal that
    /// can't go back a line shows only the message, or the first line if there is none.
    void draw(std::vector<std::string> lines, const std::string& message, bool bold) const;
    void ring();

    /// Waits until a key is pressed, the size changes, the program must end, or the time is up.
    Wake wait(std::chrono::milliseconds max);

  private:
    void take();
    void give_back();
    void stop();

    termios found_{};
    bool can_go_up_;
    std::string keys_; ///< read, but not passed on yet
};

} // namespace inkturn
